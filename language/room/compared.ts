import { type Parameter, parameters } from "../book/parameters.ts";
import type { Tank } from "../book/stations.ts";
import { chanceOfMore, medianOf, type Shift, shiftBetween } from "../science/before-after.ts";
import { figure, type Reading } from "../science/censored.ts";
import type { Limits } from "../science/interval.ts";
import { isOutside } from "../science/result.ts";
import type { Windows } from "./change-windows.ts";
import type { Logbook } from "./logbook.ts";
import { algaeRatings, growths, trims } from "./plant-rows.ts";
import type { Period } from "./stock-book.ts";

/** What was seen and measured in a tank before and after a change. */

/** Fewer readings than these on a side make no difference to tell: three and three have an interval of 90 % at most. */
export const leastReadings = 3;

export type Measure =
  | { readonly is: "algae"; readonly sort: string; readonly isShare: boolean }
  /** What is cut of plants, in g a week from one trimming to the next. */
  | { readonly is: "growth" }
  | { readonly is: "parameter"; readonly parameter: Parameter };

export interface Side {
  /** One a day: of several the last. */
  readonly count: number;
  readonly median: Limits;
}

export interface Compared {
  readonly measure: Measure;
  readonly before: Side;
  readonly after: Side;
  /** Undefined where there are too few readings on a side. */
  readonly shift: Shift | undefined;
  /** The chance that one after is above one before. */
  readonly chance: Limits | undefined;
}

interface Dated {
  readonly day: number;
  readonly reading: Reading;
}

/** Algae by sort, growth, then what was tested; with readings on both sides. @param water whether what was tested in its water is wanted too */
export function comparedIn(
  logbook: Logbook,
  tank: Tank,
  windows: Windows,
  water: "with water" | "without water" = "with water",
): Compared[] {
  const { before, after } = windows;
  const of = (period: Period): Map<string, Sample> => {
    const samples = new Map<string, Sample>();
    for (const sample of [
      ...algaeSamples(logbook, tank, period),
      ...growthSample(logbook, tank, period),
      ...(water === "with water" ? testSamples(logbook, tank, period) : []),
    ])
      samples.set(keyOf(sample.measure), sample);
    return samples;
  };
  const [earlier, later] = [of(before), of(after)];
  const all = new Map([...earlier, ...later]);
  return [...all.keys()]
    .map((key) =>
      compared(all.get(key)!.measure, earlier.get(key)?.readings ?? [], later.get(key)?.readings ?? []),
    )
    .filter((each) => each.before.count > 0 && each.after.count > 0)
    .sort((a, b) => rankOf(a.measure) - rankOf(b.measure) || (keyOf(a.measure) < keyOf(b.measure) ? -1 : 1));
}

interface Sample {
  readonly measure: Measure;
  readonly readings: readonly Dated[];
}

export const keyOf = (measure: Measure): string =>
  measure.is === "algae"
    ? `algae ${measure.sort} ${measure.isShare ? "share" : "rating"}`
    : measure.is === "growth"
      ? "growth"
      : measure.parameter.name;

/** Plants live on nitrate and phosphate: these come first of what was tested. */
function rankOf(measure: Measure): number {
  if (measure.is === "algae") return 0;
  if (measure.is === "growth") return 1;
  return ["nitrate", "phosphate"].includes(measure.parameter.name) ? 2 : 3 + measure.parameter.id;
}

function algaeSamples(logbook: Logbook, tank: Tank, { from, to }: Period): Sample[] {
  const bySort = new Map<string, { measure: Measure; readings: Dated[] }>();
  for (const { row, sort, isShare, reading } of algaeRatings(logbook, tank, from, to)) {
    const measure: Measure = { is: "algae", sort, isShare };
    const known = bySort.get(keyOf(measure)) ?? { measure, readings: [] };
    known.readings.push({ day: row.day, reading });
    bySort.set(keyOf(measure), known);
  }
  return [...bySort.values()];
}

function growthSample(logbook: Logbook, tank: Tank, { from, to }: Period): Sample[] {
  const grown = growths(trims(logbook, tank, from, to));
  if (grown.length === 0) return [];
  const readings = grown.map(({ day, gramsAWeek }) => ({ day, reading: figure(gramsAWeek) }));
  return [{ measure: { is: "growth" }, readings }];
}

function testSamples(logbook: Logbook, tank: Tank, { from, to }: Period): Sample[] {
  const ledger = logbook.ledgerOf(tank);
  return parameters.flatMap((parameter): Sample[] => {
    const series = ledger.readings[parameter.id];
    if (series === undefined) return [];
    const readings: Dated[] = [];
    for (let at = series.from(from); at < series.length && series.time[at]! < to + 1; at++) {
      const [low, high] = [series.first[at]!, series.second[at]!];
      const is = low === high ? "figure" : high === Number.POSITIVE_INFINITY ? "above" : "between";
      readings.push({ day: Math.floor(series.time[at]!), reading: { low, high, is } });
    }
    return readings.length === 0 ? [] : [{ measure: { is: "parameter", parameter }, readings }];
  });
}

function compared(measure: Measure, earlier: readonly Dated[], later: readonly Dated[]): Compared {
  const [before, after] = [oneADay(earlier), oneADay(later)];
  const isEnough = before.length >= leastReadings && after.length >= leastReadings;
  const shift = isEnough ? shiftBetween(before, after) : undefined;
  const chance = isEnough ? chanceOfMore(before, after) : undefined;
  return {
    measure,
    before: sideOf(before),
    after: sideOf(after),
    shift: isOutside(shift) ? undefined : shift,
    chance: isOutside(chance) ? undefined : chance,
  };
}

/** Readings of one day say the same thing twice. */
function oneADay(readings: readonly Dated[]): Reading[] {
  return [...new Map(readings.map(({ day, reading }) => [day, reading])).values()];
}

const sideOf = (readings: readonly Reading[]): Side => ({
  count: readings.length,
  median: readings.length === 0 ? { low: Number.NaN, high: Number.NaN } : medianOf(readings),
});

/** Whether the interval leaves no doubt on which side of nothing the difference lies. */
export function isSureShift(shift: Shift | undefined): boolean {
  if (!shift?.isReached) return false;
  const { low, high } = shift.interval;
  return low > 0 || high < 0;
}
