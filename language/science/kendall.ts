/**
 * Kendall's score S between time and value: the pairs that rise less the pairs that fall.
 * Mann 1945, Econometrica 13:245-259; Kendall 1975, Rank Correlation Methods; Gilbert 1987, ch. 16.
 */
import { normalCdf, twoSidedZ } from "./normal.ts";

/**
 * Up to here the distribution of S is counted out, beyond it is taken as normal (Gilbert 1987 does so above
 * 10).
 */
const EXACT_UP_TO = 40;

/** S of values in order of time. Pairs equal in value (or in time, where times are given) count nothing. */
export function kendallScore(values: readonly number[], times?: readonly number[]): number {
  let score = 0;
  for (let i = 0; i < values.length; i++) {
    for (let j = i + 1; j < values.length; j++) {
      const later = times === undefined ? 1 : Math.sign(times[j]! - times[i]!);
      score += later * Math.sign(values[j]! - values[i]!);
    }
  }
  return score;
}

/** Variance of S with no trend: [n(n-1)(2n+5) - sum t(t-1)(2t+5)]/18 over groups of t equal values. */
export function kendallVariance(count: number, ties: readonly number[] = []): number {
  let sum = count * (count - 1) * (2 * count + 5);
  for (const tie of ties) sum -= tie * (tie - 1) * (2 * tie + 5);
  return sum / 18;
}

/** The sizes of the groups of equal values, those of one left out. */
export function tieGroups(values: readonly number[]): number[] {
  const sizes = new Map<number, number>();
  for (const value of values) sizes.set(value, (sizes.get(value) ?? 0) + 1);
  return [...sizes.values()].filter((size) => size > 1);
}

/**
 * P(S >= score) with no trend and no ties, counted out: permutations of n by inversions, Kendall 1975 ch. 5
 * (the recurrence of Kaarsemaker & van Wijngaarden 1953).
 */
export function kendallTail(count: number, score: number): number {
  const shares = inversionShares(count);
  const pairs = (count * (count - 1)) / 2;
  // S = pairs - 2 * inversions.
  const most = Math.floor((pairs - score) / 2);
  let sum = 0;
  for (let k = 0; k <= Math.min(most, pairs); k++) sum += shares[k]!;
  return sum;
}

const countedOut: Float64Array[] = [];

/** The share of the n! orders that have k inversions, for each k. */
function inversionShares(count: number): Float64Array {
  const known = countedOut[count];
  if (known !== undefined) return known;
  if (count <= 1) {
    countedOut[count] = Float64Array.of(1);
    return countedOut[count];
  }
  const fewer = inversionShares(count - 1);
  const shares = new Float64Array((count * (count - 1)) / 2 + 1);
  for (let k = 0; k < shares.length; k++) {
    let sum = 0;
    for (let last = 0; last < count && last <= k; last++) sum += fewer[k - last] ?? 0;
    shares[k] = sum / count;
  }
  countedOut[count] = shares;
  return shares;
}

let lastConfidence = Number.NaN;
let lastZ = Number.NaN;

/** `twoSidedZ`, remembered for the confidence asked last: one logbook asks for one. */
function zOf(confidence: number): number {
  if (confidence !== lastConfidence) {
    lastConfidence = confidence;
    lastZ = twoSidedZ(confidence);
  }
  return lastZ;
}

const criticals = new Map<number, number>();

/**
 * The largest |S| that is no sign of a trend: P(|S| > it) <= 1 - confidence. Sen 1968 inverts it into the
 * interval of the slope. It may be all the pairs there are, and then the readings are too few for that
 * confidence.
 * @param variance of S where it is not Kendall's own, as when water was changed between readings; then S is
 * taken as normal, with the correction for continuity
 */
export function criticalScore(count: number, confidence: number, variance?: number): number {
  const pairs = (count * (count - 1)) / 2;
  if (variance !== undefined || count > EXACT_UP_TO) {
    const deviation = Math.sqrt(variance ?? kendallVariance(count));
    return Math.min(pairs, Math.floor(zOf(confidence) * deviation + 1));
  }
  const key = count + confidence / 2;
  const known = criticals.get(key);
  if (known !== undefined) return known;
  let critical = pairs;
  while (critical - 2 >= 0 && 2 * kendallTail(count, critical) <= 1 - confidence) critical -= 2;
  criticals.set(key, critical);
  return critical;
}

/** Two-sided p of a score: counted out when there are no ties and at most ten values, else normal. */
export function kendallP(score: number, count: number, ties: readonly number[] = []): number {
  if (ties.length === 0 && count <= 10) return Math.min(1, 2 * kendallTail(count, Math.abs(score)));
  return kendallNormalP(score, kendallVariance(count, ties));
}

/** Two-sided p of a score taken as normal, with the correction for continuity. */
export function kendallNormalP(score: number, variance: number): number {
  return Math.min(1, 2 * normalCdf(-Math.abs(kendallZ(score, variance))));
}

/** Z of a score, one step nearer to zero for continuity; 0 at S = 0. */
export function kendallZ(score: number, variance: number): number {
  return score === 0 || variance === 0 ? 0 : (score - Math.sign(score)) / Math.sqrt(variance);
}
