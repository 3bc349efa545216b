import type { Remedy } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import { changedBetween } from "./past.ts";
import { isOver, isSameDose } from "./solutes.ts";
import { nextToNone } from "./treated.ts";
import { settledTime } from "./water.ts";

/** Which doses of a water are one course, how it stands on a day, and when it is over. */

export interface GivenDose {
  /** Which of its course; doses of one day are one. */
  readonly number: number;
  /** Its index among the doses of its water. */
  readonly index: number;
  readonly time: number;
  /** In the remedy's unit; NaN if it cannot be computed. */
  readonly added: number;
  readonly before: number;
}

export interface ChangeAfter {
  readonly owed: number;
  /** New water since the last dose, as a fraction. */
  readonly done: number;
  /** The last day on which it is in time. */
  readonly due: number;
}

/** Running while doses are owed; cut when the next was not given in time, or another course began. */
export type CourseState = "running" | "complete" | "cut";

/** The doses of one course, and when the next of the same remedy began; Infinity if none did. */
export interface Course {
  readonly ledger: Ledger;
  readonly remedy: Remedy;
  readonly given: readonly GivenDose[];
  readonly until: number;
}

/** The courses of a remedy up to the end of a day. Without a stated repeat a course lasts as long as there is something of it left. */
export function coursesOf(ledger: Ledger, remedy: Remedy, day: number): Course[] {
  const { doses } = ledger;
  const courses: { given: GivenDose[]; until: number }[] = [];
  for (let index = 0; index < doses.length && doses.time[index]! < day + 1; index++) {
    if (doses.tag[index] !== remedy.id) continue;
    const [time, added, before] = [settledTime(doses, index), doses.first[index]!, doses.second[index]!];
    const open = courses.at(-1);
    const last = open?.given.at(-1);
    const isSame = last !== undefined && isSameDose(remedy, last.time, time);
    const isNew = last === undefined || (!isSame && isNewCourse(remedy, last, time, before, added));
    const dose = { number: isNew ? 1 : last.number + Number(!isSame), index, time, added, before };
    if (isNew) {
      if (open !== undefined) open.until = time;
      courses.push({ given: [dose], until: Number.POSITIVE_INFINITY });
    } else open!.given.push(dose);
  }
  return courses.map((course) => ({ ledger, remedy, ...course }));
}

function isNewCourse(remedy: Remedy, last: GivenDose, time: number, before: number, added: number): boolean {
  if (!Number.isNaN(remedy.repeatTimes)) return isOver(remedy, last.number, time - last.time);
  const full = Number.isNaN(remedy.targetLow) ? before + added : remedy.targetLow;
  return before <= nextToNone * full;
}

/** How long a dose is given to do its work where no interval is stated. A choice of this tool. */
const onlyDoseDays = 1;

export const intervalDays = ({ repeatDays }: Remedy): number =>
  Number.isNaN(repeatDays) ? onlyDoseDays : repeatDays;

/** Whether a course still owed doses on a day, has had all, or ended without them. */
export function stateOf({ remedy, given, until }: Course, day: number): CourseState {
  const { repeatTimes, repeatDays } = remedy;
  const last = given.at(-1)!;
  if (!(last.number < repeatTimes)) return "complete";
  return until <= day + 1 || day - Math.floor(last.time + repeatDays) > repeatDays ? "cut" : "running";
}

/** When the interval after the last dose is over: of a running course after the last that is planned. A late one is given tomorrow at the earliest. */
export function endOfCourse(course: Course, day: number): number {
  const { remedy, given } = course;
  const last = given.at(-1)!;
  const interval = intervalDays(remedy);
  const next = last.time + interval;
  if (stateOf(course, day) !== "running") return next;
  const planned = next < day ? day + 1 : next;
  return planned + (remedy.repeatTimes - last.number) * interval;
}

/** What is owed when a course is over, and how much of it was done since its last dose, before another began. */
export function changeAfterOf(course: Course, day: number): ChangeAfter | undefined {
  const { ledger, remedy, given, until } = course;
  if (Number.isNaN(remedy.changeAfter)) return undefined;
  const last = given.at(-1)!;
  return {
    owed: remedy.changeAfter,
    done:
      stateOf(course, day) === "running" ? 0 : changedBetween(ledger, last.time, Math.min(until, day + 1)),
    due: Math.floor(endOfCourse(course, day)),
  };
}

/** Whether what is owed after a course was done. */
export const isDoneAfter = ({ owed, done }: ChangeAfter): boolean => done >= owed - 0.005;

/** The target that is aimed at: the middle of a range; NaN where none is stated. */
export function middleOfTarget({ targetLow, targetHigh }: Remedy): number {
  if (Number.isNaN(targetLow)) return targetHigh;
  return Number.isNaN(targetHigh) ? targetLow : (targetLow + targetHigh) / 2;
}
