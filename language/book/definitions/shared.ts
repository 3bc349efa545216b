import { type PropertyKind, property, single } from "../property.ts";
import { choice, oneQuantity, text } from "../slots.ts";

/** Properties that several kinds of definition have. */

export const limits: PropertyKind = property(
  "limits",
  "What the values of the water should be. The narrowest statement wins: tank, then group, then system, then room.",
  [
    {
      name: "parameter",
      doc: "What is limited.",
      filling: { is: "name", of: ["parameter"] },
      each: true,
      required: "a parameter: limits nitrate <= 25 mg/L",
    },
    {
      name: "bounds",
      doc: "A range or a bound.",
      filling: { is: "reading", shape: "limit" },
      each: true,
      required: "a range or a bound: limits nitrate <= 25 mg/L",
    },
  ],
  ["limits temperature 23..27 C, nitrate <= 25 mg/L, pH 6.8..7.8"],
  { list: true, many: true },
);

export const every: PropertyKind = property(
  "every",
  "A duty that is due so many days after it was last done.",
  [],
  ["every 7 d change 25..35 %", "every 28 d service canister", "every 30 d test KH, GH"],
  { form: "every", many: true },
);

export const at: PropertyKind = property(
  "at",
  "A duty that is owed, or allowed, so many times in any so many days.",
  [],
  ["at least 3 per 7 d feed frozen", "at most 2 per 7 d feed dry"],
  { form: "at", many: true },
);

export const keeps: PropertyKind = single(
  "keeps",
  "How long it keeps once it is opened.",
  { filling: oneQuantity("time", "duration") },
  "keeps 90 d",
);

export const opened: PropertyKind = single(
  "opened",
  "When the pack was opened.",
  { filling: { is: "date" } },
  "opened 2026-01-10",
);

export const expires: PropertyKind = single(
  "expires",
  "Last day of use.",
  { filling: { is: "date" } },
  "expires 2026-12-31",
);

export const note: PropertyKind = {
  ...single("note", "Prose, kept and shown.", { filling: text("note") }, 'note "the heater is on the left"'),
  many: true,
};

/** The acts that take a keeper's time in a plan: those of duties, what courses owe, and packing. */
export const timedActs = [
  "change",
  "clean",
  "service",
  "test",
  "count",
  "feed",
  "dose",
  "harvest",
  "start",
  "trim",
  "disinfect",
  "top-up",
  "check",
  "left",
  "condition",
  "algae",
  "remove",
  "return",
  "ship",
] as const;

export const takes: PropertyKind = property(
  "takes",
  "How many minutes an act takes, for the plan. What a tank states goes before what its system states, and that before the room. Where nothing is stated it is learned from entries with a time.",
  [
    {
      name: "act",
      doc: "The act.",
      filling: choice(...timedActs),
      each: true,
      required: "an act: takes clean 20 min",
    },
    {
      name: "time",
      doc: "The time of one act.",
      filling: oneQuantity("time", "duration"),
      each: true,
      required: "a time: takes clean 20 min",
    },
  ],
  ["takes change 12 min, clean 20 min", "takes test 5 min, ship 25 min"],
  { list: true, many: true },
);
