import { test } from "vitest";
import { expectAsReadAnew } from "../support/edited-days.ts";

/** After any edits of the days, what is told of exposures is what a logbook that is read anew tells. */

const room = `room "Shed"
  trace 4 d
species praecox
tank a
  volume 100 L
tank b
  volume 60 L
tank h1
  volume 20 L
  role hospital
system sump-water
  sump 20 L
tank s
  volume 20 L
  system sump-water
tank t
  volume 20 L
  system sump-water
group some = b, s
`;
const lines = [
  "a count praecox 9",
  "b count praecox 0",
  "b change 100 %",
  "b change 60 L with net",
  "a sick praecox 2 case spot",
  "b sick praecox 1 case spot",
  "s sick praecox 1",
  "a sick praecox 0 case spot",
  "a close spot recovered",
  "nowhere sick praecox 1 case spot",
  "a move praecox 1 -> b with net",
  "b move praecox 1 -> s",
  "@some move praecox 1 -> a",
  "a move praecox 1 -> h1",
  't sell praecox 1 to "x"',
  't sell praecox 1 to "y"',
  'b arrive praecox 1 from "x"',
  'b arrive praecox 1 from "y"',
  "b carry wood -> t",
  "a clean with net",
  "s clean with net",
  "room disinfect net",
  "a disinfect",
  "b disinfect",
];
const days = ["2026-03-01", "2026-03-02", "2026-03-05", "2026-03-09"];

test("exposures after any edits", () => {
  expectAsReadAnew({
    room,
    lines,
    days,
    today: "2026-03-10",
    codes: /^(?:exposure|disinfect)\//,
    edits: 14,
    put: 3,
    numRuns: 120,
  });
});
