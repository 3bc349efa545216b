/**
 * Recurring work on whole days: jobs that come again so many days after they were last done, within what a day holds.
 *
 * What a plan costs is summed over the days that end with a job owed: on each the job costs its lateness in parts of its interval, so
 * that a weekly job 2 days late costs 2/7 that day and a monthly one 2/30. The cost of one lateness so grows with its square: of two
 * jobs that cannot both be done the one that waits longer, by its own measure, comes first, and none waits for ever. (The total weighted
 * tardiness of the literature, with weights that grow; Valente & Schaller 2012, Dispatching heuristics for the single machine weighted
 * quadratic tardiness scheduling problem, Computers & Operations Research 39, seen in its abstract, treat the square itself.)
 * Days early cost a hundredth of it, as work done early comes again early; a day that an earlier plan did not have costs `moveCost`.
 */
export interface RecurringJob {
  /** Jobs of one place on one day are one visit; below 0: of no place, which is no visit. */
  readonly place: number;
  readonly intervalDays: number;
  /** Days from the first day of the plan; below 0 it is late already. */
  readonly due: number;
  /** What it takes of each resource of a day. */
  readonly uses: readonly number[];
  /** Days that are not open on which someone else does it: it then takes nothing of what a day holds. */
  readonly also?: readonly number[];
  /** The days an earlier plan had for it. */
  readonly before?: readonly number[];
}

export interface WorkDay {
  readonly isOpen: boolean;
  /** Infinity where nothing binds. */
  readonly places: number;
  readonly resources: readonly number[];
}

export interface WorkProblem {
  readonly jobs: readonly RecurringJob[];
  readonly days: readonly WorkDay[];
  /** How many of the days the earlier plan had; 0 without one. */
  readonly daysBefore?: number;
}

/** A day early costs this part of what a first day late does. Our own choice: it only breaks ties. */
export const earlyShare = 0.01;
/** A day that an earlier plan did not have, in days late of an interval: a weekly job rather goes a day late than two are moved. Our own choice. */
export const moveCost = 0.1;
/** Work is done early by half its interval at most. Our own choice. */
export const mostEarly = (intervalDays: number): number => Math.floor(intervalDays / 2);

const triangle = (n: number): number => (n * (n + 1)) / 2;

/** What waiting costs until a day, from the first day of the plan on. */
export function waitingCost(due: number, until: number, intervalDays: number): number {
  const from = Math.max(due, 0);
  return until <= from ? 0 : (triangle(until - due) - triangle(from - due)) / intervalDays;
}

/** What doing it on a day costs for being early. */
const earlyCost = (due: number, day: number, intervalDays: number): number =>
  day < due ? (earlyShare * (due - day)) / intervalDays : 0;

/** Whether a day that has nothing else to do holds the job. */
export const fitsAlone = ({ place, uses }: RecurringJob, { isOpen, places, resources }: WorkDay): boolean =>
  isOpen && (place < 0 || places >= 1) && uses.every((use, at) => use <= resources[at]! + rounding);

/** Sums of litres that are equal on paper are equal here. */
export const rounding = 1e-6;

/** What each day costs a job whatever its due day: a move, or Infinity where nothing can be done. */
export function dayCosts(
  { days, daysBefore = 0 }: WorkProblem,
  job: RecurringJob,
  into = new Float64Array(days.length),
): Float64Array {
  const { before, also } = job;
  for (let day = 0; day < into.length; day++) {
    const each = days[day]!;
    const isMoved = before !== undefined && day < daysBefore && !before.includes(day);
    if (!each.isOpen && also?.includes(day)) into[day] = 0;
    else if (!fitsAlone(job, each)) into[day] = Number.POSITIVE_INFINITY;
    else into[day] = isMoved ? moveCost : 0;
  }
  return into;
}

const costsKept = new WeakMap<WorkProblem, readonly Float64Array[]>();

/** The `dayCosts` of all jobs. */
export function allDayCosts(problem: WorkProblem): readonly Float64Array[] {
  const kept = costsKept.get(problem);
  if (kept !== undefined) return kept;
  const count = problem.days.length;
  const all = new Float64Array(problem.jobs.length * count);
  const made = problem.jobs.map((job, at) =>
    dayCosts(problem, job, all.subarray(at * count, (at + 1) * count)),
  );
  costsKept.set(problem, made);
  return made;
}

