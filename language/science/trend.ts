/**
 * Robust trend of readings in time: Mann-Kendall for whether there is one, Theil-Sen for how steep.
 * Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; Gilbert 1987, Statistical Methods for Environmental Pollution
 * Monitoring, ch. 16-17. For a solute that water changes carry off use `mass-balance.ts`.
 */
import { median } from "simple-statistics";
import { criticalScore, kendallP, kendallScore, kendallVariance, kendallZ, tieGroups } from "./kendall.ts";
import { type Outside, outside } from "./result.ts";
import { scoreRoot } from "./score-root.ts";

export interface Slope {
  readonly perDay: number;
  /** Median of value - slope * time: the line's value at time 0 (Conover 1980). */
  readonly intercept: number;
  /** Sen's interval at the confidence asked for, or why there is none. */
  readonly interval: { readonly low: number; readonly high: number } | Outside;
}

/** Median slope of all pairs apart in time. @returns a reason when no two readings are apart in time */
export function theilSen(
  timesDays: readonly number[],
  values: readonly number[],
  confidence = 0.95,
): Slope | Outside {
  const count = values.length;
  const refused = notASeries(values) ?? notASeries(timesDays);
  if (refused !== undefined) return refused;
  if (timesDays.length !== count)
    return outside(`${count} values need as many times, not ${timesDays.length}`);
  if (!(confidence > 0 && confidence < 1))
    return outside(`a confidence of ${confidence} is not between 0 and 1`);
  const slopes = new Float64Array((count * (count - 1)) / 2);
  let used = 0;
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const days = timesDays[j]! - timesDays[i]!;
      if (days !== 0) slopes[used++] = (values[j]! - values[i]!) / days;
    }
  }
  if (used === 0) return outside("a trend needs readings on two days at least");
  const { estimate, low, high } = scoreRoot(slopes, slopes, used, criticalScore(count, confidence));
  return {
    perDay: estimate,
    intercept: median(values.map((value, i) => value - estimate * timesDays[i]!)),
    interval: Number.isFinite(low) && Number.isFinite(high) ? { low, high } : tooFew(count, confidence),
  };
}

function notASeries(values: readonly number[]): Outside | undefined {
  const wrong = values.find((value) => !Number.isFinite(value));
  return wrong === undefined ? undefined : outside(`${wrong} is no reading`);
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
  /** Two-sided: exact for at most ten untied values, else normal. */
  readonly p: number;
  /** Kendall's tau-a: the score as a share of all pairs, -1 to 1. */
  readonly tau: number;
}

/** Whether values in order of time rise or fall more than chance would have them. */
export function mannKendall(values: readonly number[]): MannKendall | Outside {
  const refused = notASeries(values);
  if (refused !== undefined) return refused;
  if (values.length < 2) return outside("a trend needs two readings at least");
  const ties = tieGroups(values);
  const score = kendallScore(values);
  const variance = kendallVariance(values.length, ties);
  return {
    score,
    variance,
    z: kendallZ(score, variance),
    p: kendallP(score, values.length, ties),
    tau: (2 * score) / (values.length * (values.length - 1)),
  };
}
