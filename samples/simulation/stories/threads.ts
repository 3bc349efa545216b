import { type Scene, says } from "./scene.ts";

const ratings = [
  ["2025-10-05", 2],
  ["2025-10-12", 3],
  ["2025-10-19", 3],
  ["2025-10-26", 2],
  ["2025-11-02", 3],
  ["2025-11-09", 3],
  ["2025-11-23", 2],
  ["2025-11-30", 2],
  ["2025-12-07", 1],
  ["2025-12-14", 1],
  ["2025-12-21", 2],
  ["2025-12-28", 1],
] as const;

/** Thread algae in the ford, rated on Sundays: an hour less light on 10 November. */
export const threads: readonly Scene[] = ratings.map(([on, rating]) =>
  says(on, "19:25", "ford", `algae thread ${rating}`),
);
