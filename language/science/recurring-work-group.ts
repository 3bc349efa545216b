import { earlyShare, mostEarly, OneJob, type RecurringJob, type WorkProblem } from "./recurring-work.ts";

/**
 * The cheapest days for all jobs of one place together: what is paid for a visit is paid once, whatever is done on it. Each by itself
 * where that shows nothing is paid twice, else by dynamic programming day by day over the day each was last done. Exact where the jobs
 * together have few states; further jobs go along for nothing in `least`, which then is below what can be.
 */
export class Group {
  /** The jobs, by their number. */
  readonly members: readonly number[];
  /** What the days found cost with their prices at least. */
  least = 0;
  /** The days of each job, in the order of `members`. */
  days: number[][] = [];
  private readonly parts: readonly Part[];
  private readonly free: Float64Array;

  constructor(problem: WorkProblem, members: readonly number[]) {
    this.members = members;
    this.free = new Float64Array(problem.days.length);
    const often = [...members].sort(
      (a, b) => problem.jobs[a]!.intervalDays - problem.jobs[b]!.intervalDays || a - b,
    );
    const joint: number[] = [];
    const alone: number[] = [];
    let states = 1;
    for (const index of often) {
      const own = statesOf(problem.jobs[index]!, problem.days.length).length;
      if (joint.length > 0 && states * own > mostStates) alone.push(index);
      else {
        states *= own;
        joint.push(index);
      }
    }
    this.parts = [joint, ...alone.map((index) => [index])].map((part) => new Part(problem, part));
  }

  /** @param price fills in what each day costs a job beside waiting, being early and the visit; @param visit what each day costs a visit */
  cheapest(price: (job: number, into: Float64Array) => void, visit: Float64Array): void {
    this.least = 0;
    this.parts.forEach((part, at) => {
      this.least += part.solve(price, at === 0 ? visit : this.free);
    });
    const days: number[][] = [];
    for (const { jobs } of this.parts)
      for (const { index, done } of jobs) days[this.members.indexOf(index)] = done;
    this.days = days;
  }
}

/** More states together are not looked through. */
const mostStates = 260;

/** When a job is due in each of its states: not done yet, done on a day after which it is due again before the end, or done for good. */
function statesOf({ due, intervalDays }: RecurringJob, count: number): number[] {
  const dues = [due >= count ? Number.POSITIVE_INFINITY : due, Number.POSITIVE_INFINITY];
  for (let day = 0; day + intervalDays < count; day++) dues.push(day + intervalDays);
  return dues;
}

/** What one computation needs and the next may overwrite. */
const scratch = {
  /** What is left to pay from a day on, by state, without a visit on the day so far and with one: of this job, and of the one behind. */
  values(size: number): [Float64Array, Float64Array] {
    if (this.one.length < size) [this.one, this.other] = [new Float64Array(size), new Float64Array(size)];
    return [this.one, this.other];
  },
  /** Whether a job is done on a day, by state and visit. */
  decisions(size: number): Uint8Array {
    if (this.made.length < size) this.made = new Uint8Array(size);
    return this.made;
  },
  /** What days cost, job by job. */
  prices(jobs: number, count: number): readonly Float64Array[] {
    this.single(count);
    while (this.price.length < jobs) this.price.push(new Float64Array(count));
    return this.price;
  },
  /** One job by itself. */
  single(count: number): OneJob {
    if (this.days !== count) [this.days, this.alone, this.price] = [count, new OneJob(count), []];
    return this.alone;
  },
  days: 0,
  alone: new OneJob(0),
  one: new Float64Array(0),
  other: new Float64Array(0),
  made: new Uint8Array(0),
  price: [] as Float64Array[],
};

class Part {
  readonly jobs: readonly {
    readonly index: number;
    readonly job: RecurringJob;
    /** The days found. */
    done: number[];
    readonly interval: number;
    readonly isVisit: boolean;
    readonly dues: readonly number[];
    readonly stride: number;
  }[];
  private readonly size: number;
  private readonly count: number;
  private readonly one: OneJob;
  /** Of each job what days cost it, and behind them the first with its visits. */
  private readonly prices: readonly Float64Array[];

  constructor({ jobs, days }: WorkProblem, members: readonly number[]) {
    this.count = days.length;
    this.one = scratch.single(this.count);
    this.prices = scratch.prices(members.length + 1, this.count);
    let stride = 1;
    this.jobs = members.map((index) => {
      const job = jobs[index]!;
      const { intervalDays, place } = job;
      const dues = statesOf(job, this.count);
      const one = { index, job, done: [], interval: intervalDays, isVisit: place >= 0, dues, stride };
      stride *= dues.length;
      return one;
    });
    this.size = stride;
  }

