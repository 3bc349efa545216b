import { dayCosts, jobCost, OneJob, tiny, type WorkProblem } from "./recurring-work.ts";
import { Pricing } from "./recurring-work-bound.ts";
import { exactly } from "./recurring-work-exact.ts";
import { Load } from "./recurring-work-load.ts";

/**
 * A plan of recurring work that costs little (`recurring-work.ts` says what is counted), and a bound no plan can go below.
 *
 * Our own heuristic of common parts: jobs are placed one after the other, each on its cheapest days by dynamic programming within what
 * is left, first by their due days, then at the prices of the relaxation (`recurring-work-bound.ts`); then each is taken out and placed
 * anew, alone and in pairs that stand in each other's way, while that makes it cheaper. What the bound leaves open is searched through
 * where it is little (`recurring-work-exact.ts`). No chance and no clock: the same problem has the same plan.
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

const rounds = 45;
/** A plan is made at the prices of every so many rounds, in a large room only at the last. */
const roundsAPlan = (jobs: number): number => (jobs <= largeRoom ? 15 : rounds);
const largeRoom = 200;
/** What being over costs, sweep by sweep, in parts of the dearest price. */
const penalties = [0.1, 0.2, 0.4, 0.7, 1, 1.5, 2, 4, 8];
/** So many pairs are tried, in a large room few, so that a plan takes some tens of milliseconds whatever the room. */
const triesOf = (jobs: number): number => (jobs <= largeRoom ? 6000 : 250);
const mostSweeps = 8;
/** So many times over a move is counted while an earlier plan is followed. */
const loyalty = 25;

export function planWork(problem: WorkProblem): WorkPlan {
  const pricing = new Pricing(problem);
  const planner = new Planner(problem);
  let best = planner.plan();
  const followed = (problem.daysBefore ?? 0) > 0 ? planner.follow() : best;
  if (followed.cost < best.cost) best = followed;
  for (let round = 1; round <= rounds; round++) {
    pricing.round(best.cost);
    if (best.cost <= pricing.best.bound + tiny) break;
    if (round % roundsAPlan(problem.jobs.length) !== 0) continue;
    const other = planner.plan(pricing);
    if (other.cost < best.cost - tiny) best = other;
  }
  const { bound } = pricing.best;
  if (best.cost > bound + tiny) best = planner.refine(best);
  if (best.cost <= bound + tiny) return { ...best, bound: Math.min(bound, best.cost), isBest: true };
  const searched = exactly(problem, pricing, best);
  if (searched === undefined) return { ...best, bound, isBest: false };
  return { ...searched, bound: searched.cost, isBest: true };
}

interface Made {
  readonly days: readonly (readonly number[])[];
  readonly cost: number;
}

class Planner {
  private readonly problem: WorkProblem;
  private readonly one: OneJob;
  private readonly costs: readonly Float64Array[];
  private readonly price: Float64Array;
  private readonly order: readonly number[];
  /** Jobs that are moved together, those of one place, and by themselves. */
  private readonly groups: readonly (readonly number[])[];
  private readonly alone: readonly (readonly number[])[];
  private load: Load;
  private days: (readonly number[])[] = [];
  private cost: Float64Array;

  constructor(problem: WorkProblem) {
    this.problem = problem;
    const { jobs, days } = problem;
    this.one = new OneJob(days.length);
    this.price = new Float64Array(days.length);
    this.costs = jobs.map((job) => dayCosts(problem, job));
    this.load = new Load(problem);
    this.cost = new Float64Array(jobs.length);
    const late = (index: number): number => jobs[index]!.due / jobs[index]!.intervalDays;
    // What is late by most of its interval first, then what is due first; equal ones in the order given.
    this.order = jobs
      .map((_, index) => index)
      .sort((a, b) => {
        const [one, other] = [jobs[a]!.due, jobs[b]!.due];
        return one < 0 && other < 0 ? late(a) - late(b) || a - b : one - other || a - b;
      });
    this.alone = this.order.map((index) => [index]);
    const places = new Map<number, number[]>();
    for (const index of this.order) {
      const place = jobs[index]!.place < 0 ? -1 - index : jobs[index]!.place;
      const known = places.get(place);
      if (known === undefined) places.set(place, [index]);
      else known.push(index);
    }
    this.groups = [...places.values()];
  }

  /** Each job on its cheapest days one after the other, at the prices of the relaxation where there are some. */
  plan(pricing?: Pricing): Made {
    this.start(this.problem.jobs.map(() => []));
    for (const index of this.order) this.put(index, pricing, 1);
    if (pricing !== undefined) this.negotiate(pricing);
    return this.improved();
  }

  /** As the earlier plan had it where that can be, then improved. */
  follow(): Made {
    this.start(this.problem.jobs.map(() => []));
    for (const index of this.order) this.put(index, undefined, 0, Number.POSITIVE_INFINITY, loyalty);
    this.problem.jobs.forEach((job, index) => {
      this.cost[index] = jobCost(this.problem, job, this.days[index]!, this.costs[index]!);
    });
    return this.improved();
  }

