import { allDayCosts, jobCost, OneJob, tiny, type WorkProblem } from "./recurring-work.ts";
import type { Pricing } from "./recurring-work-bound.ts";
import { groupsOf } from "./recurring-work-group.ts";
import { Load } from "./recurring-work-load.ts";
import type { Share } from "./recurring-work-simplex.ts";

/** Plans of recurring work that hold what the days hold, made in several ways and made cheaper. */

export interface Made {
  readonly days: readonly (readonly number[])[];
  readonly cost: number;
}

/** What being over costs, sweep by sweep, in parts of the dearest price. */
const penalties = [0.1, 0.2, 0.4, 0.7, 1, 1.5, 2, 4, 8];
const mostSweeps = 8;
/** So many groups more are placed anew together. */
const mostShaken = 3;
/** Others are looked for so many times more that stand in the way of the one that costs much. */
const mostLooks = 2;
/** By how much a plan may get dearer when it is first shaken; it falls to nothing. */
const mostDearer = 0.1;
/** So many times over a move is counted while an earlier plan is followed. */
const loyalty = 25;

export class Planner {
  private readonly problem: WorkProblem;
  private readonly one: OneJob;
  private readonly costs: readonly Float64Array[];
  private readonly price: Float64Array;
  private readonly order: readonly number[];
  /** Jobs that are moved together, those of one place, and by themselves. */
  readonly groups: readonly (readonly number[])[];
  private readonly alone: readonly (readonly number[])[];
  private load: Load;
  private days: (readonly number[])[] = [];
  private cost: Float64Array;

  constructor(problem: WorkProblem) {
    this.problem = problem;
    const { jobs, days } = problem;
    this.one = new OneJob(days.length);
    this.price = new Float64Array(days.length);
    this.costs = allDayCosts(problem);
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
    this.groups = groupsOf(problem, this.order);
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

  /** The ways of which most is in the mixture where they fit, the others on their cheapest days within what is left; then improved. */
  round(ways: readonly (readonly Share[])[]): Made {
    this.start(this.problem.jobs.map(() => []));
    const late: number[] = [];
    const order = ways
      .map((_, group) => group)
      .sort((a, b) => ways[b]![0]!.part - ways[a]![0]!.part || a - b);
    for (const group of order) {
      const members = this.groups[group]!;
      const way = ways[group]!.find(({ column }) => this.set(members, column.days));
      if (way === undefined) late.push(group);
    }
    for (const group of late) for (const index of this.groups[group]!) this.put(index);
    return this.improved();
  }

  /** Puts jobs on days if all of them fit. */
  private set(members: readonly number[], days: readonly (readonly number[])[]): boolean {
    const { load, problem } = this;
    for (let at = 0; at < members.length; at++) {
      const index = members[at]!;
      const job = problem.jobs[index]!;
      if (!days[at]!.every((day) => load.fits(job, day))) {
        for (let back = 0; back < at; back++) {
          load.remove(problem.jobs[members[back]!]!, this.days[members[back]!]!);
          this.days[members[back]!] = [];
        }
        return false;
      }
      load.add(job, days[at]!);
      this.days[index] = days[at]!;
      this.cost[index] = jobCost(problem, job, days[at]!, this.costs[index]!);
    }
    return true;
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
  refine({ days }: Made, mostTries: number): Made {
    this.start(days);
    let tries = mostTries;
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

  /**
   * A plan made cheaper by placing a few groups anew together, in some order: one that costs much, and others, rather those in its way,
   * taken in turn by a fixed sequence of numbers, so that the same problem has the same plan. On the way it may get a little dearer, less
   * and less. (Large neighbourhood search, Shaw 1998; threshold accepting, Dueck & Scheuer 1990; both recalled.)
   */
  shake({ days }: Made, tries: number): Made {
    this.start(days);
    const { groups } = this;
    if (groups.length < 2) return this.made();
    let state = 1;
    const below = (count: number): number => {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      return Math.floor((state / 0x80000000) * count);
    };
    let best = this.made();
    let total = best.cost;
    let costly: (readonly number[])[] = [];
    for (let at = 0; at < tries; at++) {
      if (at % 50 === 0) costly = groups.filter((group) => this.costOf(group) > tiny);
      if (costly.length === 0) break;
      const first = costly[below(costly.length)]!;
      const taken = new Set([first]);
      for (let more = 1 + below(mostShaken); more > 0; more--) {
        let other = groups[below(groups.length)]!;
        for (let look = 0; look < mostLooks && !this.isInTheWay(other, first); look++)
          other = groups[below(groups.length)]!;
        taken.add(other);
      }
      const order = [...taken].flat();
      for (let last = order.length - 1; last > 0; last--) {
        const other = below(last + 1);
        [order[last], order[other]] = [order[other]!, order[last]!];
      }
      const before = this.costOf(order);
      this.replace(order, mostDearer * (1 - at / tries));
      total += this.costOf(order) - before;
      if (total < best.cost - tiny) best = { days: [...this.days], cost: total };
    }
    this.start(best.days);
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

  /** Takes jobs out and puts them in again in this order; goes back to what was where that is dearer by `dearer` or more. */
  private replace(group: readonly number[], dearer = -tiny): boolean {
    const before = group.map((index) => ({ days: this.days[index]!, cost: this.cost[index]! }));
    const cost = this.costOf(group);
    this.take(group);
    for (const index of group) this.put(index);
    if (this.costOf(group) < cost + dearer) return true;
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
