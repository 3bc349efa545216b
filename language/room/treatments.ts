import { Col, intsPerRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Remedy } from "../book/stations.ts";
import { type CaseStory, caseStories } from "./case-book.ts";
import { type CurveStep, partedAt, type Stretch, stretchesOf } from "./concentration-curve.ts";
import {
  type ChangeAfter,
  type Course,
  type CourseState,
  changeAfterOf,
  coursesOf,
  endOfCourse,
  type GivenDose,
  isDoneAfter,
  middleOfTarget,
  stateOf,
} from "./dose-courses.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { changedBetween, decayed, remedySteps } from "./past.ts";
import { type PartState, partsOf } from "./taken-out.ts";
import { nextToNone, unknownDays } from "./treated.ts";

/** Courses of treatment as plans: what was given and what is still to come, as known at the end of a day. */

export interface Treatment {
  readonly ledger: Ledger;
  readonly remedy: Remedy;
  /** The case it is given for; empty where none is named and none is open in this water. */
  readonly case: string;
  readonly given: readonly GivenDose[];
  readonly planned: readonly PlannedDose[];
  /** Doses in all, as stated; NaN where no course is. */
  readonly times: number;
  readonly state: CourseState;
  /** The day of its first dose. */
  readonly begin: number;
  /** When the interval after its last dose is over, of a running one the last that is planned. A remedy without intervals has one of a day. */
  readonly end: number;
  /** What is to be out while it runs. */
  readonly parts: readonly PartState[];
  readonly changeAfter: ChangeAfter | undefined;
  /** The first day on which its animals may leave by what is stated; NaN where nothing is. */
  readonly withdrawalEnd: number;
  /** What is in the water since its first dose, and ahead as planned; up to where the next course of the same remedy begins. */
  readonly curve: readonly Stretch[];
  /** The doses and changes that make the curve. */
  readonly steps: readonly CurveStep[];
}

export interface PlannedDose {
  readonly number: number;
  /** The day it is due, be it past. */
  readonly due: number;
  /** New water owed before it, beyond what was changed, as a fraction. */
  readonly changeOwed: number;
  /** What has to be added after that change to reach the target, in the remedy's unit; NaN where that cannot be said. */
  readonly added: number;
}

/** The courses of one water up to the end of a day, in the order they began. */
export function treatmentsOf(logbook: Logbook, ledger: Ledger, day: number): readonly Treatment[] {
  if (ledger.doses.length === 0) return [];
  const water = ledger.body?.id ?? -1;
  return keptFor(logbook, `treatments ${water} ${day}`, () => {
    const cases = caseStories(logbook, day);
    return ledger.book.remedies
      .flatMap((remedy) => coursesOf(ledger, remedy, day))
      .map((course) => treatmentOf(logbook, course, cases, day))
      .sort((a, b) => a.given[0]!.time - b.given[0]!.time);
  });
}

/** The latest course of a remedy in a water up to the end of a day; undefined if it was never given. @param cases to tell which it is given for */
export function latestTreatment(
  logbook: Logbook,
  ledger: Ledger,
  remedy: Remedy,
  day: number,
  cases: readonly CaseStory[] = caseStories(logbook, day),
): Treatment | undefined {
  const course = coursesOf(ledger, remedy, day).at(-1);
  return course === undefined ? undefined : treatmentOf(logbook, course, cases, day);
}

function treatmentOf(logbook: Logbook, course: Course, cases: readonly CaseStory[], day: number): Treatment {
  const { ledger, remedy, given, until } = course;
  const [first, last] = [given[0]!, given.at(-1)!];
  const state = stateOf(course, day);
  const end = endOfCourse(course, day);
  const now = day + 1;
  const past = stepsOf(course, Math.min(now, until));
  const planned = state === "running" ? plannedDoses(course, past, day) : { doses: [], steps: [] };
  const changeAfter = changeAfterOf(course, day);
  const gone = state === "running" ? Number.POSITIVE_INFINITY : Math.max(end, goneFrom(remedy, past));
  const steps = [
    ...past,
    ...planned.steps,
    ...plannedChange(past, planned.steps, changeAfter, end, day, remedy),
  ].filter(({ time }) => time <= gone);
  const ahead = until <= now ? until : Math.max(now, end, steps.at(-1)!.time) + aheadDays;
  const horizon = Math.min(ahead, gone + aheadDays);
  return {
    ledger,
    remedy,
    case: caseOf(course, cases),
    given,
    planned: planned.doses,
    times: remedy.repeatTimes,
    state,
    begin: Math.floor(first.time),
    end,
    parts: partsOf(logbook, ledger, remedy, { from: first.time, to: end }, day),
    changeAfter,
    withdrawalEnd: Math.floor(last.time) + Math.ceil(remedy.withdrawalDays),
    curve: partedAt(stretchesOf(steps, horizon), Math.min(now, until), remedy.halfLifeDays),
    steps,
  };
}

