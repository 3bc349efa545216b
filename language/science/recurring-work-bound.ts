import { allDayCosts, OneJob, type RecurringJob, type WorkProblem } from "./recurring-work.ts";

/**
 * What no plan can cost less than: Lagrangian relaxation of what a day holds, its prices by the subgradient method (Fisher 1981, The
 * Lagrangian relaxation method for solving integer programming problems, Management Science 27; Held, Wolfe & Crowder 1974, Validation
 * of subgradient optimization, Mathematical Programming 6; both recalled). With a price on each resource of each day the jobs fall
 * apart, and each is solved exactly; the sum, less the prices of all that the days hold, is a bound whatever the prices.
 * Visits are bounded by one job of each place, the one that comes most often: the others then go along for nothing.
 */
export interface Prices {
  /** Of each resource, a figure a day; the last is that of visits. */
  readonly of: readonly Float64Array[];
  readonly bound: number;
}

/** Rounds of the subgradient without a better bound before its step is halved. */
const patience = 4;

/** Looks for prices with a high bound. */
export class Pricing {
  best: Prices;
  /** Those of the last round. */
  now: readonly Float64Array[];
  private readonly one: OneJob;
  private readonly costs: readonly Float64Array[];
  /** What each job takes of each resource in parts of the largest a day holds, and of visits. */
  readonly uses: readonly (readonly number[])[];
  private readonly holds: readonly Float64Array[];
  /** The largest of each resource a day holds. */
  readonly scales: readonly number[];
  private step = 1;
  private stale = 0;
  private readonly price: Float64Array;
  /** What one visit takes of the most a day holds. */
  readonly visitShare: number;

  private readonly problem: WorkProblem;

  constructor(problem: WorkProblem) {
    this.problem = problem;
    const { jobs, days } = problem;
    const resources = days[0]?.resources.length ?? 0;
    this.one = new OneJob(days.length);
    this.price = new Float64Array(days.length);
    this.costs = allDayCosts(problem);
    const visitors = mostOften(jobs);
    // In parts of the largest, as litres, minutes and visits have no common measure.
    const scales = Array.from({ length: resources }, (_, at) =>
      Math.max(1e-9, ...days.map((day) => (day.resources[at]! < Infinity ? day.resources[at]! : 0))),
    );
    const visitScale = Math.max(1, ...days.map(({ places }) => (places < Infinity ? places : 0)));
    this.scales = scales;
    this.visitShare = 1 / visitScale;
    this.uses = jobs.map((job, index) => [
      ...job.uses.map((use, at) => use / scales[at]!),
      visitors.has(index) ? this.visitShare : 0,
    ]);
    this.holds = Array.from({ length: resources + 1 }, (_, at) =>
      Float64Array.from(days, (day) =>
        at < resources ? day.resources[at]! / scales[at]! : day.places / visitScale,
      ),
    );
    this.now = this.holds.map(() => new Float64Array(days.length));
    this.best = { of: this.now, bound: Number.NEGATIVE_INFINITY };
  }

  /** What a day costs a job at these prices. @param visit what it takes of visits, if not what the bound counts */
  priceOf(job: number, prices: readonly Float64Array[], into = this.price, visit?: number): Float64Array {
    into.set(this.costs[job]!);
    const uses = this.uses[job]!;
    for (let at = 0; at < prices.length; at++) {
      const use = at === prices.length - 1 && visit !== undefined ? visit : uses[at]!;
      if (use === 0) continue;
      const price = prices[at]!;
      for (let day = 0; day < into.length; day++) into[day]! += use * price[day]!;
    }
    return into;
  }

  /** One round: the bound at the prices of now, then the next prices. @param upper what a known plan costs */
  round(upper: number): void {
    const { jobs, days } = this.problem;
    const used = this.holds.map(() => new Float64Array(days.length));
    let bound = 0;
    for (let index = 0; index < jobs.length; index++) {
      const done = this.one.cheapest(jobs[index]!, this.priceOf(index, this.now));
      bound += this.one.cost;
      const uses = this.uses[index]!;
      for (let at = 0; at < used.length; at++) for (const day of done) used[at]![day]! += uses[at]!;
    }
    let square = 0;
    const over = this.now.map((price, at) => {
      const hold = this.holds[at]!;
      return price.map((each, day) => {
        if (!days[day]!.isOpen || hold[day] === Infinity) return 0;
        bound -= each * hold[day]!;
        const gradient = used[at]![day]! - hold[day]!;
        // A price that is nothing and would fall stays: it says nothing of how far to go.
        if (each === 0 && gradient < 0) return 0;
        square += gradient * gradient;
        return gradient;
      });
    });
    if (bound > this.best.bound + 1e-9) {
      this.best = { of: this.now, bound };
      this.stale = 0;
    } else if (++this.stale >= patience) {
      this.stale = 0;
      this.step /= 2;
    }
    if (square === 0) return;
    const length = (this.step * Math.max(upper - bound, 1e-3)) / square;
    this.now = this.now.map((price, at) =>
      price.map((each, day) => Math.max(0, each + length * over[at]![day]!)),
    );
  }
}

/** Of each place the job that comes most often. */
function mostOften(jobs: readonly RecurringJob[]): ReadonlySet<number> {
  const first = new Map<number, number>();
  jobs.forEach(({ place, intervalDays, due }, index) => {
    if (place < 0) return;
    const known = jobs[first.get(place) ?? -1];
    const isMore =
      known === undefined ||
      intervalDays < known.intervalDays ||
      (intervalDays === known.intervalDays && due < known.due);
    if (isMore) first.set(place, index);
  });
  return new Set(first.values());
}
