import { type RecurringJob, rounding, type WorkProblem } from "./recurring-work.ts";

/** What is left of each day while a plan is made. */
export class Load {
  private readonly left: readonly Float64Array[];
  private readonly placesLeft: Float64Array;
  /** How many jobs each place has on each day. */
  private readonly visits: Uint16Array;
  private readonly count: number;
  /** What is done on the other days takes nothing of them. */
  private readonly isOpen: readonly boolean[];

  constructor({ jobs, days }: WorkProblem) {
    this.count = days.length;
    this.isOpen = days.map(({ isOpen }) => isOpen);
    this.left = (days[0]?.resources ?? []).map((_, at) =>
      Float64Array.from(days, ({ resources }) => resources[at]!),
    );
    this.placesLeft = Float64Array.from(days, ({ places }) => places);
    this.visits = new Uint16Array((Math.max(-1, ...jobs.map(({ place }) => place)) + 1) * days.length);
  }

  /** Whether a job still finds room on a day. */
  fits({ place, uses }: RecurringJob, day: number): boolean {
    if (!this.isOpen[day]) return true;
    if (place >= 0 && this.visits[place * this.count + day] === 0 && this.placesLeft[day]! < 1) return false;
    for (let at = 0; at < uses.length; at++) if (uses[at]! > this.left[at]![day]! + rounding) return false;
    return true;
  }

  isVisited(place: number, day: number): boolean {
    return place >= 0 && this.visits[place * this.count + day]! > 0;
  }

  /** By how much a day would be over with a job that is not there, in parts of `scales`; 0 where it fits. @param visitShare one visit */
  over({ place, uses }: RecurringJob, day: number, scales: readonly number[], visitShare: number): number {
    if (!this.isOpen[day]) return 0;
    let over = 0;
    for (let at = 0; at < uses.length; at++) {
      const lacks = uses[at]! - this.left[at]![day]!;
      if (lacks > rounding) over += Math.min(lacks, uses[at]!) / scales[at]!;
    }
    const isNew = place >= 0 && this.visits[place * this.count + day] === 0;
    return isNew && this.placesLeft[day]! < 1 ? over + visitShare : over;
  }

  /** Whether more stands on a day than it holds. */
  isOverfull(day: number): boolean {
    return this.placesLeft[day]! < 0 || this.left.some((left) => left[day]! < -rounding);
  }

  /** Makes the days on which a job does not fit cost Infinity. */
  close(job: RecurringJob, price: Float64Array): void {
    for (let day = 0; day < price.length; day++)
      if (price[day]! < Infinity && !this.fits(job, day)) price[day] = Number.POSITIVE_INFINITY;
  }

  add(job: RecurringJob, days: readonly number[]): void {
    this.change(job, days, 1);
  }

  remove(job: RecurringJob, days: readonly number[]): void {
    this.change(job, days, -1);
  }

  private change({ place, uses }: RecurringJob, days: readonly number[], sign: 1 | -1): void {
    for (const day of days) {
      if (!this.isOpen[day]) continue;
      for (let at = 0; at < uses.length; at++) this.left[at]![day]! -= sign * uses[at]!;
      if (place < 0) continue;
      const visit = place * this.count + day;
      const before = this.visits[visit]!;
      this.visits[visit] = before + sign;
      if (before === 0) this.placesLeft[day]! -= 1;
      else if (before + sign === 0) this.placesLeft[day]! += 1;
    }
  }
}
