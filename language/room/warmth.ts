import { parameterOf } from "../book/parameters.ts";
import type { Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";

/** How warm the water of a tank was, day by day, by its tests; and how warm it is taken to be where nobody tested. */

/**
 * What a day's temperature rests on: tests near it; for a day to come those of late; the middle of the tank's limits; or nothing, and then
 * there is no figure.
 */
export type WarmthBy = "tests" | "late tests" | "limits" | "nothing";

export interface DayWarmth {
  readonly day: number;
  /** NaN where it rests on nothing. */
  readonly meanC: number;
  readonly by: WarmthBy;
}

const temperature = parameterOf("temperature");

/** A test tells of the days so far from it. *Common practice, no source.* */
export const tellsDays = 7;

/**
 * The mean temperature of a day: the area under the line from test to test. Tests in the tank itself count before those in water it
 * shares.
 * @param knownDay the last day that is known: what is later is ahead
 */
export function warmthOn(ledger: Ledger, tank: Tank, day: number, knownDay: number): DayWarmth {
  const { days } = keptOf(ledger, knownDay);
  const key = `${tank.id} ${day}`;
  let known = days.get(key);
  if (known === undefined) {
    known = worked(ledger, tank, day, knownDay);
    days.set(key, known);
  }
  return known;
}

interface Kept {
  readonly revision: number;
  readonly knownDay: number;
  readonly days: Map<string, DayWarmth>;
}

/** True for one state of a ledger and one day that is known. */
const byLedger = new WeakMap<Ledger, Kept>();

function keptOf(ledger: Ledger, knownDay: number): Kept {
  const known = byLedger.get(ledger);
  if (known !== undefined && known.revision === ledger.revision && known.knownDay === knownDay) return known;
  const fresh: Kept = { revision: ledger.revision, knownDay, days: new Map() };
  byLedger.set(ledger, fresh);
  return fresh;
}

function worked(ledger: Ledger, tank: Tank, day: number, knownDay: number): DayWarmth {
  const series = ledger.readings[temperature.id];
  if (series !== undefined) {
    for (const station of [tank.id, undefined]) {
      const meanC =
        day > knownDay ? meanOfLate(series, station, knownDay) : meanOn(series, station, day, knownDay);
      if (!Number.isNaN(meanC)) return { day, meanC, by: day > knownDay ? "late tests" : "tests" };
    }
  }
  const limit = tank.limits.get(temperature.id);
  const middle = limit === undefined ? Number.NaN : (limit.low + limit.high) / 2;
  return Number.isFinite(middle)
    ? { day, meanC: middle, by: "limits" }
    : { day, meanC: Number.NaN, by: "nothing" };
}

interface Test {
  readonly time: number;
  readonly C: number;
}

/** The tests in a stretch of time, those of one moment together; of one tank, or of all the water. */
function testsIn(series: Series, of: number | undefined, from: number, to: number): Test[] {
  const byTime = new Map<number, number[]>();
  for (let at = series.from(from); at < series.length && series.time[at]! < to; at++) {
    const C = (series.first[at]! + series.second[at]!) / 2;
    const time = series.time[at]!;
    if ((of === undefined || series.tag[at] === of) && Number.isFinite(C))
      byTime.set(time, [...(byTime.get(time) ?? []), C]);
  }
  return [...byTime].map(([time, all]) => ({ time, C: all.reduce((sum, C) => sum + C, 0) / all.length }));
}

/** NaN where no test is near. */
function meanOn(series: Series, of: number | undefined, day: number, knownDay: number): number {
  const tests = testsIn(series, of, day - tellsDays, Math.min(day + 1 + tellsDays, knownDay + 1));
  if (tests.length === 0) return Number.NaN;
  const within = tests.filter(({ time }) => time > day && time < day + 1);
  const knots = [
    { time: day, C: lineAt(tests, day) },
    ...within,
    { time: day + 1, C: lineAt(tests, day + 1) },
  ];
  let area = 0;
  for (let at = 1; at < knots.length; at++) {
    const [one, next] = [knots[at - 1]!, knots[at]!];
    area += ((one.C + next.C) / 2) * (next.time - one.time);
  }
  return area;
}

/** What the line through the tests says at a time; before the first and after the last it is level. */
function lineAt(tests: readonly Test[], time: number): number {
  const next = tests.findIndex((test) => test.time >= time);
  if (next < 0) return tests.at(-1)!.C;
  const after = tests[next]!;
  const before = tests[next - 1];
  if (before === undefined) return after.C;
  return before.C + ((after.C - before.C) * (time - before.time)) / (after.time - before.time);
}

/** For days to come: the mean of the tests of late; NaN if there are none. */
function meanOfLate(series: Series, of: number | undefined, knownDay: number): number {
  const tests = testsIn(series, of, knownDay + 1 - tellsDays, knownDay + 1);
  return tests.length === 0 ? Number.NaN : tests.reduce((sum, { C }) => sum + C, 0) / tests.length;
}

/** All tests that the warmth of some days rests on, as numbers. */
export function testsAround(ledger: Ledger, from: number, to: number): Float64Array {
  const series = ledger.readings[temperature.id];
  if (series === undefined) return new Float64Array(0);
  const { begin, end } = windowOf(series, from, to);
  const tests = new Float64Array(columns * (end - begin));
  for (let at = begin; at < end; at++)
    for (let column = 0; column < columns; column++)
      tests[columns * (at - begin) + column] = columnOf(series, at, column);
  return tests;
}

/** Whether the tests that the warmth of some days rests on are what they were: then so is the warmth. */
export function areTestsAround(
  ledger: Ledger,
  from: number,
  to: number,
  tests: Float64Array | undefined,
): boolean {
  const series = ledger.readings[temperature.id];
  if (tests === undefined || series === undefined) return tests?.length === 0;
  const { begin, end } = windowOf(series, from, to);
  if (tests.length !== columns * (end - begin)) return false;
  for (let at = begin; at < end; at++)
    for (let column = 0; column < columns; column++)
      if (!Object.is(tests[columns * (at - begin) + column], columnOf(series, at, column))) return false;
  return true;
}

const columns = 4;

function windowOf(
  series: Series,
  from: number,
  to: number,
): { readonly begin: number; readonly end: number } {
  return { begin: series.from(from - tellsDays), end: series.from(to + 1 + tellsDays) };
}

function columnOf({ time, first, second, tag }: Series, at: number, column: number): number {
  return (column === 0 ? time : column === 1 ? first : column === 2 ? second : tag)[at]!;
}
