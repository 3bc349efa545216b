/**
 * The root of a sign score over intervals: S(x) = number of intervals wholly above x less those wholly below.
 *
 * With points for intervals the root is their median, and with the slopes of all pairs it is the estimator of
 * Theil 1950 and Sen 1968. With intervals it carries censored readings: Akritas, Murphy & LaValley 1995, J.
 * Am. Stat. Assoc. 90:170-177 (Theil-Sen for doubly censored data). Inverting |S| <= critical gives the
 * interval of Sen 1968.
 */

export interface Root {
  /** Middle of the values at which S is zero; not finite when the intervals bound it on one side only. */
  readonly estimate: number;
  /**
   * The least and the greatest value at which |S| <= critical; infinite when the intervals do not bound it.
   */
  readonly low: number;
  readonly high: number;
}

let ends = new Float64Array(1200);

/**
 * @param lows
 * @param highs ends of the intervals, infinite where unbounded; the first `count` of each are read
 * @param critical the largest |S| that is no contradiction
 */
export function scoreRoot(lows: Float64Array, highs: Float64Array, count: number, critical: number): Root {
  if (ends.length < 2 * count) ends = new Float64Array(4 * count);
  let used = 0;
  // S far below everything is the number of lower ends; each end passed takes one from it.
  let atStart = 0;
  for (let i = 0; i < count; i++) {
    const low = lows[i]!;
    if (low > -Infinity) {
      ends[used++] = low;
      atStart++;
    }
  }
  for (let i = 0; i < count; i++) {
    const high = highs[i]!;
    if (high < Infinity) ends[used++] = high;
  }
  const sorted = ends.subarray(0, used).sort();
  const below = atStart > 0 ? sorted[atStart - 1]! : -Infinity;
  const above = atStart < used ? sorted[atStart]! : Infinity;
  return {
    estimate: below / 2 + above / 2,
    low: sorted[atStart - critical - 1] ?? -Infinity,
    high: sorted[atStart + critical] ?? Infinity,
  };
}
