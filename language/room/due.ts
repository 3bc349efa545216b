import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import type { Block } from "../book/source.ts";
import type { Duty, Gear, Station, Tank } from "../book/stations.ts";
import { workDayFrom } from "./capacity.ts";
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
  /** The day it is due by its interval; Infinity where nothing is owed. */
  readonly due: number;
  /** The first day from then on on which somebody works: until it is past, nothing is late. */
  readonly owed: number;
  /** Whole days past the day it is owed; 0 if owed on the day, below 0 if later. */
  readonly late: number;
  /** Times done within the period up to the day, for `at least` and `at most`. */
  readonly times: number;
  /** The last entry since then that did less than is asked for. */
  readonly less: { readonly time: number; readonly block: Block; readonly row: number } | undefined;
  /** The entry since then that took back what was done: a meter that was replaced after it was calibrated. */
  readonly undone: { readonly time: number; readonly block: Block; readonly row: number } | undefined;
}

/** The state of a duty on a day. @param day whole; entries up to its end count */
export function dutyOn(ledger: Ledger, duty: Duty, day: number): DueDuty {
  const done = ledger.duties.done(duty);
  const { form, station, kind } = duty;
  const until = done.from(day + 1);
  const last = until > 0 ? done.time[until - 1]! : Number.NaN;
  const lastAt = until > 0 ? { block: done.block[until - 1]!, row: done.row[until - 1]! } : undefined;
  const since = sinceOf(ledger, duty, last);
  const state = {
    duty,
    station,
    last,
    lastAt,
    less: lastAfter(ledger.duties.less(duty), done, until, day),
    undone: lastAfter(ledger.duties.undone(duty), done, until, day),
  };
  const period = Math.round(form.periodDays);
  const isEvery = form.when === "every";
  const times = isEvery ? 1 : until - done.from(periodStart(period, day));
  if (!isInService(station, day)) return { ...state, ...nothingOwed, times: isEvery ? times : 0 };
  if (form.when === "at most") return { ...state, ...nothingOwed, times };
  const due = isEvery
    ? state.undone === undefined
      ? since + period
      : Math.floor(state.undone.time)
    : (lastEnough(done, until, form.times, period) ?? begunOf(ledger, duty)) + period;
  const owed = Number.isFinite(due) ? workDayFrom(ledger.book, due, kind) : due;
  return { ...state, due, owed, late: day - owed, times };
}

const nothingOwed = {
  due: Number.POSITIVE_INFINITY,
  owed: Number.POSITIVE_INFINITY,
  late: Number.NEGATIVE_INFINITY,
};

/** The day from which an interval counts: the last time, of what was never done the first day; of nothing is known when it began. */
function sinceOf(ledger: Ledger, duty: Duty, last: number): number {
  if (Number.isNaN(last)) return begunOf(ledger, duty);
  // Who states the first day of a new one has replaced it.
  const { from } = duty.station as Gear;
  return duty.isLife && from > last ? from : Math.floor(last);
}

function begunOf(ledger: Ledger, { station, isLife }: Duty): number {
  const begun = isLife ? (station as Gear).from : startOf(ledger, station);
  return Number.isNaN(begun) ? Number.POSITIVE_INFINITY : Math.floor(begun);
}

/** The last of a series after what did a duty last, up to the end of a day. @param until how often it was done by then */
function lastAfter(series: Series | undefined, done: Series, until: number, day: number): DueDuty["less"] {
  const at = series === undefined ? -1 : series.from(day + 1) - 1;
  if (series === undefined || at < 0) return undefined;
  const [time, order] = [series.time[at]!, series.order[at]!];
  const last = until - 1;
  const isAfter =
    last < 0 || time > done.time[last]! || (time === done.time[last] && order > done.order[last]!);
  return isAfter ? { time, block: series.block[at]!, row: series.row[at]! } : undefined;
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
  Kind.check,
  Kind.test,
  Kind.count,
  Kind.feed,
];

/** What to write of a duty where it is done, without the target: a gear is named at the tank it serves. */
export function actAt({ gears }: Pick<Book, "gears">, { act, station }: Duty, at: Station): string {
  if (at === station || !gears.some(({ id }) => id === station.id)) return act;
  const [word = "", ...rest] = act.split(" ");
  return [word, station.name, ...rest].join(" ");
}

/** Where work at a station is done: that of a gear at the tank or system it serves. */
export function placeOf({ gears, stations }: Book, station: Station): Station {
  if (station.kind !== "gear") return station;
  const on = gears.find(({ id }) => id === station.id)?.on ?? "";
  return stations.find(({ name, kind }) => name === on && kind !== "gear") ?? station;
}
