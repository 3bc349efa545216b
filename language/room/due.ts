import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import type { Block } from "../book/source.ts";
import type { Duty, Gear, Station, Tank } from "../book/stations.ts";
import { periodStart } from "./duty-times.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";
import { type Course, nextDose } from "./solutes.ts";

/** What is due, on a day: all duties by one mechanism, and doses of running courses. */

export interface DueDuty {
  readonly duty: Duty;
  readonly station: Station;
  /** When it was last done; NaN if never. */
  readonly last: number;
  /** The entry that did it. */
  readonly lastAt: { readonly block: Block; readonly row: number } | undefined;
  /** The day it is due; Infinity where nothing is owed. */
  readonly due: number;
  /** Whole days past due; 0 if due on the day, below 0 if later. */
  readonly late: number;
  /** Times done within the period up to the day, for `at least` and `at most`. */
  readonly times: number;
}

/** The state of a duty on a day. @param day whole; entries up to its end count */
export function dutyOn(ledger: Ledger, duty: Duty, day: number): DueDuty {
  const done = ledger.duties.done(duty);
  const { form, station } = duty;
  const until = done.from(day + 1);
  const last = until > 0 ? done.time[until - 1]! : Number.NaN;
  const lastAt = until > 0 ? { block: done.block[until - 1]!, row: done.row[until - 1]! } : undefined;
  const begun = startOf(ledger, station);
  const state = { duty, station, last, lastAt };
  if (!isInService(station, day))
    return { ...state, due: Number.POSITIVE_INFINITY, late: Number.NEGATIVE_INFINITY, times: 0 };
  const period = Math.round(form.periodDays);
  // What was never done counts from the first day; of nothing is known when it began.
  const since = Number.isNaN(begun) ? Number.POSITIVE_INFINITY : Math.floor(begun);
  if (form.when === "every") {
    const due = (Number.isNaN(last) ? since : Math.floor(last)) + period;
    return { ...state, due, late: day - due, times: 1 };
  }
  const times = until - done.from(periodStart(period, day));
  if (form.when === "at most")
    return { ...state, due: Number.POSITIVE_INFINITY, late: Number.NEGATIVE_INFINITY, times };
  const due = (lastEnough(done, until, form.times, period) ?? since) + period;
  return { ...state, due, late: day - due, times };
}

/** The first day of the last so many times that lie within one period: when it is past, there are too few. */
function lastEnough(done: Series, until: number, times: number, periodDays: number): number | undefined {
  for (let last = until - 1; last >= times - 1; last--) {
    const first = Math.floor(done.time[last - times + 1]!);
    if (Math.floor(done.time[last]!) - first < periodDays) return first;
  }
  return undefined;
}

/** All duties of a ledger's stations on a day. */
export function dutiesOn(ledger: Ledger, stations: readonly Station[], day: number): DueDuty[] {
  return stations.flatMap((station) => station.duties.map((duty) => dutyOn(ledger, duty, day)));
}

/** A dose of a running course that is due. */
export interface DueDose {
  readonly course: Course;
  readonly due: number;
  readonly late: number;
  /** New water owed before it, beyond what was changed; 0 if none. */
  readonly changeOwed: number;
}

/** Courses that are not complete, with their next dose; those long past are left out. */
export function dosesOn(ledger: Ledger, day: number): DueDose[] {
  const doses: DueDose[] = [];
  for (const course of ledger.solutes?.all(day) ?? []) {
    const due = Math.floor(nextDose(course));
    if (Number.isNaN(due) || day - due > course.remedy.repeatDays) continue;
    // What is changed twice takes from what the first change left.
    const owed =
      Number.isNaN(course.remedy.changeBefore) || course.oldWater === 0
        ? 0
        : 1 - (1 - course.remedy.changeBefore) / course.oldWater;
    doses.push({ course, due, late: day - due, changeOwed: Math.max(0, owed) });
  }
  return doses;
}

/** Courses that ended without all their doses. */
export function coursesCut(ledger: Ledger, day: number): Course[] {
  return (ledger.solutes?.all(day) ?? []).filter((course) => {
    const due = Math.floor(nextDose(course));
    return !Number.isNaN(due) && day - due > course.remedy.repeatDays;
  });
}

/** The day from which a station's duties count: its stated first day, else the first entry about it, of a system about its tanks. */
function startOf(ledger: Ledger, station: Station): number {
  const stated =
    station.kind === "tank"
      ? (station as Tank).from
      : station.kind === "gear"
        ? (station as Gear).from
        : Number.NaN;
  if (!Number.isNaN(stated)) return stated;
  const about = station.kind === "system" ? [station, ...(ledger.body?.tanks ?? [])] : [station];
  const firsts = about.map(({ id }) => ledger.duties.first(id)).filter((time) => !Number.isNaN(time));
  return firsts.length === 0 ? Number.NaN : Math.min(...firsts);
}

function isInService(station: Station, day: number): boolean {
  if (station.kind !== "tank") return true;
  const { from, until } = station as Tank;
  return !(from > day) && !(until < day);
}

/** The kinds of work a keeper does on a round, for the order of lists. */
export const roundOrder: readonly number[] = [
  Kind.dose,
  Kind.change,
  Kind.clean,
  Kind.service,
  Kind.test,
  Kind.count,
  Kind.feed,
];

/** Where work at a station is done: that of a gear at the tank or system it serves. */
export function placeOf({ gears, stations }: Book, station: Station): Station {
  if (station.kind !== "gear") return station;
  const on = gears.find(({ id }) => id === station.id)?.on ?? "";
  return stations.find(({ name, kind }) => name === on && kind !== "gear") ?? station;
}