  private improved(): Made {
    for (let sweep = 0; sweep < mostSweeps; sweep++)
      if (!this.improve(this.groups) && !this.improve(this.alone)) break;
    return this.made();
  }

  /**
   * Places are given up and asked for anew at the prices, where being over what a day holds costs more with every sweep; in the end what
   * is still over is placed within what is left. (Negotiated congestion, McMurchie & Ebeling 1995, PathFinder, of the routing of
   * circuits; recalled.)
   */
  private negotiate(pricing: Pricing): void {
    const dearest = Math.max(tiny, ...pricing.best.of.map((price) => Math.max(...price)));
    for (const part of penalties) {
      for (const group of this.groups) {
        this.take(group);
        for (const index of group) this.put(index, pricing, 1, part * dearest);
      }
    }
    for (const group of this.groups) {
      if (!group.some((index) => this.days[index]!.some((day) => this.load.isOverfull(day)))) continue;
      this.take(group);
      for (const index of group) this.put(index, pricing, 1);
    }
  }

  /** A plan made cheaper by placing groups anew in pairs. */
  refine({ days }: Made): Made {
    this.start(days);
    let tries = triesOf(this.problem.jobs.length);
    let isBetter = true;
    while (isBetter && tries > 0) {
      isBetter = false;
      const costly = this.groups
        .filter((group) => this.costOf(group) > tiny)
        .sort((a, b) => this.costOf(b) - this.costOf(a));
      for (const group of costly) {
        for (const other of this.groups) {
          if (other === group || !this.isInTheWay(other, group)) continue;
          if (--tries < 0) break;
          if (this.replace([...group, ...other])) {
            isBetter = true;
            break;
          }
        }
      }
    }
    return this.improved();
  }

  private start(days: readonly (readonly number[])[]): void {
    const { jobs } = this.problem;
    this.load = new Load(this.problem);
    this.days = [...days];
    jobs.forEach((job, index) => {
      this.load.add(job, days[index]!);
      this.cost[index] = jobCost(this.problem, job, days[index]!, this.costs[index]!);
    });
  }

  private made(): Made {
    return { days: [...this.days], cost: this.cost.reduce((sum, each) => sum + each, 0) };
  }

  private costOf = (group: readonly number[]): number =>
    group.reduce((sum, index) => sum + this.cost[index]!, 0);

  private take(group: readonly number[]): void {
    for (const index of group) this.load.remove(this.problem.jobs[index]!, this.days[index]!);
  }

  /** Puts a job that is taken out on its cheapest days within what is left, at a part of the prices. */
  private put(index: number, pricing?: Pricing, part = 0, penalty = Infinity, loyal = 1): void {
    const { load, price } = this;
    const job = this.problem.jobs[index]!;
    const costs = this.costs[index]!;
    if (pricing === undefined || part === 0)
      for (let day = 0; day < price.length; day++) price[day] = loyal * costs[day]!;
    else {
      const { of } = pricing.best;
      pricing.priceOf(index, of, price, 0);
      const visits = of.at(-1)!;
      for (let day = 0; day < price.length; day++) {
        if (costs[day] === Infinity) continue;
        const visit = job.place < 0 || load.isVisited(job.place, day) ? 0 : visits[day]! * pricing.visitShare;
        price[day] = costs[day]! + part * (price[day]! - costs[day]! + visit);
      }
    }
    if (penalty === Infinity) load.close(job, price);
    else {
      const { scales, visitShare } = pricing!;
      for (let day = 0; day < price.length; day++)
        if (price[day]! < Infinity) price[day]! += penalty * load.over(job, day, scales, visitShare);
    }
    this.days[index] = this.one.cheapest(job, price);
    // With prices it is not what the job costs; then it is reckoned when it is asked for.
    this.cost[index] =
      part === 0 ? this.one.cost : jobCost(this.problem, job, this.days[index]!, this.costs[index]!);
    load.add(job, this.days[index]!);
  }

  /** Takes jobs out and puts them in again in this order; goes back to what was where that is no cheaper. */
  private replace(group: readonly number[]): boolean {
    const before = group.map((index) => ({ days: this.days[index]!, cost: this.cost[index]! }));
    const cost = this.costOf(group);
    this.take(group);
    for (const index of group) this.put(index);
    if (this.costOf(group) < cost - tiny) return true;
    this.take(group);
    group.forEach((index, at) => {
      this.days[index] = before[at]!.days;
      this.cost[index] = before[at]!.cost;
      this.load.add(this.problem.jobs[index]!, this.days[index]!);
    });
    return false;
  }

  private improve(groups: readonly (readonly number[])[]): boolean {
    let isBetter = false;
    for (const group of groups) if (this.costOf(group) > tiny && this.replace(group)) isBetter = true;
    return isBetter;
  }

  /** Whether jobs are done on a day on which others wait. */
  private isInTheWay(group: readonly number[], others: readonly number[]): boolean {
    return others.some((other) => {
      const { due } = this.problem.jobs[other]!;
      const until = this.days[other]![0] ?? Number.POSITIVE_INFINITY;
      return group.some((index) => this.days[index]!.some((day) => day <= until || day >= due));
    });
  }
}
