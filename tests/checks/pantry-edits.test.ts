import { test } from "vitest";
import { expectAsReadAnew } from "../support/edited-days.ts";

/** After any edits of the days, what is on hand, used and grown is what a logbook that is read anew says. */

const room = `room "Shed"
species praecox
food cyclops
  kind frozen; expires 2026-03-20
food flake
  kind dry; opened 2026-01-02
food nauplii
  kind live; ready 20..28 h
remedy prazi
  target 2 mg/L
tank dam
  volume 100 L
tank r1
  volume 20 L
group both = dam, r1
`;
const lines = [
  "room left cyclops 40 g",
  "room left flake 9 g",
  "room buy cyclops 30 g",
  "room left prazi 2 g",
  "dam feed cyclops 8 g",
  "@both feed cyclops 3 g, flake 1 g",
  "r1 feed flake",
  "08:00 dam feed flake 2 g",
  "dam feed none",
  "dam dose prazi 200 mg",
  "08:00 dam start nauplii 2 g",
  "dam start nauplii 1 g",
  "r1 start nauplii 1 g",
  "08:00 dam harvest nauplii 100 mL",
  "dam test nitrate 20",
  'dam note "well"',
  "r1 clean glass",
];
const days = ["2026-03-01", "2026-03-08", "2026-03-15", "2026-03-21", "2026-03-22", "2026-03-23"];

test("what is on hand after any edits", () => {
  expectAsReadAnew({
    room,
    lines,
    days,
    today: "2026-03-23",
    codes: /^feed\/(?:expired|opened|running|culture)/,
    edits: 14,
    put: 3,
    numRuns: 150,
  });
});
