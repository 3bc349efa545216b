import { entryKind } from "../kind.ts";
import type { Filling } from "../slots.ts";

/** What is looked over in a room, beside gear by its name or kind. */
export const knownChecks = [
  "remedies",
  "foods",
  "kits",
  "lamps",
  "heaters",
  "filters",
  "meters",
  "pumps",
  "lids",
  "leads",
  "animals",
  "all",
] as const;

const thing: Filling = {
  is: "name",
  of: ["gear", "remedy", "food", "any"],
  also: knownChecks,
  noun: "thing",
};

export const check = entryKind({
  word: "check",
  title: "Things looked over",
  doc: "What was looked over: last days of use, leads, leaks, whether it works. A gear that was serviced has been looked at, too. Without a thing all that is there was.",
  examples: ["check remedies, foods, kits, lamps", "check heater", 'check lids "one is cracked"'],
  duty: true,
  usual: true,
  sort: "care",
  list: true,
  slots: [{ name: "thing", doc: "What was looked over.", filling: thing, each: true, column: "subject" }],
});
