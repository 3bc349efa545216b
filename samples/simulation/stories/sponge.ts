import { dayOf } from "../calendar.ts";
import { type Parameter, testLine } from "../routines/testing.ts";
import { changes, notes, type Scene, says } from "./scene.ts";

/** The sponges of the grow-out are washed under the tap on 14 June; ammonia, then nitrite, for a week. */

function tests(on: string, at: string, ...parameters: Parameter[]): Scene {
  return { on, at, timed: true, perform: (cellar, now) => [testLine(cellar, "b7", parameters, now)] };
}

export const sponge: readonly Scene[] = [
  says("2025-04-19", "19:35", "b7", "service b7-sponge rinsed", "one half, in tank water"),
  says("2025-05-17", "19:35", "b7", "service b7-sponge rinsed", "other half"),
  says(
    "2025-06-14",
    "11:10",
    "b7",
    "service b7-sponge rinsed",
    "under the tap this time, both halves, they were clogged solid",
  ),
  notes("2025-06-18", "07:25", "b7", "all at the surface before the light is on, breathing fast"),
  tests("2025-06-18", "07:40", "temperature", "pH", "ammonia", "nitrite"),
  changes("2025-06-18", "08:10", "b7", "30 %", "tap", "all the aged water there is"),
  notes("2025-06-18", "08:40", "b7", "it was the sponge, of course; one from b1 hung in beside it, no food"),
  tests("2025-06-19", "07:40", "temperature", "pH", "ammonia"),
  changes("2025-06-19", "08:00", "b7", "45 % from mains", "tap", "barrel still empty, binder in first"),
  tests("2025-06-20", "07:45", "temperature", "pH", "ammonia", "nitrite"),
  changes("2025-06-20", "08:05", "b7", "40 %"),
  tests("2025-06-22", "07:50", "ammonia", "nitrite"),
  tests("2025-06-25", "18:20", "ammonia", "nitrite"),
  notes("2025-06-25", "18:40", "b7", "as good as nothing on both cards, feeding as before from tomorrow"),
  ...[
    "2025-07-12",
    "2025-08-08",
    "2025-09-05",
    "2025-10-03",
    "2025-10-31",
    "2025-11-28",
    "2025-12-26",
    "2026-01-23",
    "2026-02-20",
    "2026-03-20",
  ].map((on, index) =>
    says(
      on,
      "19:35",
      "b7",
      "service b7-sponge rinsed",
      index % 2 === 0 ? "left half, tank water" : "right half, tank water",
    ),
  ),
];

/** b7 is not fed on these days. */
export const fastingDays: readonly string[] = ["2025-06-18", "2025-06-19"].map((on) => `${dayOf(on)}/b7`);
