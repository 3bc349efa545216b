/** The middle one of sorted figures, of an even number the mean of the two in the middle: the ends of censored readings may be infinite. NaN of none. */
export function medianOfSorted(sorted: readonly number[]): number {
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The same of figures in any order. */
export const median = (figures: readonly number[]): number =>
  medianOfSorted([...figures].sort((a, b) => a - b));
