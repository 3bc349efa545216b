/**
 * What a tank produces per day, from its tests, with the water changes taken out.
 *
 * Well mixed water: C' = g between changes, and a change of fraction f with source water Cs makes C(1-f) + Cs
 * f of C. From one reading to a later one therefore y2 = a y1 + b g + d, with a, b and d known from the days
 * and the changes between; each pair of readings says what g would be. The g with as many pairs above as
 * below is the estimate: without changes and censoring the Theil-Sen slope (Theil 1950; Sen 1968), with
 * censored readings its generalisation by Akritas, Murphy & LaValley 1995 (`score-root.ts`). One bad reading
 * in a window moves it little.
 *
 * The interval inverts Kendall's score. Changes make a pair's error e2 - a e1, so that pairs hang together
 * otherwise than in Kendall's own variance; `scoreVariance` gives it for normal errors and is Kendall's when
 * nothing was changed. Ties and censoring only make the interval wider than it need be.
 */
import { criticalScore } from "./kendall.ts";
import { type Outside, outside } from "./result.ts";
import { scoreRoot } from "./score-root.ts";
import { tooFew } from "./trend.ts";

/**
 * A test result: the same figure twice, or what a censored one may be (`<5`: 0 to 5; `>100`: 100 to
 * Infinity). A reading from a coarse kit is best given as what its step leaves open (20 of steps of 10: 15 to
 * 25): equal figures week after week would else look like certainty.
 */
export interface Reading {
  readonly timeDays: number;
  readonly lowMgL: number;
  readonly highMgL: number;
}

/**
 * Water changed, or something added. A change at the very time of a reading comes after it; the caller
 * settles the order within a day by the times it gives. A top-up or a dose is a fraction of 0 with what it
 * adds.
 */
export interface Exchange {
  readonly timeDays: number;
  readonly fraction: number;
  readonly sourceMgL: number;
  readonly addedMgL?: number;
}

/** A figure with the interval it is known to lie in. */
export interface Span {
  readonly best: number;
  readonly low: number;
  readonly high: number;
}

export interface Production {
  readonly rateMgLDay: number;
  /** At the confidence asked for, or why there is none: too few readings. */
  readonly interval: { readonly low: number; readonly high: number } | Outside;
  readonly confidence: number;
  /**
   * Robust standard deviation of one reading about the fit: 1.4826 times the median absolute miss (Hampel
   * 1974).
   */
  readonly scatterMgL: number;
  /** How many readings it rests on. */
  readonly readings: number;
}

/**
 * Readings used at most, the latest: half a year of weekly tests, and a bound on the work at each keystroke.
 */
export const WINDOW = 24;

/**
 * Readings of one round stand within seconds of each other (the caller settles their order so): they say
 * nothing of a rate. Ten seconds.
 */
const APART_DAYS = 1e-4;

const lows = new Float64Array((WINDOW * (WINDOW - 1)) / 2);
const highs = new Float64Array(lows.length);
/** One step of the recurrence, from each reading to the next: y' = kept * y + days * g + added. */
const kept = new Float64Array(WINDOW);
const days = new Float64Array(WINDOW);
const added = new Float64Array(WINDOW);

/**
 * Production per day. Readings and exchanges in order of time; only the last `WINDOW` readings count.
 * @returns a reason when no two readings are apart in time, or when censored readings bound it on one side
 * only
 */
export function production(
  readings: readonly Reading[],
  exchanges: readonly Exchange[],
  confidence = 0.95,
): Production | Outside {
  const start = Math.max(0, readings.length - WINDOW);
  const count = readings.length - start;
  const changed = steps(readings, start, exchanges);
  let pairs = 0;
  for (let i = 0; i < count; i++) {
    const from = readings[start + i]!;
    let a = 1;
    let b = 0;
    let d = 0;
    for (let j = i; j + 1 < count; j++) {
      a *= kept[j]!;
      b = b * kept[j]! + days[j]!;
      d = d * kept[j]! + added[j]!;
      if (b < APART_DAYS) continue;
      const to = readings[start + j + 1]!;
      lows[pairs] = (to.lowMgL - times(a, from.highMgL) - d) / b;
      highs[pairs++] = (to.highMgL - times(a, from.lowMgL) - d) / b;
    }
  }
  if (pairs === 0) return outside("production needs readings on two days at least");
  const critical = criticalScore(count, confidence, changed ? scoreVariance(count) : undefined);
  const { estimate, low, high } = scoreRoot(lows, highs, pairs, critical);
  if (!Number.isFinite(estimate)) return outside("the readings are beyond what the test can tell");
  const bounded = Number.isFinite(low) && Number.isFinite(high);
  return {
    rateMgLDay: estimate,
    interval: bounded ? { low, high } : tooFew(count, confidence),
    confidence,
    scatterMgL: scatter(readings, start, estimate),
    readings: count,
  };
}

