import type { Body, Remedy } from "../book/stations.ts";
import { afterDecay } from "../science/dilution.ts";
import type { Moment } from "./observer.ts";

/** A course of a remedy in one body of water: the dose it began with and those since. */
export interface Course {
  readonly remedy: Remedy;
  /** What is in the water at `time`, in the remedy's unit; NaN if a dose could not be computed. */
  concentration: number;
  time: number;
  /** Doses given in this course. */
  given: number;
  last: Moment;
  /** What of the water of the last dose is left, as a fraction. */
  oldWater: number;
}

/** What remedies are in a body of water: dose, dilution by each exchange, decay by the half-life stated. */
export class Solutes {
  private courses = new Map<number, Course>();
  readonly body: Body;

  constructor(body: Body) {
    this.body = body;
  }

  /** New water came in: of what was there the share `1 - fraction` is left. */
  exchange(fraction: number): void {
    for (const course of this.courses.values()) {
      course.concentration *= 1 - fraction;
      course.oldWater *= 1 - fraction;
    }
  }

  /** The course of a remedy as it stands at a time; undefined if there never was one. */
  at(remedy: Remedy, time: number): Course | undefined {
    const course = this.courses.get(remedy.id);
    return course === undefined ? undefined : settled(course, time);
  }

  /** All courses as they stand at a time. */
  all(time: number): Course[] {
    return [...this.courses.values()].map((course) => settled(course, time));
  }

  /** A dose: adds to the course that is running, or begins one. */
  dose(remedy: Remedy, added: number, isNew: boolean, moment: Moment): Course {
    const known = this.at(remedy, moment.time);
    const before = known?.concentration ?? 0;
    const isFurther = known === undefined || !isSameDose(remedy, known.last.time, moment.time);
    const course: Course = {
      remedy,
      concentration: before + added,
      time: moment.time,
      given: isNew ? 1 : (known?.given ?? 0) + Number(isFurther),
      last: moment,
      oldWater: 1,
    };
    this.courses.set(remedy.id, course);
    return course;
  }

  /** Whether all courses are what they were, in the same order. */
  isAs(mark: readonly Course[]): boolean {
    if (mark.length !== this.courses.size) return false;
    let at = 0;
    for (const now of this.courses.values()) if (!isSame(now, mark[at++]!)) return false;
    return true;
  }

  /** The time of the earliest last dose; Infinity where there was none. */
  get earliestLast(): number {
    let earliest = Number.POSITIVE_INFINITY;
    for (const { last } of this.courses.values()) earliest = Math.min(earliest, last.time);
    return earliest;
  }

  mark(): readonly Course[] {
    return [...this.courses.values()].map((course) => ({ ...course }));
  }

  reset(mark: readonly Course[]): void {
    this.courses = new Map(mark.map((course) => [course.remedy.id, { ...course }]));
  }
}

const isSame = (a: Course, b: Course): boolean =>
  a.remedy === b.remedy &&
  Object.is(a.concentration, b.concentration) &&
  a.time === b.time &&
  a.given === b.given &&
  a.oldWater === b.oldWater &&
  a.last.time === b.last.time &&
  a.last.block === b.last.block &&
  a.last.row === b.last.row;

/** A course at a later time. What is kept stays as it is: being asked must change nothing, not even in the last digit. */
function settled(course: Course, time: number): Course {
  const days = time - course.time;
  const { halfLifeDays } = course.remedy;
  if (days <= 0 || Number.isNaN(halfLifeDays)) return { ...course };
  return { ...course, time, concentration: afterDecay(course.concentration, days, halfLifeDays) };
}

/** Whether a dose at a time begins a new course: the one before is complete, or long past. */
export function beginsCourse(course: Course | undefined, time: number): boolean {
  if (course === undefined) return true;
  const { remedy, given, last } = course;
  return !isSameDose(remedy, last.time, time) && isOver(remedy, given, time - last.time);
}

/** Whether a dose belongs to one before it: what is given on one day, divided, into several tanks of one water, or twice, is one dose of its course. */
export function isSameDose({ repeatDays }: Remedy, last: number, time: number): boolean {
  return repeatDays >= 1 && Math.floor(last) === Math.floor(time);
}

/** Whether a course with so many doses given is complete, or has ended so many days after the last. */
export function isOver({ repeatTimes, repeatDays }: Remedy, given: number, days: number): boolean {
  if (Number.isNaN(repeatTimes) || Number.isNaN(repeatDays)) return true;
  return given >= repeatTimes || days > 2 * repeatDays;
}

/** When the next dose of a course is due; NaN if none is. */
export function nextDose(course: Course): number {
  const { repeatTimes, repeatDays } = course.remedy;
  return course.given < repeatTimes ? course.last.time + repeatDays : Number.NaN;
}
