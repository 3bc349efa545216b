import { type Parameter, parameters } from "../book/parameters.ts";
import type { Reading } from "../science/censored.ts";
import { isOutside } from "../science/result.ts";
import { theilSen } from "../science/trend.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Period } from "./stock-book.ts";
import { productionBetween, settledTime } from "./water.ts";

/**
 * Trends that turned from one period to the next. Of what mixes it is what the water makes or uses up a day, changes taken out
 * (`science/mass-balance.ts`); of what does not, temperature among it, the slope by Theil & Sen. A trend has turned where the intervals of
 * the two periods (95 % each) do not meet: a stricter test than one of their difference.
 */
export interface TurnedTrend {
  readonly ledger: Ledger;
  readonly parameter: Parameter;
  /** Whether changes are taken out. */
  readonly isProduction: boolean;
  /** Canonical, per day. */
  readonly now: Rate;
  readonly before: Rate;
}

export interface Rate {
  readonly best: number;
  readonly low: number;
  readonly high: number;
}

export interface Turns {
  readonly turned: readonly TurnedTrend[];
  /** Of how many parameters in how many waters both periods have an interval. */
  readonly compared: number;
  /** Those that were tested in the period. */
  readonly tested: number;
}

export function turnedTrends(logbook: Logbook, { from, to }: Period): Turns {
  const days = to - from + 1;
  const turned: TurnedTrend[] = [];
  let [compared, tested] = [0, 0];
  for (const ledger of logbook.ledgers)
    for (const parameter of parameters) {
      const series = ledger.readings[parameter.id];
      if (series === undefined || series.from(to + 1) === series.from(from)) continue;
      tested++;
      const isProduction = parameter.mixes && parameter.dimension !== "temperature";
      const rate = isProduction ? productionRate : slopeRate;
      const now = rate(ledger, parameter, from, to + 1);
      const before = now && rate(ledger, parameter, from - days, from);
      if (now === undefined || before === undefined) continue;
      compared++;
      if (now.low > before.high || now.high < before.low)
        turned.push({ ledger, parameter, isProduction, now, before });
    }
  return { turned, compared, tested };
}

/** Undefined where the readings give no interval. */
function productionRate(ledger: Ledger, parameter: Parameter, from: number, until: number): Rate | undefined {
  const made = productionBetween(ledger, parameter, from, until);
  if (isOutside(made) || isOutside(made.interval)) return undefined;
  return { best: made.rateMgLDay, ...made.interval };
}

function slopeRate(ledger: Ledger, parameter: Parameter, from: number, until: number): Rate | undefined {
  const series = ledger.readings[parameter.id]!;
  const times: number[] = [];
  const values: Reading[] = [];
  for (let at = series.from(from); at < series.length && series.time[at]! < until; at++) {
    const [low, high] = [series.first[at]!, series.second[at]!];
    times.push(settledTime(series, at));
    values.push({
      low,
      high,
      is: low === high ? "figure" : high === Number.POSITIVE_INFINITY ? "above" : "between",
    });
  }
  const slope = theilSen(times, values);
  if (isOutside(slope) || isOutside(slope.interval)) return undefined;
  return { best: slope.perDay, ...slope.interval };
}
