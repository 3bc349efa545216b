import { planWork } from "../../language/science/recurring-work-plan.ts";
import { inventedRoom } from "./work-room.ts";

/** How long a plan of 14 days takes, and how near it is to its bound, over invented rooms with two days away. */
export interface PlannerTimes {
  readonly medianMs: number;
  /** What the plan costs of waiting, and what no plan can go below, a duty: in days late of an interval. The best plan lies between. */
  readonly cost: number;
  readonly bound: number;
  /** What the plan costs in parts of its bound: in the middle, and at most. */
  readonly ratio: number;
  readonly worst: number;
}

/** @param load what the duties ask for on an average day, of what a day holds */
export function plannerTimes(tanks: number, load: number, rooms = 9): PlannerTimes {
  // Once for the compiler, and once for the clock.
  const made = Array.from({ length: 2 * rooms }, (_, at) => {
    const room = inventedRoom(tanks, 1 + (at % rooms), load);
    const begun = performance.now();
    const { cost, bound } = planWork(room);
    const ms = performance.now() - begun;
    return { ms, cost: cost / room.jobs.length, bound: bound / room.jobs.length, ratio: cost / bound };
  }).slice(rooms);
  const sorted = (of: "ms" | "cost" | "bound" | "ratio"): number[] =>
    made.map((each) => each[of]).sort((a, b) => a - b);
  const middle = (of: "ms" | "cost" | "bound" | "ratio"): number => sorted(of)[made.length >> 1]!;
  return {
    medianMs: middle("ms"),
    cost: middle("cost"),
    bound: middle("bound"),
    ratio: middle("ratio"),
    worst: sorted("ratio").at(-1)!,
  };
}
