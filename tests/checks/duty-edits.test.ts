import { test } from "vitest";
import { expectAsReadAnew } from "../support/edited-days.ts";

/** Duties that hang on entries of other places: a gear's at its tank, the room's anywhere, a tank's at its system. */

const room = `room "Shed"
  every 2 d check kits
  every 3 d service ph-meter calibrated
  every 2 d left flake
  off sunday
  away 2026-03-05 covered feed
system rack-water
  sump 60 L
  every 3 d clean
tank dam
  volume 100 L
  from 2026-02-01
  every 2 d clean glass
  every 2 d check heater
  every 2 d feed
  every 3 d change 25..35 %
tank r1
  volume 20 L
  system rack-water
  from 2026-02-01
  every 2 d clean front-glass
food flake
  kind dry; expires 2026-03-04
remedy salt
  target 1 g/L; expires 2026-03-03
gear ph-meter
  kind meter
gear ph-kit
  kind kit; expires 2026-03-02
  every 2 d check
gear gh-kit
  kind kit
gear canister
  kind filter
  on dam
  from 2026-02-01
  lasts 20 d
  every 4 d service rinsed
gear heater-1
  kind heater; on dam
  from 2026-02-01
  every 4 d service checked
`;

const lines = [
  "dam service canister rinsed",
  "dam service filter replaced",
  "canister service replaced",
  "ph-meter service calibrated",
  "dam service ph-meter replaced",
  "room check kits",
  "room check ph-kit, gh-kit",
  "r1 check ph-kit",
  "room service ph-kit replaced",
  "dam check heater",
  "heater-1 check",
  "room check",
  "dam clean front-glass, back-glass",
  "dam clean side-glass",
  "dam clean glass",
  "rack-water clean",
  "r1 clean front-glass",
  "dam change 20 %",
  "dam change 30 %",
  "room left flake 20 g",
  "dam left flake 0 g",
  "room left salt 0 g",
  "dam feed flake 1 g",
  "dam feed none",
  "dam dose salt 100 g",
];

const days = ["2026-03-01", "2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05", "2026-03-06"];

test("duties, and what is past its day, are after any edits what a logbook read anew tells", () => {
  expectAsReadAnew({
    room,
    lines,
    days,
    today: "2026-03-07",
    codes: /^(duty|gear|dose|feed)\//,
    edits: 5,
    put: 3,
    numRuns: 150,
  });
}, 60_000);