/** When next to none was left after the last dose; Infinity while there is more. Of what is not known nobody can say, and it is not followed for ever. */
function goneFrom({ targetLow, halfLifeDays }: Remedy, steps: readonly CurveStep[]): number {
  const last = steps.findLastIndex(({ is }) => is === "dose");
  const least = nextToNone * (Number.isFinite(targetLow) ? targetLow : steps[last]!.after);
  for (let at = last; at < steps.length; at++) {
    const { time, after } = steps[at]!;
    if (Number.isNaN(after)) return time + unknownDays;
    if (after <= least) return time;
    const thin = Number.isNaN(halfLifeDays)
      ? Number.POSITIVE_INFINITY
      : time + halfLifeDays * Math.log2(after / least);
    if (thin < (steps[at + 1]?.time ?? Number.POSITIVE_INFINITY)) return thin;
  }
  return Number.POSITIVE_INFINITY;
}

/** So far the curve goes on behind the last that is planned. */
const aheadDays = 1;

function stepsOf({ ledger, remedy, given }: Course, until: number): CurveStep[] {
  return remedySteps(ledger, remedy, until, given[0]!.index).map(
    ({ is, series, index, time, before, after }): CurveStep => ({
      is,
      time,
      before,
      after,
      amount: series.first[index]!,
      isPlanned: false,
    }),
  );
}

/** The doses that are still to come, each on its day; what is late is reckoned as given at once. */
function plannedDoses(
  { ledger, remedy, given }: Course,
  past: readonly CurveStep[],
  day: number,
): { readonly doses: PlannedDose[]; readonly steps: CurveStep[] } {
  const { repeatTimes, repeatDays, halfLifeDays } = remedy;
  const before = Number.isNaN(remedy.changeBefore) ? 0 : remedy.changeBefore;
  const last = given.at(-1)!;
  const doses: PlannedDose[] = [];
  const steps: CurveStep[] = [];
  let { time, after: level } = past.at(-1)!;
  let due = last.time + repeatDays;
  let isChanged = changedBetween(ledger, last.time, day + 1);
  for (let number = last.number + 1; number <= repeatTimes; number++) {
    const at = Math.max(due, day + 1);
    // What is changed twice takes from what the first change left.
    const owed = owedOf(before, isChanged);
    level = decayed(level, at - time, halfLifeDays);
    if (owed > 0) {
      const after = level * (1 - owed);
      steps.push({ is: "change", time: at, before: level, after, amount: owed, isPlanned: true });
      level = after;
    }
    const added = Math.max(0, middleOfTarget(remedy) - level);
    doses.push({ number, due: Math.floor(due), changeOwed: owed, added });
    steps.push({ is: "dose", time: at, before: level, after: level + added, amount: added, isPlanned: true });
    level += added;
    time = at;
    due = at + repeatDays;
    isChanged = 0;
  }
  return { doses, steps };
}

/** The change still owed where some was done; less than half a hundredth is none. */
function owedOf(owed: number, done: number): number {
  const left = 1 - (1 - owed) / (1 - done);
  return left > 0.005 ? left : 0;
}

function plannedChange(
  past: readonly CurveStep[],
  planned: readonly CurveStep[],
  change: ChangeAfter | undefined,
  end: number,
  day: number,
  { halfLifeDays }: Remedy,
): CurveStep[] {
  if (change === undefined || isDoneAfter(change)) return [];
  const last = planned.at(-1) ?? past.at(-1)!;
  const time = Math.max(end, day + 1);
  const amount = owedOf(change.owed, change.done);
  const before = decayed(last.after, time - last.time, halfLifeDays);
  return [{ is: "change", time, before, after: before * (1 - amount), amount, isPlanned: true }];
}

/** The case a dose names, else one that is open in this water when the course begins. */
function caseOf({ ledger, given }: Course, cases: readonly CaseStory[]): string {
  const { doses, body } = ledger;
  for (const { index } of given) {
    const block = doses.block[index]!;
    const row = rowOfId(block, doses.row[index]!);
    const named = row < 0 ? noName : block.facts.ints[row * intsPerRow + Col.object]!;
    if (named !== noName) return wordOf(named);
  }
  return caseOpenIn(cases, body?.id ?? -1, Math.floor(given[0]!.time));
}

/** The name of a case that is open in a water on a day; empty if none is. */
export function caseOpenIn(cases: readonly CaseStory[], body: number, day: number): string {
  const open = cases.find(
    (each) =>
      each.since <= day &&
      !(each.closed < day) &&
      // Also where its sick were moved to.
      each.homes.some(({ tank, from }) => from <= day && tank.body === body),
  );
  return open?.name ?? "";
}
