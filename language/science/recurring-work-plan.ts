import { tiny, type WorkDay, type WorkProblem } from "./recurring-work.ts";
import { Pricing } from "./recurring-work-bound.ts";
import { exactly } from "./recurring-work-exact.ts";
import { Master } from "./recurring-work-master.ts";
import { Planner } from "./recurring-work-planner.ts";

/**
 * A plan of recurring work that costs little (`recurring-work.ts` says what is counted), and a bound no plan can go below.
 *
 * Our own heuristic of common parts: jobs are placed one after the other, each on its cheapest days by dynamic programming within what
 * is left, first by their due days, then at the prices of the relaxation (`recurring-work-bound.ts`); the linear relaxation is solved by
 * ways of whole places (`recurring-work-master.ts`), of days that hold a little less, so that what is rounded finds room; then each job
 * is taken out and placed anew, alone, in pairs that stand in each other's way and a few together, while that makes it cheaper. What the bound leaves
 * open is searched through where it is little (`recurring-work-exact.ts`). No clock, and no chance but a fixed sequence: the same problem has the same plan.
 */
export interface WorkPlan {
  /** The days of each job, in order. */
  readonly days: readonly (readonly number[])[];
  readonly cost: number;
  /** No plan costs less. */
  readonly bound: number;
  /** It was shown that no plan costs less. */
  readonly isBest: boolean;
}

/** How much is tried, so that a plan takes some tens of milliseconds whatever the room. */
interface Effort {
  /** Of the subgradient. A plan is made at the prices of every so many. */
  readonly rounds: number;
  readonly roundsAPlan: number;
  /** What days hold less in the relaxation, in parts of a job of middling size: the more, the more is left to round with. */
  readonly reserves: readonly number[];
  readonly mostWaysRounds: number;
  readonly mostSteps: number;
  /** Pairs that are placed anew. */
  readonly tries: number;
  /** Times that a few places are placed anew together. */
  readonly shakes: number;
}

/** @param size jobs times days */
function effortOf(size: number): Effort {
  if (size <= 1000)
    return {
      rounds: 45,
      roundsAPlan: 15,
      reserves: [0, 0.4, 0.8, 1.2],
      mostWaysRounds: 20,
      mostSteps: 4000,
      tries: 1500,
      shakes: 3000,
    };
  if (size <= 5000)
    return {
      rounds: 30,
      roundsAPlan: 30,
      reserves: size <= 2500 ? [0, 0.8] : [0.4, 0.9],
      mostWaysRounds: 12,
      mostSteps: 4500,
      tries: 400,
      shakes: 5000,
    };
  return {
    rounds: 16,
    roundsAPlan: Infinity,
    reserves: [1],
    mostWaysRounds: 8,
    mostSteps: 4500,
    tries: 100,
    shakes: 300,
  };
}

export function planWork(problem: WorkProblem): WorkPlan {
  const effort = effortOf(problem.jobs.length * problem.days.length);
  const pricing = new Pricing(problem);
  const planner = new Planner(problem);
  let best = planner.plan();
  const followed = (problem.daysBefore ?? 0) > 0 ? planner.follow() : best;
  if (followed.cost < best.cost) best = followed;
  for (let round = 1; round <= effort.rounds; round++) {
    pricing.round(best.cost);
    if (best.cost <= pricing.best.bound + tiny) break;
    if (round % effort.roundsAPlan !== 0) continue;
    const other = planner.plan(pricing);
    if (other.cost < best.cost - tiny) best = other;
  }
  let { bound } = pricing.best;
  for (const reserve of effort.reserves) {
    if (best.cost <= bound + tiny) break;
    const less = withReserve(problem, reserve);
    const begun = reserve === 0 ? best : new Planner(less).plan(pricing);
    const master = new Master(less, problem, planner.groups, begun.days, pricing);
    master.run(effort.mostWaysRounds, effort.mostSteps);
    bound = Math.max(bound, master.bound);
    const rounded = planner.round(master.shares());
    if (rounded.cost < best.cost - tiny) best = rounded;
  }
  if (best.cost > bound + tiny) best = planner.refine(best, effort.tries);
  if (best.cost > bound + tiny) best = planner.shake(best, effort.shakes);
  if (best.cost <= bound + tiny) return { ...best, bound: Math.min(bound, best.cost), isBest: true };
  const searched = exactly(problem, pricing, best);
  if (searched === undefined) return { ...best, bound, isBest: false };
  return { ...searched, bound: searched.cost, isBest: true };
}

/** Days give up no more than this part of what they hold; of visits one, where they hold many. Our own choice. */
const mostReserve = 0.1;
const manyPlaces = 20;

function withReserve(problem: WorkProblem, part: number): WorkProblem {
  const { jobs, days } = problem;
  if (part === 0) return problem;
  const means = (days[0]?.resources ?? []).map((_, of) => {
    const used = jobs.map(({ uses }) => uses[of]!).filter((use) => use > 0);
    return used.reduce((sum, use) => sum + use, 0) / Math.max(1, used.length);
  });
  const less = (day: WorkDay): WorkDay => ({
    ...day,
    resources: day.resources.map((holds, of) =>
      holds === Infinity ? holds : Math.max(holds * (1 - mostReserve), holds - part * means[of]!),
    ),
    places: day.places < manyPlaces ? day.places : day.places - 1,
  });
  return { ...problem, days: days.map(less) };
}
