import { type Parameter, parameterOf } from "../book/parameters.ts";
import type { Remedy } from "../book/stations.ts";
import { isDoneAfter } from "./dose-courses.ts";
import { kept } from "./kept.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { latestTreatment, type Treatment } from "./treatments.ts";

/** What a course of treatment owes beside its doses, on a day: what is to be taken out, tested, changed at its end, and put back. */

export interface CourseStep {
  readonly ledger: Ledger;
  readonly remedy: Remedy;
  readonly treatment: Treatment;
  readonly is: "remove" | "test" | "change" | "return";
  /** The last day on which it is in time. */
  readonly due: number;
  /** Whole days past due; 0 if due on the day, below 0 if later. */
  readonly late: number;
  /** New water owed, as a fraction; NaN for another step. */
  readonly fraction: number;
  /** What is to be taken out or put back, or the parameters to test. */
  readonly names: readonly string[];
}

/** Of what a course owed longer ago nobody is reminded. */
const newsDays = 30;

/** What was taken out so long before the first dose, or later, was so for the course. A choice of this tool. */
const forCourseDays = 7;

/** After what harms the bacteria of a filter these are tested for so long. Common practice. */
export const filterDays = 7;
export const filterTests: readonly Parameter[] = [parameterOf("ammonia"), parameterOf("nitrite")];

/** The steps of the latest courses of a water that are not done, as known at the end of a day. */
export function courseSteps(logbook: Logbook, ledger: Ledger, day: number): readonly CourseStep[] {
  if (ledger.doses.length === 0) return [];
  return kept(ledger, `course steps ${day}`, () => stepsOf(logbook, ledger, day));
}

function stepsOf(logbook: Logbook, ledger: Ledger, day: number): CourseStep[] {
  const treatments = ledger.book.remedies
    .filter(
      ({ without, changeAfter, harms }) =>
        without.length > 0 || !Number.isNaN(changeAfter) || harms.includes("filter-bacteria"),
    )
    .flatMap((remedy) => latestTreatment(logbook, ledger, remedy, day, []) ?? [])
    .filter(({ end }) => day - end <= newsDays);
  const needed = treatments.filter(({ end }) => end > day).flatMap(({ remedy }) => remedy.without);
  return treatments.flatMap((treatment) => {
    const { remedy, given, begin, end, parts, changeAfter } = treatment;
    const step = (
      is: CourseStep["is"],
      due: number,
      more: Partial<Pick<CourseStep, "fraction" | "names">>,
    ): CourseStep => ({
      ledger,
      remedy,
      treatment,
      is,
      due,
      late: day - due,
      fraction: Number.NaN,
      names: [],
      ...more,
    });
    const last = Math.floor(given.at(-1)!.time);
    const steps: CourseStep[] = [];
    const isOver = Math.floor(end) <= day;
    const toRemove = parts.filter(({ is }) => is === "in" || is === "back early").map(({ part }) => part);
    if (!isOver && toRemove.length > 0) steps.push(step("remove", last, { names: toRemove }));
    const untested = remedy.harms.includes("filter-bacteria") ? notTested(ledger, last, day) : [];
    if (untested.length > 0) steps.push(step("test", last + filterDays, { names: untested }));
    const isOwed = changeAfter !== undefined && treatment.state !== "running" && !isDoneAfter(changeAfter);
    if (isOwed) {
      const fraction = 1 - (1 - changeAfter.owed) / (1 - changeAfter.done);
      steps.push(step("change", changeAfter.due, { fraction }));
    }
    // What another course needs out stays out, and what was out long before was not taken out for this one.
    const toReturn = parts
      .filter(
        ({ part, is, since }) => is === "out" && since >= begin - forCourseDays && !needed.includes(part),
      )
      .map(({ part }) => part);
    if (isOver && toReturn.length > 0) steps.push(step("return", Math.floor(end), { names: toReturn }));
    return steps;
  });
}

/** What was not tested since a dose, while it is to be. */
function notTested(ledger: Ledger, last: number, day: number): string[] {
  if (day - last > filterDays) return [];
  return filterTests
    .filter(({ id }) => {
      const series = ledger.readings[id];
      const at = series?.from(last) ?? 0;
      return series === undefined || at >= series.length || !(series.time[at]! < day + 1);
    })
    .map(({ name }) => name);
}
