/** How far one group of readings lies above another: before something was changed, and after it. */

import type { Reading } from "./censored.ts";
import { type Limits, noConfidence } from "./interval.ts";
import { median, medianOfSorted } from "./median.ts";
import { asReading, notComparable, waysToSum } from "./rank-sum.ts";
import type { Outside } from "./result.ts";

export interface Shift {
  /** The shift that fits best; the same twice unless readings are censored, Infinity where they leave an end open. */
  readonly best: Limits;
  readonly interval: Limits;
  /** The confidence that the interval has: at least what was asked for, or where so few readings cannot have that, the most they can. */
  readonly confidence: number;
  readonly isReached: boolean;
}

/**
 * By how much the readings after lie above those before: the median of all differences (J. L. Hodges & E. L. Lehmann 1963, Ann. Math. Stat.
 * 34:598-611), with the interval between the k-th least and the k-th greatest of them, k from the exact distribution of the rank sum
 * (D. F. Bauer 1972, J. Am. Stat. Assoc. 67:687-690; M. Hollander, D. A. Wolfe & E. Chicken 2014, Nonparametric Statistical Methods, 3rd ed.,
 * sections 4.2 and 4.3). Where readings are equal the closed interval holds at least as often as is told (G. E. Noether 1967, J. Am. Stat.
 * Assoc. 62:184-188; recalled). Of censored readings both ends of what they may be are gone through, so that best and interval hold
 * whatever they were. It supposes two groups of one shape, and readings that hang on one another by nothing else.
 */
export function shiftBetween(
  before: readonly (number | Reading)[],
  after: readonly (number | Reading)[],
  confidence = 0.95,
): Shift | Outside {
  const wrong = noConfidence(confidence) ?? notComparable(before, after);
  if (wrong !== undefined) return wrong;
  const [from, to] = [before.map(asReading), after.map(asReading)];
  const lows = sorted(to.flatMap(({ low }) => from.map(({ high }) => low - high)));
  const highs = sorted(to.flatMap(({ high }) => from.map(({ low }) => high - low)));
  const { k, reached } = endsOnce(before.length, after.length, confidence);
  return {
    best: { low: medianOfSorted(lows), high: medianOfSorted(highs) },
    interval: { low: lows[k - 1]!, high: highs[highs.length - k]! },
    confidence: reached,
    isReached: reached >= confidence,
  };
}

/**
 * The chance that a reading after is above one before, ties half: 0.5 where neither lies higher (A. Vargha & H. D. Delaney 2000, J. Educ.
 * Behav. Stat. 25:101-132). It asks for the order of readings only, so it suits ratings, whose steps nobody measured. Of censored readings
 * the least and the most that it may be.
 */
export function chanceOfMore(
  before: readonly (number | Reading)[],
  after: readonly (number | Reading)[],
): Limits | Outside {
  const wrong = notComparable(before, after);
  if (wrong !== undefined) return wrong;
  const share = (of: (from: Reading, to: Reading) => number): number =>
    before.reduce<number>(
      (sum, from) => sum + after.reduce<number>((part, to) => part + of(asReading(from), asReading(to)), 0),
      0,
    ) /
    (before.length * after.length);
  return { low: share(leastOf), high: share((from, to) => 1 - leastOf(to, from)) };
}

/** What a pair counts at least: 1 where the second is surely more, a half where it is surely no less. */
function leastOf(from: Reading, to: Reading): number {
  if (to.low > from.high) return 1;
  // `<5` is not 5, and `>5` neither.
  if (to.low === from.high) return from.is === "below" || to.is === "above" ? 1 : 0.5;
  return 0;
}

/**
 * The greatest k at which the k-th least and the k-th greatest difference hold the shift as often as asked, 1 - 2 P(U < k), and how
 * often that is; k is 1 where none does.
 */
function ends(
  before: number,
  after: number,
  confidence: number,
): { readonly k: number; readonly reached: number } {
  const ranks = Array.from({ length: before + after }, (_, at) => at + 1);
  const ways = waysToSum(ranks, after);
  const least = (after * (after + 1)) / 2;
  const every = ways.reduce((sum, count) => sum + count, 0);
  const holds = (below: number): number => 1 - (2 * below) / every;
  let below = ways[least]!;
  let k = 1;
  for (; 2 * (k + 1) <= before * after + 1; k++) {
    const more = below + ways[least + k]!;
    if (holds(more) < confidence) break;
    below = more;
  }
  return { k, reached: Math.max(0, holds(below)) };
}

const known = new Map<string, ReturnType<typeof ends>>();

/** They hang on how many there are and on nothing else. */
function endsOnce(before: number, after: number, confidence: number): ReturnType<typeof ends> {
  const key = `${before} ${after} ${confidence}`;
  const found = known.get(key) ?? ends(before, after, confidence);
  known.set(key, found);
  return found;
}

const sorted = (values: number[]): number[] => values.sort((a, b) => a - b);

/** The median of some readings, by the least and the most that each may be. */
export const medianOf = (readings: readonly Reading[]): Limits => ({
  low: median(readings.map(({ low }) => low)),
  high: median(readings.map(({ high }) => high)),
});
