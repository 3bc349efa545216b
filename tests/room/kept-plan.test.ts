import { expect, test } from "vitest";
import { keptPlan } from "../../language/room/planner/kept-plan.ts";
import type { WorkProblem } from "../../language/science/recurring-work.ts";
import { planWork } from "../../language/science/recurring-work-plan.ts";

const problem = (litres: number): WorkProblem => ({
  days: Array.from({ length: 6 }, () => ({
    isOpen: true,
    places: 1,
    resources: [litres, Number.POSITIVE_INFINITY],
  })),
  jobs: [0, 1, 2].map((place) => ({ place, intervalDays: 3, due: 0, uses: [20, 5] })),
});

test("a plan that is kept is the plan of its problem, and of no other", () => {
  const first = keptPlan(problem(50));
  expect(first).toEqual(planWork(problem(50)));
  expect(keptPlan(problem(50))).toBe(first);
  expect(keptPlan(problem(Number.POSITIVE_INFINITY))).toEqual(planWork(problem(Number.POSITIVE_INFINITY)));
  for (const litres of [20, 21, 22, 23]) keptPlan(problem(litres));
  expect(keptPlan(problem(50))).not.toBe(first);
  expect(keptPlan(problem(50))).toEqual(first);
});
