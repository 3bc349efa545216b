import { Kind } from "../book/entries/registry.ts";
import type { Parameter } from "../book/parameters.ts";
import type { Duty, Limit, Station, Tank, Water } from "../book/stations.ts";
import { afterChange, fractionToReach, steadyBeforeChangeMgL } from "../science/dilution.ts";
import { type Forecast, forecast, holdingFraction, type Regular, type Side } from "../science/forecast.ts";
import { levelAt } from "../science/level.ts";
import {
  type Exchange,
  type Production,
  production,
  type Reading,
  type Span,
  WINDOW,
} from "../science/mass-balance.ts";
import { type Figure, isOutside, type Outside } from "../science/result.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";

/** A change that is stated as a duty. */
export interface UsualChange {
  readonly duty: Duty;
  readonly everyDays: number;
  /** Of the body of water. */
  readonly fraction: number;
}

/**
 * Where a parameter of a body of water stands and heads: production per day by mass balance with the changes taken out, the level
 * today, and when it meets a limit.
 */
export interface WaterTrend {
  readonly parameter: Parameter;
  readonly readings: readonly Reading[];
  readonly exchanges: readonly Exchange[];
  /** Per day, with its interval; or why it cannot be said. */
  readonly production: Production | Outside;
  /** Today, with its interval; undefined without production. */
  readonly level: Span | undefined;
  /** The regular change that is stated as a duty. */
  readonly duty: (UsualChange & { readonly sourceMgL: number }) | undefined;
  readonly limit: Limit | undefined;
  readonly side: Side;
  /** To the limit, changed as the duty says; undefined where there is no limit or no production. */
  readonly forecast: Forecast | undefined;
  /** The same without any change. */
  readonly unchanged: Forecast | undefined;
  /** The one change that would bring the level of today back within the limit; undefined if it is within. */
  readonly changeBack: Figure | undefined;
  /** The fraction that, changed as often as now, would hold the limit. */
  readonly holding: Figure | undefined;
  /** The level before each change in the long run under the duty. */
  readonly steady: Figure | undefined;
}

/** Days within which readings count for the trend. */
const windowDays = 56;
/** Fewer readings say nothing of a trend. */
const leastReadings = 4;

/** What the readings and changes up to a time say together. */
export interface Balance {
  readonly readings: readonly Reading[];
  readonly exchanges: readonly Exchange[];
  /** Per day, with its interval; or why it cannot be said. */
  readonly production: Production | Outside;
  /** At that time, with its interval; undefined without production. */
  readonly level: Span | undefined;
}

/**
 * The balance of a parameter in a ledger's water, by what was logged before a time; undefined without readings, or for what does
 * not mix.
 * @param until a time as `settledTime` gives it; what stands at or after it does not count
 */
export function balanceUntil(ledger: Ledger, parameter: Parameter, until: number): Balance | undefined {
  const series = ledger.readings[parameter.id];
  if (series === undefined || !parameter.mixes || parameter.dimension === "temperature") return undefined;
  const end = firstSettled(series, until);
  const begin = Math.max(series.from(Math.ceil(until) - 1 - windowDays), end - WINDOW);
  if (end - begin < 1) return undefined;
  const readings = readingsOf(ledger, parameter, series, begin, end);
  const exchanges = exchangesOf(ledger, parameter, series.time[begin]!, until);
  const made: Production | Outside =
    readings.length < leastReadings
      ? { outside: `too few readings: ${readings.length} of ${leastReadings}` }
      : production(readings, exchanges);
  const level = isOutside(made) ? undefined : levelAt(readings, exchanges, until, made);
  return { readings, exchanges, production: made, level: isOutside(level) ? undefined : level };
}

/** The readings of a series from one index to before another, as the mass balance takes them. */
function readingsOf(
  ledger: Ledger,
  parameter: Parameter,
  series: Series,
  begin: number,
  end: number,
): Reading[] {
  const half = (ledger.book.steps.get(parameter.id) ?? 0) / 2;
  const readings: Reading[] = [];
  for (let at = begin; at < end; at++) {
    const [low, high] = [series.first[at]!, series.second[at]!];
    // A figure stands for all that its test cannot tell from it; what is censored says its ends itself.
    const open = low === high ? half : 0;
    readings.push({
      timeDays: settledTime(series, at),
      lowMgL: Math.max(Math.min(0, low), low - open),
      highMgL: high + open,
    });
  }
  return readings;
}

