/**
 * Robust trend of readings in time: Mann-Kendall for whether there is one, Theil-Sen for how steep.
 * Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; Gilbert 1987, Statistical Methods for Environmental Pollution
 * Monitoring, ch. 16-17. For a solute that water changes carry off use `mass-balance.ts`.
 *
 * A reading may be censored. A pair of readings then counts where it surely rises or falls, and bounds the slope where
 * it does not: Akritas, Murphy & LaValley 1995, J. Am. Stat. Assoc. 90:170-177 (`score-root.ts`).
 */
import { figure, notReadings, order, type Reading } from "./censored.ts";
import { criticalScore, kendallNormalP, kendallP, kendallVariance, kendallZ, tieGroups } from "./kendall.ts";
import { type Figure, type Outside, outside } from "./result.ts";
import { scoreRoot } from "./score-root.ts";

export interface Slope {
  readonly perDay: number;
  /** The line's value at time 0: as many readings above the line as below (Conover 1980: median of value - slope * time). */
  readonly intercept: Figure;
  /** Sen's interval at the confidence asked for, or why there is none. Ties and censoring only make it wider than need be. */
  readonly interval: { readonly low: number; readonly high: number } | Outside;
}

/** Median slope of all pairs apart in time. @returns a reason when no two readings are apart in time */
export function theilSen(
  timesDays: readonly number[],
  values: readonly (number | Reading)[],
  confidence = 0.95,
): Slope | Outside {
  const count = values.length;
  const readings = values.map(asReading);
  const refused = notReadings(readings) ?? notTimes(timesDays, count);
  if (refused !== undefined) return refused;
  if (!(confidence > 0 && confidence < 1))
    return outside(`a confidence of ${confidence} is not between 0 and 1`);
  const lows = new Float64Array((count * (count - 1)) / 2);
  const highs = new Float64Array(lows.length);
  let used = 0;
  let isTold = false;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const days = timesDays[j]! - timesDays[i]!;
      if (days === 0) continue;
      const [from, to] = days > 0 ? [readings[i]!, readings[j]!] : [readings[j]!, readings[i]!];
      isTold ||= order(from, to) !== 0 || (from.is === "figure" && to.is === "figure");
      lows[used] = (to.low - from.high) / Math.abs(days);
      highs[used++] = (to.high - from.low) / Math.abs(days);
    }
  }
  if (used === 0) return outside("a trend needs readings on two days at least");
  if (!isTold) return outside("each two of the readings may as well rise as fall");
  const { estimate, low, high } = scoreRoot(lows, highs, used, criticalScore(count, confidence));
  if (!Number.isFinite(estimate)) return outside("the censored readings bound the change on one side only");
  const at = (i: number): number => estimate * timesDays[i]!;
  const intercept = scoreRoot(
    Float64Array.from(readings, (reading, i) => reading.low - at(i)),
    Float64Array.from(readings, (reading, i) => reading.high - at(i)),
    count,
    0,
  ).estimate;
  return {
    perDay: estimate,
    intercept: Number.isFinite(intercept)
      ? intercept
      : outside("the censored readings bound the line on one side only"),
    interval: Number.isFinite(low) && Number.isFinite(high) ? { low, high } : tooFew(count, confidence),
  };
}

function asReading(value: number | Reading): Reading {
  return typeof value === "number" ? figure(value) : value;
}

function notTimes(times: readonly number[], count: number): Outside | undefined {
  const wrong = times.find((time) => !Number.isFinite(time));
  if (wrong !== undefined) return outside(`${wrong} is no time`);
  return times.length === count
    ? undefined
    : outside(`${count} values need as many times, not ${times.length}`);
}

/** Why there is no interval. */
export function tooFew(count: number, confidence: number): Outside {
  return outside(`${count} readings are too few for an interval of ${Math.round(confidence * 100)} %`);
}

export interface MannKendall {
  /** Pairs that rise less pairs that fall. */
  readonly score: number;
  readonly variance: number;
  readonly z: number;
  /** Two-sided: exact for at most ten values of which each pair rises or falls, else normal. */
  readonly p: number;
  readonly isExact: boolean;
  /** Kendall's tau-a: the score as a share of all pairs, -1 to 1. */
  readonly tau: number;
}

/**
 * Whether values rise or fall more than chance would have them.
 * @param timesDays omitted: the values are in order of time, each at one of its own
 */
export function mannKendall(
  values: readonly (number | Reading)[],
  timesDays: readonly number[] = values.map((_, i) => i),
): MannKendall | Outside {
  const count = values.length;
  const readings = values.map(asReading);
  const refused = notReadings(readings) ?? notTimes(timesDays, count);
  if (refused !== undefined) return refused;
  if (count < 2) return outside("a trend needs two readings at least");
  const { score, variance, isTied } = scored(readings, timesDays);
  const isExact = !isTied && count <= 10;
  return {
    score,
    variance,
    z: kendallZ(score, variance),
    p: isExact ? kendallP(score, count) : kendallNormalP(score, variance),
    isExact,
    tau: (2 * score) / (count * (count - 1)),
  };
}

interface Scored {
  readonly score: number;
  readonly variance: number;
  /** A pair neither rises nor falls, or is of one time. */
  readonly isTied: boolean;
}

/**
 * The score and its variance over all orders of the readings. With plain figures at times of their own that is
 * Kendall's with ties; else that of two sets of pair scores a and b: Daniels 1944, Biometrika 33:129-135,
 * 4 var = 4 (A1 - A2)(B1 - B2)/[n(n-1)(n-2)] + 2 A2 B2/[n(n-1)], with A1 the sum of squared row sums, A2 of
 * squared scores (recalled; the tests count it out).
 */
function scored(readings: readonly Reading[], times: readonly number[]): Scored {
  const count = readings.length;
  const [a, b] = [pairScores(count), pairScores(count)];
  let score = 0;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const later = Math.sign(times[j]! - times[i]!);
      const more = order(readings[i]!, readings[j]!);
      score += later * more;
      a.add(i, j, later);
      b.add(i, j, more);
    }
  }
  const pairs = count * (count - 1);
  const isPlain = a.squares() === pairs && readings.every(({ is }) => is === "figure");
  const triples = count > 2 ? (4 * a.rest() * b.rest()) / (pairs * (count - 2)) : 0;
  return {
    score,
    variance: isPlain
      ? kendallVariance(count, tieGroups(readings.map(({ low }) => low)))
      : (triples + (2 * a.squares() * b.squares()) / pairs) / 4,
    isTied: a.squares() < pairs || b.squares() < pairs,
  };
}

/** Scores of pairs, each the opposite of that of the pair turned about. */
function pairScores(count: number) {
  const rows = new Float64Array(count);
  let squares = 0;
  return {
    add(i: number, j: number, value: number): void {
      rows[i]! += value;
      rows[j]! -= value;
      squares += 2 * value * value;
    },
    squares: (): number => squares,
    rest: (): number => rows.reduce((sum, row) => sum + row * row, 0) - squares,
  };
}
