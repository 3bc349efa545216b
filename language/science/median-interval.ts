/** The median of a few figures with an interval that supposes nothing of how they are spread. */

export interface MedianInterval {
  readonly median: number;
  readonly low: number;
  readonly high: number;
  /** The chance that the interval holds the true median. */
  readonly coverage: number;
}

/**
 * The median with the narrowest interval of two figures, as far from the least as from the greatest, that covers at least so much:
 * the j-th least and the j-th greatest of n cover 1 - 2 P(X < j), X binomial of n and 1/2 (H. A. David & H. N. Nagaraja 2003, Order
 * Statistics, 3rd ed., section 7.1; recalled). Where no two figures cover as much, the least and the greatest with what they cover.
 * Undefined of fewer than two figures.
 */
export function medianInterval(figures: readonly number[], atLeast: number): MedianInterval | undefined {
  const n = figures.length;
  if (n < 2) return undefined;
  const sorted = [...figures].sort((a, b) => a - b);
  const middle = n >> 1;
  const median = n % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
  let below = 2 ** -n;
  let chance = below;
  let j = 1;
  for (let next = 2; 2 * next <= n; next++) {
    chance *= (n - next + 2) / (next - 1);
    if (1 - 2 * (below + chance) < atLeast) break;
    below += chance;
    j = next;
  }
  return { median, low: sorted[j - 1]!, high: sorted[n - j]!, coverage: 1 - 2 * below };
}
