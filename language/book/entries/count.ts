import { entryKind } from "../kind.ts";
import { count as animals, name } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const count = entryKind({
  word: "count",
  title: "Count of animals",
  doc: "What was counted, held against what the book expects. `12 of 14` says how many of how many were seen; `~20` is an estimate.",
  examples: ["count praecox 14, horn ~20", "count praecox 3.5.2", "count praecox 12 of 14"],
  target: "tank",
  duty: true,
  sort: "animals",
  list: true,
  slots: [
    {
      name: "species",
      doc: "What was counted.",
      filling: name("species"),
      each: true,
      column: "subject",
      required: "a species: count praecox 14",
    },
    {
      name: "animals",
      doc: "How many: `14`, `~20`, `3.5.2` (males, females, unsexed).",
      filling: animals(),
      each: true,
      column: "amount",
      required: "a number: count praecox 14",
    },
    {
      name: "expected",
      lead: "of",
      doc: "How many there should be.",
      filling: animals("number expected"),
      each: true,
      column: "second",
    },
    lotSlot("Of which batch, brood or animal alone.", true),
  ],
});