/** What a job costs that is done on these days, in order. @param costs its `dayCosts`, where they are known */
export function jobCost(
  problem: WorkProblem,
  job: RecurringJob,
  done: readonly number[],
  costs = dayCosts(problem, job),
): number {
  const { intervalDays } = job;
  let { due } = job;
  let cost = 0;
  for (const day of done) {
    cost += waitingCost(due, day, intervalDays) + earlyCost(due, day, intervalDays) + costs[day]!;
    due = day + intervalDays;
  }
  return cost + waitingCost(due, problem.days.length, intervalDays);
}

/** The days that end with the job owed. */
export function daysOwed({ days }: WorkProblem, job: RecurringJob, done: readonly number[]): number[] {
  const owed: number[] = [];
  let { due } = job;
  for (const day of [...done, days.length]) {
    for (let at = Math.max(due, 0); at < day; at++) owed.push(at);
    due = day + job.intervalDays;
  }
  return owed;
}

/**
 * The cheapest days for one job, by dynamic programming over the day it was last done.
 * `price` is what each day costs beside waiting and being early; Infinity where it cannot be done. The days come in order, what they
 * cost with their prices is left in `cost`. Of equal days the first.
 */
export class OneJob {
  private readonly value: Float64Array;
  private readonly next: Int32Array;
  cost = 0;

  constructor(dayCount: number) {
    this.value = new Float64Array(dayCount);
    this.next = new Int32Array(dayCount);
  }

  cheapest(job: RecurringJob, price: Float64Array): number[] {
    const { value, next } = this;
    const count = value.length;
    for (let day = count - 1; day >= 0; day--) {
      if (price[day] === Number.POSITIVE_INFINITY) continue;
      next[day] = this.best(job, day + job.intervalDays, day + 1, price);
      value[day] = this.cost;
    }
    const done: number[] = [];
    for (let day = this.best(job, job.due, 0, price); day < count; day = next[day]!) done.push(day);
    return done;
  }

  /** The day to do it next, or the number of days for not at all; what that costs is left in `cost`. */
  private best(job: RecurringJob, due: number, least: number, price: Float64Array): number {
    const { value } = this;
    const count = value.length;
    const { intervalDays } = job;
    let best = count;
    let cost = waitingCost(due, count, intervalDays);
    const from = Math.max(least, due - mostEarly(intervalDays));
    const late = Math.max(due, 0);
    // As `waitingCost` and `earlyCost`, day by day.
    let days = from <= late ? 0 : triangle(from - due) - triangle(late - due);
    for (let day = from; day < count; day++) {
      if (day > late && day > from) days += day - due;
      const waiting = days / intervalDays;
      if (waiting > cost) break;
      if (price[day] === Number.POSITIVE_INFINITY) continue;
      const early = day < due ? (earlyShare * (due - day)) / intervalDays : 0;
      const here = waiting + early + price[day]! + value[day]!;
      if (here < cost - tiny) {
        cost = here;
        best = day;
      }
    }
    this.cost = cost;
    return best;
  }
}

/** Costs nearer than this are equal. */
export const tiny = 1e-9;

/** One way of doing a job: its days, and what they cost with prices. */
export interface Way {
  readonly done: readonly number[];
  readonly cost: number;
}

/** Every way of doing a job that costs no more than `most` with its prices, the cheapest first; undefined where there are more than `limit`. */
export function waysOf(
  job: RecurringJob,
  price: Float64Array,
  most: number,
  limit: number,
): Way[] | undefined {
  const count = price.length;
  const { intervalDays } = job;
  const ways: Way[] = [];
  // Every call adds a way or dies of its cost; calls are counted, as a great many may die.
  let calls = 0;
  const walk = (done: readonly number[], due: number, least: number, cost: number): boolean => {
    if (++calls > 4 * limit) return false;
    const end = cost + waitingCost(due, count, intervalDays);
    if (end <= most) ways.push({ done, cost: end });
    for (let day = Math.max(least, due - mostEarly(intervalDays)); day < count; day++) {
      const waiting = waitingCost(due, day, intervalDays);
      if (cost + waiting > most) break;
      const here = cost + waiting + earlyCost(due, day, intervalDays) + price[day]!;
      if (here <= most && !walk([...done, day], day + intervalDays, day + 1, here)) return false;
    }
    return true;
  };
  if (!walk([], job.due, 0, 0) || ways.length > limit) return undefined;
  return ways.sort((a, b) => a.cost - b.cost);
}
