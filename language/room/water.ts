import { Kind } from "../book/entries/registry.ts";
import type { Parameter } from "../book/parameters.ts";
import type { Duty, Limit, Station, Tank, Water } from "../book/stations.ts";
import { fractionToReach, steadyBeforeChangeMgL } from "../science/dilution.ts";
import { type Forecast, forecast, holdingFraction, type Side } from "../science/forecast.ts";
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
  readonly duty:
    | {
        readonly duty: Duty;
        readonly everyDays: number;
        readonly fraction: number;
        readonly sourceMgL: number;
      }
    | undefined;
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
const windowDays = 120;
/** Fewer readings say nothing of a trend. */
const leastReadings = 4;

/** Where a parameter of a ledger's water heads on a day; undefined without readings, or for what does not mix. */
export function waterTrend(
  ledger: Ledger,
  parameter: Parameter,
  tank: Tank | undefined,
  day: number,
): WaterTrend | undefined {
  const series = ledger.readings[parameter.id];
  if (series === undefined || !parameter.mixes || parameter.dimension === "temperature") return undefined;
  const end = series.from(day + 1);
  const begin = Math.max(series.from(day - windowDays), end - WINDOW);
  if (end - begin < 1) return undefined;
  const readings: Reading[] = [];
  for (let at = begin; at < end; at++) {
    readings.push({ timeDays: series.time[at]!, lowMgL: series.first[at]!, highMgL: series.second[at]! });
  }
  const exchanges = exchangesOf(ledger, parameter, series.time[begin]!, day + 1);
  const limit = tank?.limits.get(parameter.id);
  const side: Side = limit !== undefined && !Number.isFinite(limit.high) ? "floor" : "ceiling";
  const duty = regularChange(ledger, tank, parameter);
  const made: Production | Outside =
    readings.length < leastReadings
      ? { outside: `too few readings: ${readings.length} of ${leastReadings}` }
      : production(readings, exchanges);
  const nothing = {
    forecast: undefined,
    unchanged: undefined,
    changeBack: undefined,
    holding: undefined,
    steady: undefined,
  };
  if (isOutside(made)) {
    return {
      parameter,
      readings,
      exchanges,
      production: made,
      level: undefined,
      duty,
      limit,
      side,
      ...nothing,
    };
  }
  const level = levelAt(readings, exchanges, day + 1, made);
  const span = isOutside(level) ? undefined : level;
  if (span === undefined || limit === undefined) {
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

function spanOf(made: Production): { low: number; high: number } {
  return isOutside(made.interval) ? { low: made.rateMgLDay, high: made.rateMgLDay } : made.interval;
}

/** The exchanges between two times, as the mass balance takes them. */
export function exchangesOf(
  ledger: Ledger,
  parameter: Parameter,
  fromTime: number,
  toTime: number,
): Exchange[] {
  const { exchanges, book, body } = ledger;
  const made: Exchange[] = [];
  const end = exchanges.from(toTime);
  for (let at = exchanges.from(fromTime); at < end; at++) {
    const fraction = exchanges.first[at]!;
    const sourceMgL = sourceLevel(book.waters[exchanges.tag[at]!], parameter);
    const timeDays = exchanges.time[at]!;
    if (fraction > 0) made.push({ timeDays, fraction, sourceMgL });
    else if (body !== undefined && sourceMgL > 0) {
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

/** What a source water holds of a parameter; 0 where it is not stated. */
export function sourceLevel(water: Water | undefined, parameter: Parameter): number {
  return water?.content.get(parameter.id) ?? 0;
}

/** The change that is a duty: of a tank its own; of a system what the duties of its tanks come to. */
function regularChange(ledger: Ledger, tank: Tank | undefined, parameter: Parameter): WaterTrend["duty"] {
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
  return { ...first, fraction, sourceMgL: sourceLevel(book.waters[0], parameter) };
}

function regular(duty: NonNullable<WaterTrend["duty"]>, exchanges: readonly Exchange[], day: number) {
  const last = exchanges.findLast((each) => each.fraction > 0)?.timeDays;
  const since = last === undefined ? 0 : day + 1 - last;
  return {
    everyDays: duty.everyDays,
    fraction: duty.fraction,
    sourceMgL: duty.sourceMgL,
    firstInDays: Math.max(0, duty.everyDays - since),
  };
}