const misses = new Float64Array(WINDOW);

/** Scatter of the readings from what one leads the next to be; a miss within censored bounds is none. */
function scatter(readings: readonly Reading[], start: number, rateMgLDay: number): number {
  const count = readings.length - start - 1;
  for (let i = 0; i < count; i++) {
    const from = readings[start + i]!;
    const to = readings[start + i + 1]!;
    const a = kept[i]!;
    const made = days[i]! * rateMgLDay + added[i]!;
    const least = to.lowMgL - times(a, from.highMgL) - made;
    const most = to.highMgL - times(a, from.lowMgL) - made;
    misses[i] = Math.max(0, least, -most) / Math.sqrt(1 + a * a);
  }
  const sorted = misses.subarray(0, count).sort();
  return (1.4826 * (sorted[(count - 1) >> 1]! + sorted[count >> 1]!)) / 2;
}

/** 0 * Infinity is nothing here: water wholly changed carries nothing over, however much there was. */
function times(a: number, level: number): number {
  return a === 0 ? 0 : a * level;
}

/** Fills the steps between readings. @returns whether any water was changed between them */
function steps(readings: readonly Reading[], start: number, exchanges: readonly Exchange[]): boolean {
  let changed = false;
  let next = firstFrom(exchanges, readings[start]?.timeDays ?? 0);
  for (let i = 0; start + i + 1 < readings.length; i++) {
    const until = readings[start + i + 1]!.timeDays;
    let now = readings[start + i]!.timeDays;
    let a = 1;
    let b = 0;
    let d = 0;
    for (; next < exchanges.length && exchanges[next]!.timeDays < until; next++) {
      const { timeDays, fraction, sourceMgL, addedMgL = 0 } = exchanges[next]!;
      const left = 1 - fraction;
      b = (b + timeDays - now) * left;
      d = d * left + sourceMgL * fraction + addedMgL;
      a *= left;
      now = timeDays;
    }
    kept[i] = a;
    days[i] = b + until - now;
    added[i] = d;
    if (a !== 1) changed = true;
  }
  return changed;
}

/** The first exchange at or after a time. Binary search: a tank's log is long and its window short. */
function firstFrom(exchanges: readonly Exchange[], timeDays: number): number {
  let low = 0;
  let high = exchanges.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (exchanges[middle]!.timeDays < timeDays) low = middle + 1;
    else high = middle;
  }
  return low;
}

const share = new Float64Array(WINDOW * WINDOW);
const norm = new Float64Array(WINDOW * WINDOW);

/**
 * Variance of the score of the steps now filled in, for independent normal errors of the readings. The signs
 * of two normal variables with correlation r have the covariance (2/pi) asin(r) (Sheppard 1899); pairs
 * without a common reading have none. With nothing changed every r is 1/2 or -1/2 and the sum is
 * n(n-1)(2n+5)/18.
 */
function scoreVariance(count: number): number {
  for (let i = 0; i < count; i++) {
    let a = 1;
    for (let j = i + 1; j < count; j++) {
      a *= kept[j - 1]!;
      share[i * WINDOW + j] = a;
      norm[i * WINDOW + j] = 1 / Math.sqrt(1 + a * a);
    }
  }
  let sum = 0;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const ij = i * WINDOW + j;
      const aij = share[ij]!;
      const nij = norm[ij]!;
      for (let k = j + 1; k < count; k++) {
        const ik = i * WINDOW + k;
        const jk = j * WINDOW + k;
        const ajk = share[jk]!;
        sum +=
          Math.asin(aij * share[ik]! * nij * norm[ik]!) +
          Math.asin(norm[ik]! * norm[jk]!) -
          Math.asin(ajk * nij * norm[jk]!);
      }
    }
  }
  return (count * (count - 1)) / 2 + (4 / Math.PI) * sum;
}
