import { allDayCosts, jobCost, type WorkProblem } from "./recurring-work.ts";
import type { Pricing } from "./recurring-work-bound.ts";
import { Group } from "./recurring-work-group.ts";
import { type Column, type Share, Simplex } from "./recurring-work-simplex.ts";
import { Takings } from "./recurring-work-takings.ts";

/**
 * The linear relaxation of a plan over whole ways of doing the jobs of each place: ways are made as they are needed, each the cheapest at
 * the prices of what a day holds (column generation; Dantzig & Wolfe 1960, Decomposition principle for linear programs, Operations
 * Research 8; recalled). At whatever prices the sum of the cheapest ways, less the prices of all that the days hold, is what no plan can
 * go below (Lagrange): the bound does not hang on the simplex being exact.
 */
export class Master {
  bound = Number.NEGATIVE_INFINITY;
  private readonly problem: WorkProblem;
  private readonly groups: readonly Group[];
  private readonly rows: readonly Row[];
  /** The row of each resource, and of visits, on each day; below 0 where nothing binds. */
  private readonly rowAt: readonly Int32Array[];
  private readonly costs: readonly Float64Array[];
  /** What each job takes of each resource in parts of the largest a day holds, as the rows count. */
  private readonly uses: readonly (readonly number[])[];
  private readonly visitShare: number;
  private readonly simplex: Simplex;
  private readonly takings = new Takings();
  private readonly taken: Float64Array;
  private bestPrice: Float64Array;
  private pool: Column[] = [];

  /**
   * @param problem that of the mixture
   * @param whole that of the bound: the same, but its days may hold more
   * @param members the jobs of each group
   * @param days a plan to begin with, that holds what the days hold
   */
  constructor(
    problem: WorkProblem,
    whole: WorkProblem,
    members: readonly (readonly number[])[],
    days: readonly (readonly number[])[],
    { scales, visitShare, best }: Pricing,
  ) {
    const { jobs } = problem;
    this.problem = problem;
    this.costs = allDayCosts(whole);
    this.groups = members.map((each) => new Group(problem, each));
    this.uses = jobs.map(({ uses }) => uses.map((use, of) => use / scales[of]!));
    this.visitShare = visitShare;
    this.rows = rowsOf(problem, whole, [...scales, 1 / visitShare]);
    this.rowAt = Array.from({ length: scales.length + 1 }, () =>
      new Int32Array(problem.days.length).fill(-1),
    );
    this.rows.forEach(({ day, of }, at) => {
      this.rowAt[of]![day] = at;
    });
    this.taken = new Float64Array(this.rows.length);
    this.bestPrice = Float64Array.from(this.rows, ({ day, of }) => best.of[of]![day]!);
    const keys = members.map((each, group) =>
      this.column(
        group,
        each.map((index) => days[index]!),
      ),
    );
    this.simplex = new Simplex(
      this.rows.map(({ holds }) => holds),
      keys,
      this.takings,
    );
  }

  /** Makes ways and mixes them until the bound is near what the mixture costs, or the work is spent. @param mostSteps of the simplex */
  run(mostRounds: number, mostSteps: number): void {
    const { simplex } = this;
    // Ways are made at prices between those of the mixture, which leap, and the best known (Wentges 1997, smoothing; recalled).
    let part = 1;
    for (let round = 0; round < mostRounds; round++) {
      this.pool.push(...this.makeAt(this.between(part)));
      const isBetter = simplex.mix(this.pool, mostSteps);
      const gap = simplex.cost() - this.bound - this.reserved();
      if (gap <= enough * simplex.cost() || (!isBetter && part === 0) || simplex.steps >= mostSteps) break;
      this.pool = this.pool.filter((column) => simplex.reduced(column) <= gap * kept);
      part = round === 0 ? 0.6 : isBetter ? Math.max(0, part - 0.12) : 0;
    }
    // The prices of the mixture itself are those with the best bound, or near them.
    if (part > 0) this.makeAt(this.between(0));
  }

  /** By group: its ways, the largest part first. */
  shares = (): readonly (readonly Share[])[] => this.simplex.shares();

