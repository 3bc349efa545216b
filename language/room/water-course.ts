import { levelAfter } from "../science/forecast.ts";
import { levelAt } from "../science/level.ts";
import type { Span } from "../science/mass-balance.ts";
import { isOutside } from "../science/result.ts";
import { regular, spanOf, type WaterTrend } from "./water.ts";

/** The course of a level over time, for drawing: the same model as `water.ts` tells today's figure by, at other times. */

export interface LevelAtTime {
  readonly timeDays: number;
  readonly mgL: number;
}

/** A moment before something happens: less than the time between two lines of a minute (`settledTime`). */
const justBefore = 5e-9;
/** The same in a time that is only reckoned: a tenth of a second. */
const shortly = 1e-6;

/**
 * The level from the first reading of the window to the end of a day: at each reading, before and after each exchange. Each point
 * rests on the readings up to it and on the production of the whole window, so that the last is today's level. A level that no reading
 * tells yet is left out. Empty without production.
 */
export function levelCourse(trend: WaterTrend, day: number): LevelAtTime[] {
  const { production, readings, exchanges } = trend;
  const first = readings[0];
  if (isOutside(production) || first === undefined) return [];
  const times = new Set<number>([day + 1]);
  for (const { timeDays } of readings) times.add(timeDays);
  for (const { timeDays } of exchanges) times.add(timeDays - justBefore).add(timeDays);
  return [...times]
    .filter((time) => time >= first.timeDays && time <= day + 1)
    .sort((a, b) => a - b)
    .flatMap((timeDays) => {
      const level = levelAt(readings, exchanges, timeDays, production);
      return isOutside(level) ? [] : [{ timeDays, mgL: level.best }];
    });
}

export interface SpanAtTime extends Span {
  readonly timeDays: number;
}

/**
 * Where the level goes from the end of a day, changed as the duty says, or not at all where none is stated: before and after each
 * change. The ends are those of level and production taken together, as in `forecast`. Empty without a level.
 */
export function levelAhead(trend: WaterTrend, day: number, horizonDays: number): SpanAtTime[] {
  const { production, level, duty, exchanges } = trend;
  if (isOutside(production) || level === undefined) return [];
  const rate = spanOf(production);
  const stated = duty === undefined ? undefined : regular(duty, exchanges, day);
  const ahead = [0, horizonDays];
  if (stated !== undefined && stated.everyDays > 0)
    for (let at = stated.firstInDays; at < horizonDays; at += stated.everyDays)
      ahead.push(Math.max(0, at - shortly), Math.max(shortly, at));
  const after = (from: number, perDay: number, days: number): number =>
    // A change that is due at once is not done yet.
    days === 0 ? from : Math.max(0, levelAfter(from, perDay, days, stated));
  return [...new Set(ahead)]
    .sort((a, b) => a - b)
    .map((days) => ({
      timeDays: day + 1 + days,
      best: after(level.best, production.rateMgLDay, days),
      low: after(level.low, rate.low, days),
      high: after(level.high, rate.high, days),
    }));
}
