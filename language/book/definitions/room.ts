import { entryKinds } from "../entries/registry.ts";
import { type DefinitionKind, property, single } from "../property.ts";
import { choice, oneQuantity, quantity, type Slot, text } from "../slots.ts";
import { at, every, limits, note, takes } from "./shared.ts";

const weekday = choice("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday");
const coverable = choice(...entryKinds.filter(({ duty }) => duty).map(({ word }) => word));

/** What is done all the same while the keeper is not there. */
const coveredSlots: readonly Slot[] = [
  {
    name: "covered",
    lead: "covered",
    doc: "What someone else does meanwhile: its duties go on.",
    filling: coverable,
    each: true,
  },
  {
    name: "kind",
    doc: "A further thing that someone else does.",
    filling: coverable,
    behind: "covered",
    each: true,
  },
];

export const room: DefinitionKind = {
  word: "room",
  title: "Room",
  doc: "One a logbook: the units meant where none is written, what one keeper can do in a day, limits and duties for all tanks.",
  properties: [
    property(
      "units",
      "What a number without a unit, or with an ambiguous one, is measured in.",
      [],
      ["units temperature C, volume L, hardness dGH, alkalinity dKH, gallon US, ppm mg/L, ammonia mg/L N"],
      { form: "units", list: true },
    ),
    property(
      "capacity",
      "What one keeper can do in a day; of some weekdays it may be said otherwise.",
      [
        {
          name: "amount",
          doc: "Tanks, litres of prepared water, or minutes.",
          filling: oneQuantity("number of tanks, volume or time", "count", "volume", "duration"),
          each: true,
        },
        { name: "what", doc: "Only for reading.", filling: choice("tanks"), each: true },
        { name: "on", lead: "on", doc: "The weekdays that the line is about.", filling: weekday, each: true },
        { name: "weekday", doc: "A further weekday.", filling: weekday, behind: "on", each: true },
      ],
      ["capacity 7 tanks, 400 L, 150 min", "capacity 3 tanks, 60 min on saturday, sunday"],
      { list: true, many: true },
    ),
    property(
      "flow",
      "How fast water runs out and in at a change: by the siphon or drain, and by the hose or pump.",
      [
        {
          name: "way",
          doc: "`drain` or `fill`.",
          filling: choice("drain", "fill"),
          each: true,
          required: "a way: flow drain 600 L/h, fill 400 L/h",
        },
        {
          name: "rate",
          doc: "How fast.",
          filling: oneQuantity("flow", "flow"),
          each: true,
          required: "a flow: flow drain 600 L/h, fill 400 L/h",
        },
      ],
      ["flow drain 600 L/h, fill 400 L/h"],
      { list: true },
    ),
    single(
      "fasting",
      "How long animals fast before they are shipped.",
      { filling: quantity("time", "duration") },
      "fasting 24..48 h",
    ),
    property(
      "steps",
      "How fine the tests read: the step from one figure to the next that can be told apart. Half a step to either side is carried into what is computed.",
      [
        {
          name: "parameter",
          doc: "What is tested.",
          filling: { is: "name", of: ["parameter"] },
          each: true,
          required: "a parameter: steps nitrate 5 mg/L",
        },
        {
          name: "reading",
          doc: "The step.",
          filling: { is: "reading" },
          each: true,
          required: "a step: steps nitrate 5 mg/L",
        },
      ],
      ["steps nitrate 5 mg/L, ammonia 0.25 mg/L, pH 0.2"],
      { list: true, many: true },
    ),
    single(
      "altitude",
      "How high the room lies above the sea: thin air dissolves less oxygen.",
      { filling: oneQuantity("height", "length") },
      "altitude 320 m",
    ),
    single(
      "quarantine",
      "How long an arrival stays apart.",
      { filling: oneQuantity("time", "duration") },
      "quarantine 28 d",
    ),
    single(
      "clear",
      "How long an arrival stays apart after the last loss, sign of disease or dose, if that ends later.",
      { filling: oneQuantity("time", "duration") },
      "clear 14 d",
    ),
    single(
      "trace",
      "How far back and forward contacts of a sick tank are followed.",
      { filling: oneQuantity("time", "duration") },
      "trace 30 d",
    ),
    property(
      "away",
      "Days on which nobody works in the room, the first and the last: what falls due in them is due on the first day back.",
      [
        { name: "from", lead: "from", doc: "The first day away.", filling: { is: "date" } },
        {
          name: "until",
          lead: "until",
          doc: "The last day away; left out for one day.",
          filling: { is: "date" },
        },
        { name: "day", doc: "One day away.", filling: { is: "date" } },
        { name: "why", doc: "Only for reading.", filling: text("reason") },
        ...coveredSlots,
      ],
      [
        'away from 2026-04-03 until 2026-04-10 "at the sea" covered feed, count',
        'away 2026-12-25 "holiday"',
        "away from 2026-05-01",
      ],
      { list: true, many: true },
    ),
    property(
      "off",
      "Weekdays on which nobody works: what falls due on them is due on the next day with work.",
      [{ name: "weekday", doc: "A weekday.", filling: weekday, each: true }, ...coveredSlots],
      ["off sunday", "off saturday, sunday covered feed"],
      { list: true, many: true },
    ),
    property(
      "as-of",
      "Which day is today: for a log that is finished, its last.",
      [
        { name: "word", doc: "The day of the last entry.", filling: choice("last-entry") },
        { name: "date", doc: "A day.", filling: { is: "date" } },
      ],
      ["as-of last-entry", "as-of 2026-03-31"],
    ),
    limits,
    every,
    at,
    takes,
    note,
  ],
};