  /** What the days of the relaxation hold less is worth. */
  private reserved = (): number =>
    this.rows.reduce((sum, { holds, whole }, row) => sum + this.bestPrice[row]! * (whole - holds), 0);

  private between(part: number): Float64Array {
    return this.simplex.price.map((now, at) => Math.max(0, part * this.bestPrice[at]! + (1 - part) * now));
  }

  /** The cheapest way of each group at prices, where it is not its key already; the bound on the way. */
  private makeAt(price: Float64Array): Column[] {
    const { rowAt, rows, simplex, uses, costs } = this;
    const count = this.problem.days.length;
    const onDays = rowAt.map((at) => Float64Array.from(at, (row) => (row < 0 ? 0 : price[row]!)));
    const visit = onDays.at(-1)!.map((each) => each * this.visitShare);
    const priceOf = (job: number, into: Float64Array): void => {
      into.set(costs[job]!);
      const own = uses[job]!;
      for (let of = 0; of < own.length; of++) {
        const use = own[of]!;
        if (use === 0) continue;
        const on = onDays[of]!;
        for (let day = 0; day < count; day++) into[day]! += use * on[day]!;
      }
    };
    let bound = 0;
    for (let row = 0; row < rows.length; row++) bound -= price[row]! * rows[row]!.whole;
    const made: Column[] = [];
    this.groups.forEach((group, index) => {
      group.cheapest(priceOf, visit);
      bound += group.least;
      if (!isSame(group.days, simplex.keys[index]!.days)) made.push(this.column(index, group.days));
    });
    if (bound > this.bound) {
      this.bound = bound;
      this.bestPrice = price;
    }
    return made;
  }

  private column(group: number, days: readonly (readonly number[])[]): Column {
    const { taken, rowAt, uses } = this;
    const { jobs } = this.problem;
    const rows: number[] = [];
    let cost = 0;
    const add = (row: number, use: number): void => {
      if (row < 0 || use === 0) return;
      if (taken[row] === 0) rows.push(row);
      taken[row]! += use;
    };
    const visits: number[] = [];
    this.groups[group]!.members.forEach((index, at) => {
      cost += jobCost(this.problem, jobs[index]!, days[at]!, this.costs[index]!);
      for (const day of days[at]!) {
        for (let of = 0; of < rowAt.length - 1; of++) add(rowAt[of]![day]!, uses[index]![of]!);
        if (jobs[index]!.place < 0 || visits.includes(day)) continue;
        visits.push(day);
        add(rowAt.at(-1)![day]!, this.visitShare);
      }
    });
    const where = this.takings.add(rows, taken);
    for (const row of rows) taken[row] = 0;
    return { group, days, cost, ...where };
  }
}

/** A bound that is so near to what the mixture costs is near enough. */
const enough = 0.02;

/** What is dearer by more than the gap is in no better mixture; beyond this part of it a way seldom comes in again. */
const kept = 0.25;

interface Row {
  readonly day: number;
  /** Of resources its number; beyond them visits. */
  readonly of: number;
  /** In parts of the largest a day holds: in the mixture, and in truth. */
  readonly holds: number;
  readonly whole: number;
}

/** What binds: of each day and resource what it holds, where all that could fall on it is more. */
function rowsOf({ jobs, days }: WorkProblem, whole: WorkProblem, scales: readonly number[]): Row[] {
  const places = new Set(jobs.filter(({ place }) => place >= 0).map(({ place }) => place)).size;
  return scales.flatMap((scale, of) => {
    const isVisits = of === scales.length - 1;
    const all = isVisits ? places : jobs.reduce((sum, { uses }) => sum + uses[of]!, 0);
    const held = ({ places: visits, resources }: WorkProblem["days"][number]): number =>
      isVisits ? visits : resources[of]!;
    return days.flatMap((each, day) =>
      each.isOpen && all > held(each)
        ? [{ day, of, holds: held(each) / scale, whole: held(whole.days[day]!) / scale }]
        : [],
    );
  });
}

const isSame = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): boolean =>
  a.every((days, at) => days.length === b[at]!.length && days.every((day, k) => day === b[at]![k]));