/**
 * What a water made or used up of a parameter a day, by the readings of some days alone, changes taken out; a reason where they say nothing.
 * @param until the first day that does not count
 */
export function productionBetween(
  ledger: Ledger,
  parameter: Parameter,
  from: number,
  until: number,
): Production | Outside {
  const series = ledger.readings[parameter.id];
  const [begin, end] = [series?.from(from) ?? 0, series?.from(until) ?? 0];
  if (series === undefined || end - begin < leastReadings)
    return { outside: `too few readings: ${end - begin} of ${leastReadings}` };
  return production(
    readingsOf(ledger, parameter, series, begin, end),
    exchangesOf(ledger, parameter, series.time[begin]!, until),
  );
}

/**
 * The time of something in a series with the order of the lines in it: entries of one minute count in the order they are written
 * (FORMAT.md, section 3), so a row is told from the next by a share of a second.
 */
export function settledTime(series: Series, at: number): number {
  return series.time[at]! + series.order[at]! * rowDays;
}

/** A thousandth of a second or so: a thousand entries of one minute in one water stay within it. */
const rowDays = 1e-8;

/** The index of the first thing at or after a settled time. */
function firstSettled(series: Series, until: number): number {
  let at = series.from(until);
  while (at > 0 && settledTime(series, at - 1) >= until) at--;
  return at;
}

/** Where a parameter of a ledger's water heads on a day; undefined without readings, or for what does not mix. */
export function waterTrend(
  ledger: Ledger,
  parameter: Parameter,
  tank: Tank | undefined,
  day: number,
): WaterTrend | undefined {
  const balance = balanceUntil(ledger, parameter, day + 1);
  if (balance === undefined) return undefined;
  const { readings, exchanges, production: made, level: span } = balance;
  const limit = tank?.limits.get(parameter.id);
  const side = sideOf(limit, made, span);
  const duty = regularChange(ledger, tank, parameter);
  const nothing = {
    forecast: undefined,
    unchanged: undefined,
    changeBack: undefined,
    holding: undefined,
    steady: undefined,
  };
  if (isOutside(made) || span === undefined || limit === undefined) {
    return { parameter, readings, exchanges, production: made, level: span, duty, limit, side, ...nothing };
  }
  const bound = side === "ceiling" ? limit.high : limit.low;
  const rate = { best: made.rateMgLDay, ...spanOf(made) };
  const source = duty?.sourceMgL ?? sourceLevel(ledger.book.waters[0], parameter);
  const isOver = side === "ceiling" ? span.best > bound : span.best < bound;
  return {
    parameter,
    readings,
    exchanges,
    production: made,
    level: span,
    duty,
    limit,
    side,
    forecast: forecast(
      span,
      rate,
      bound,
      side,
      duty === undefined ? undefined : regular(duty, exchanges, day),
    ),
    unchanged: forecast(span, rate, bound, side),
    changeBack: isOver ? fractionToReach(span.best, source, bound) : undefined,
    holding:
      duty === undefined || side === "floor"
        ? undefined
        : holdingFraction(made.rateMgLDay, duty.everyDays, bound, source),
    steady:
      duty === undefined
        ? undefined
        : steadyBeforeChangeMgL(made.rateMgLDay * duty.everyDays, duty.fraction, source),
  };
}

/** The end of a limit that counts: of two the one that is passed, else the one the level goes to by itself. */
function sideOf(limit: Limit | undefined, made: Production | Outside, level: Span | undefined): Side {
  if (limit === undefined || limit.low === Number.NEGATIVE_INFINITY) return "ceiling";
  if (limit.high === Number.POSITIVE_INFINITY) return "floor";
  if (level === undefined || isOutside(made) || level.best > limit.high) return "ceiling";
  return level.best < limit.low || made.rateMgLDay < 0 ? "floor" : "ceiling";
}

/** The interval of a production; of one without, the figure alone. */
export function spanOf(made: Production): { low: number; high: number } {
  return isOutside(made.interval) ? { low: made.rateMgLDay, high: made.rateMgLDay } : made.interval;
}

