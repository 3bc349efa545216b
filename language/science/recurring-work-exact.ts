import { jobCost, OneJob, tiny, type Way, type WorkProblem, waysOf } from "./recurring-work.ts";
import type { Pricing } from "./recurring-work-bound.ts";
import { Load } from "./recurring-work-load.ts";
import type { Made } from "./recurring-work-planner.ts";

/**
 * Branch and bound over whole ways of doing each job. At the prices of the relaxation a way that costs more than the gap above its job's
 * cheapest is in no better plan, and is left out beforehand (reduced-cost fixing, common practice of integer programming).
 */

/** With what it costs without prices. */
interface OwnWay extends Way {
  readonly own: number;
}

/** More jobs than these are not searched: the gap is then made of too many. */
const mostJobs = 40;
/** So many ways of one job, and so many steps of the search; beyond them nothing is shown. */
const mostWays = 1500;
const mostSteps = 20_000;

/** The best plan; undefined where the search would be too long to end. @param known a plan, whose cost is to be beaten */
export function exactly(problem: WorkProblem, pricing: Pricing, known: Made): Made | undefined {
  const { jobs, days } = problem;
  if (jobs.length > mostJobs) return undefined;
  const prices = pricing.best.of;
  const gap = known.cost - pricing.best.bound;
  const one = new OneJob(days.length);
  const open: { readonly index: number; readonly least: number; readonly ways: readonly OwnWay[] }[] = [];
  let total = 0;
  for (let index = 0; index < jobs.length; index++) {
    const price = pricing.priceOf(index, prices, new Float64Array(days.length));
    one.cheapest(jobs[index]!, price);
    const least = one.cost;
    const ways = waysOf(jobs[index]!, price, least + gap + tiny, mostWays);
    if (ways === undefined) return undefined;
    total += ways.length;
    if (total > 2 * mostWays) return undefined;
    open.push({
      index,
      least,
      ways: ways.map((way) => ({ ...way, own: jobCost(problem, jobs[index]!, way.done) })),
    });
  }
  // Jobs with few ways first: where they cannot be done little was tried.
  open.sort((a, b) => a.ways.length - b.ways.length || a.index - b.index);
  const load = new Load(problem);
  const chosen: (readonly number[])[] = jobs.map(() => []);
  let best = known;
  let steps = 0;
  const search = (at: number, over: number, cost: number): boolean => {
    if (at === open.length) {
      if (cost < best.cost - tiny) best = { days: [...chosen], cost };
      return true;
    }
    const { index, least, ways } = open[at]!;
    const job = jobs[index]!;
    for (const { done, cost: priced, own } of ways) {
      const above = over + priced - least;
      if (pricing.best.bound + above >= best.cost - tiny) break;
      if (++steps > mostSteps) return false;
      if (!place(done, job)) continue;
      chosen[index] = done;
      const isThrough = search(at + 1, above, cost + own);
      load.remove(job, done);
      if (!isThrough) return false;
    }
    return true;
  };
  const place = (done: readonly number[], job: (typeof jobs)[number]): boolean => {
    if (!done.every((day) => load.fits(job, day))) return false;
    load.add(job, done);
    return true;
  };
  return search(0, 0, 0) ? best : undefined;
}
