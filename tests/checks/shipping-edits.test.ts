import { test } from "vitest";
import { expectAsReadAnew } from "../support/edited-days.ts";

/** After any edits of the days, sales, shipments and orders say what a logbook that is read anew says. */

const room = `room "Shed"
  quarantine 5 d
  fasting 24 h
species praecox
remedy prazi
  target 2 mg/L
  half-life 1 d
  withdrawal 4 d
tank dam
  volume 100 L
tank r1
  volume 20 L
group both = dam, r1
order o-1
  wants praecox 6; placed 2026-03-01; due 2026-03-06
`;
const lines = [
  "dam count praecox 20",
  "r1 count praecox 9",
  "dam arrive praecox 5 dead 1",
  "@both feed flake",
  "dam feed none",
  "dam dose prazi 200 mg",
  "dam sick praecox 1 case spot",
  "room close spot recovered",
  "nowhere close spot recovered",
  "dam ship praecox 4 order o-1",
  "r1 ship praecox 3 order o-7",
  "dam sell praecox 9",
  "@both sell praecox 2",
  "room doa praecox 2 order o-1",
  "nowhere doa praecox 9 order o-1",
  "room doa none order o-3",
  'dam note "well"',
];
const days = ["2026-03-01", "2026-03-02", "2026-03-05", "2026-03-07"];

test("sales, shipments and orders after any edits", () => {
  expectAsReadAnew({
    room,
    lines,
    days,
    today: "2026-03-08",
    codes: /^(?:ship|order|doa)\//,
    edits: 12,
    put: 2,
    numRuns: 150,
  });
});