/** The exchanges from a time on and before another, as the mass balance takes them. @param toTime settled */
function exchangesOf(ledger: Ledger, parameter: Parameter, fromTime: number, toTime: number): Exchange[] {
  const { exchanges, book, body } = ledger;
  const made: Exchange[] = [];
  const end = firstSettled(exchanges, toTime);
  for (let at = exchanges.from(fromTime); at < end; at++) {
    const fraction = exchanges.first[at]!;
    const sourceMgL = sourceLevel(book.waters[exchanges.tag[at]!], parameter);
    const timeDays = settledTime(exchanges, at);
    if (fraction > 0) made.push({ timeDays, fraction, sourceMgL });
    else if (body !== undefined && sourceMgL > 0 && body.volumeL > 0) {
      made.push({
        timeDays,
        fraction: 0,
        sourceMgL,
        addedMgL: (sourceMgL * exchanges.second[at]!) / body.volumeL,
      });
    }
  }
  return made;
}

/** What the changes after a reading, and before the next of its parameter, have left of it, canonical. */
export function levelSince(ledger: Ledger, parameter: Parameter, index: number): number {
  const { exchanges, book } = ledger;
  const series = ledger.readings[parameter.id]!;
  const begin = settledTime(series, index);
  const end = index + 1 < series.length ? settledTime(series, index + 1) : Number.POSITIVE_INFINITY;
  let level = series.first[index]!;
  for (
    let at = firstSettled(exchanges, begin);
    at < exchanges.length && settledTime(exchanges, at) < end;
    at++
  )
    level = afterChange(level, exchanges.first[at]!, sourceLevel(book.waters[exchanges.tag[at]!], parameter));
  return level;
}

/** What a source water holds of a parameter; 0 where it is not stated. */
export function sourceLevel(water: Water | undefined, parameter: Parameter): number {
  return water?.content.get(parameter.id) ?? 0;
}

/** The change that is a duty: of a tank its own; of a system what the duties of its tanks come to. */
export function usualChange(ledger: Ledger, tank: Tank | undefined): UsualChange | undefined {
  const { body, book } = ledger;
  if (body === undefined) return undefined;
  const stations: readonly Station[] =
    body.system === undefined ? (tank === undefined ? [] : [tank]) : [body.system, ...body.tanks];
  let perDay = 0;
  let first: { duty: Duty; everyDays: number } | undefined;
  for (const station of stations) {
    const duty = station.duties.find((each) => each.kind === Kind.change && each.form.when === "every");
    const amount = duty?.form.items[0]?.amount;
    if (duty === undefined || amount === undefined) continue;
    const middle = Number.isNaN(amount.second) ? amount.value : (amount.value + amount.second) / 2;
    const volumeL = station.kind === "tank" ? (station as Tank).volumeL : body.volumeL;
    const litres = duty.amountIsVolume
      ? book.units.canonical(middle, amount.unit, "volume")
      : book.units.canonical(middle, amount.unit, "fraction") * volumeL;
    const everyDays = duty.form.periodDays;
    perDay += litres / body.volumeL / everyDays;
    if (first === undefined || everyDays < first.everyDays) first = { duty, everyDays };
  }
  const fraction = first === undefined ? Number.NaN : perDay * first.everyDays;
  if (first === undefined || !(fraction > 0) || fraction > 1) return undefined;
  return { ...first, fraction };
}

/** The same with what the new water holds of a parameter. */
function regularChange(ledger: Ledger, tank: Tank | undefined, parameter: Parameter): WaterTrend["duty"] {
  const usual = usualChange(ledger, tank);
  return usual && { ...usual, sourceMgL: sourceLevel(ledger.book.waters[0], parameter) };
}

/** The stated change as a course of changes from the end of a day on. */
export function regular(
  duty: NonNullable<WaterTrend["duty"]>,
  exchanges: readonly Exchange[],
  day: number,
): Regular {
  const last = exchanges.findLast((each) => each.fraction > 0)?.timeDays;
  const since = last === undefined ? 0 : day + 1 - last;
  return {
    everyDays: duty.everyDays,
    fraction: duty.fraction,
    sourceMgL: duty.sourceMgL,
    firstInDays: Math.max(0, duty.everyDays - since),
  };
}