  solve(price: (job: number, into: Float64Array) => void, visit: Float64Array): number {
    const { jobs, prices } = this;
    for (let at = 0; at < jobs.length; at++) price(jobs[at]!.index, prices[at]!);
    return this.apart(visit) ?? this.together(visit);
  }

  /**
   * Each job by itself, the first as if it paid every visit and the others none: no plan costs less. Undefined where another job has a
   * visit of its own that costs something.
   */
  private apart(visit: Float64Array): number | undefined {
    const { jobs, one, prices } = this;
    const paid = prices[jobs.length]!;
    for (let day = 0; day < paid.length; day++) paid[day] = prices[0]![day]! + visit[day]!;
    let cost = 0;
    for (let at = 0; at < jobs.length; at++) {
      const each = jobs[at]!;
      const { isVisit } = each;
      each.done = one.cheapest(each.job, at === 0 && isVisit ? paid : prices[at]!);
      if (at > 0 && isVisit && each.done.some((day) => visit[day]! > 0 && !jobs[0]!.done.includes(day)))
        return undefined;
      cost += one.cost;
    }
    return cost;
  }

  private together(visit: Float64Array): number {
    const { size, count, jobs, prices } = this;
    const last = jobs.length - 1;
    const isDone = scratch.decisions(count * jobs.length * 2 * size);
    let [now, next] = scratch.values(2 * size);
    next.fill(0, 0, 2 * size);
    for (let day = count - 1; day >= 0; day--) {
      // The day behind begins without a visit.
      if (jobs.length > 1) next.copyWithin(size, 0, size);
      for (let at = jobs.length - 1; at >= 0; at--) {
        const { interval, isVisit, dues, stride } = jobs[at]!;
        const own = prices[at]![day]!;
        const done = day + interval < count ? day + 2 : 1;
        const first = isVisit ? own + visit[day]! : own;
        const base = (day * jobs.length + at) * 2 * size;
        const early = mostEarly(interval);
        const span = stride * dues.length;
        // Before its first job a day has no visit.
        const flags = at === 0 ? 1 : 2;
        // A day that is still to come is none on which a job was done: of those looked at already today is one.
        const known = Math.min(dues.length, day + 2);
        const before = jobs[at - 1];
        const low = before === undefined ? 1 : Math.min(before.dues.length, day + 3) * before.stride;
        const high = at === last ? size : Math.min(jobs[last]!.dues.length, day + 2) * jobs[last]!.stride;
        for (let which = 0; which < known; which++) {
          const due = dues[which]!;
          const owed = day >= due ? (day + 1 - due) / interval : 0;
          const canDo = own < Infinity && day >= due - early;
          const ahead = day < due && canDo ? (earlyShare * (due - day)) / interval : 0;
          const step = (done - which) * stride;
          for (let flag = 0; flag < flags; flag++) {
            const from = flag * size;
            const pays = (flag === 0 ? first : own) + ahead;
            const to = (isVisit && at < last ? size : from) + step;
            for (let block = which * stride; block < high; block += span)
              for (let state = block; state < block + low; state++) {
                const wait = owed + next[from + state]!;
                const pay = canDo ? pays + next[to + state]! : Infinity;
                const isBetter = pay < wait;
                now[from + state] = isBetter ? pay : wait;
                isDone[base + from + state] = isBetter ? 1 : 0;
              }
          }
        }
        [now, next] = [next, now];
      }
    }
    for (const job of jobs) job.done = [];
    let state = 0;
    for (let day = 0; day < count; day++) {
      let flag = 0;
      jobs.forEach(({ interval, isVisit, dues, stride, done }, at) => {
        if (isDone[(day * jobs.length + at) * 2 * size + flag * size + state] === 0) return;
        const which = Math.floor(state / stride) % dues.length;
        state += ((day + interval < count ? day + 2 : 1) - which) * stride;
        done.push(day);
        if (isVisit) flag = 1;
      });
    }
    return next[0]!;
  }
}

/** The jobs of each place together, each other job by itself. */
export function groupsOf(
  { jobs }: WorkProblem,
  order: readonly number[] = jobs.map((_, at) => at),
): number[][] {
  const places = new Map<number, number[]>();
  for (const index of order) {
    const place = jobs[index]!.place < 0 ? -1 - index : jobs[index]!.place;
    const known = places.get(place);
    if (known === undefined) places.set(place, [index]);
    else known.push(index);
  }
  return [...places.values()];
}
