/**
 * The level in a tank on a given day, from all tests in the window: each reading is carried forward by the
 * production and the changes since, and the median of what they say is the level. The counterpart of the
 * Theil-Sen intercept (median of value - slope * time), to which it reduces when nothing was changed.
 *
 * A reading counts by the share of its water still in the tank, so that one from before five changes says
 * little.
 */
import type { Exchange, Production, Reading, Span } from "./mass-balance.ts";
import { WINDOW } from "./mass-balance.ts";
import { studentT, twoSidedZ } from "./normal.ts";
import { isOutside, type Outside, outside } from "./result.ts";

const low = new Float64Array(WINDOW);
const high = new Float64Array(WINDOW);
const weight = new Float64Array(WINDOW);

/**
 * Level on a day, with an interval from the production's own interval and the scatter of the readings; where
 * the production has none, from the scatter alone.
 * @param atDay readings after it are left out; exchanges up to and at that time are in
 * @returns a reason when there is no reading before that day, or none that says how much there is
 */
export function levelAt(
  readings: readonly Reading[],
  exchanges: readonly Exchange[],
  atDay: number,
  made: Production,
): Span | Outside {
  const { rateMgLDay, interval, confidence, scatterMgL } = made;
  const best = carried(readings, exchanges, atDay, rateMgLDay);
  if (best === undefined || !Number.isFinite(best.median))
    return outside("no reading says how much there is");
  // The scatter is itself known from few readings: Student's t, at the efficiency of the median deviation
  // (0.37).
  const t = studentT(twoSidedZ(confidence), 0.37 * (made.readings - 1));
  const scatter = (t * scatterMgL) / Math.sqrt(Math.max(1, best.effective));
  let least = best.median;
  let most = best.median;
  if (!isOutside(interval)) {
    for (const rate of [interval.low, interval.high]) {
      const median = carried(readings, exchanges, atDay, rate)?.median ?? best.median;
      least = Math.min(least, median);
      most = Math.max(most, median);
    }
  }
  return {
    best: Math.max(0, best.median),
    low: Math.max(0, best.median - Math.hypot(best.median - least, scatter)),
    high: Math.max(0, best.median + Math.hypot(most - best.median, scatter)),
  };
}

interface Carried {
  readonly median: number;
  /** How many whole readings the median rests on: (sum w)^2 / sum w^2 (Kish 1965), by 2/pi for a median. */
  readonly effective: number;
}

function carried(
  readings: readonly Reading[],
  exchanges: readonly Exchange[],
  atDay: number,
  rateMgLDay: number,
): Carried | undefined {
  let end = readings.length;
  while (end > 0 && readings[end - 1]!.timeDays > atDay) end--;
  const start = Math.max(0, end - WINDOW);
  const count = end - start;
  if (count === 0) return undefined;
  // Backwards from the day: the level is a * reading + what came since.
  let a = 1;
  let since = 0;
  let now = atDay;
  let next = exchanges.length - 1;
  while (next >= 0 && exchanges[next]!.timeDays > atDay) next--;
  let sum = 0;
  let squares = 0;
  for (let i = count - 1; i >= 0; i--) {
    const { timeDays, lowMgL, highMgL } = readings[start + i]!;
    for (; next >= 0 && exchanges[next]!.timeDays >= timeDays; next--) {
      const change = exchanges[next]!;
      since +=
        a *
        ((now - change.timeDays) * rateMgLDay + change.sourceMgL * change.fraction + (change.addedMgL ?? 0));
      a *= 1 - change.fraction;
      now = change.timeDays;
    }
    since += a * (now - timeDays) * rateMgLDay;
    now = timeDays;
    low[i] = since + (a === 0 ? 0 : a * lowMgL);
    high[i] = since + (a === 0 ? 0 : a * highMgL);
    // Water wholly changed leaves one figure, said by every reading alike.
    const w = Math.max(a, 1e-9);
    weight[i] = w;
    sum += w;
    squares += w * w;
  }
  return { median: weightedMedian(count), effective: ((sum * sum) / squares) * (2 / Math.PI) };
}

/**
 * The value with as much weight of intervals wholly above as wholly below; the middle where a stretch has.
 */
function weightedMedian(count: number): number {
  const ends: { at: number; weight: number }[] = [];
  let left = 0;
  for (let i = 0; i < count; i++) {
    const w = weight[i]!;
    if (low[i]! > -Infinity) {
      ends.push({ at: low[i]!, weight: w });
      left += w;
    }
    if (high[i]! < Infinity) ends.push({ at: high[i]!, weight: w });
  }
  ends.sort((x, y) => x.at - y.at);
  const rounding = left * 1e-12;
  for (let k = 0; k < ends.length; k++) {
    left -= ends[k]!.weight;
    if (left > rounding) continue;
    const at = ends[k]!.at;
    return left < -rounding ? at : at / 2 + (ends[k + 1]?.at ?? Infinity) / 2;
  }
  return Infinity;
}
