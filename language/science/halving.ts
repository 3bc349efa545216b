/**
 * Where a rising function crosses zero between two ends, by halving. Sixty steps leave less of the interval
 * than a number can hold.
 */
export function rootByHalving(low: number, high: number, rising: (x: number) => number): number {
  let [from, to] = [low, high];
  for (let step = 0; step < 60; step++) {
    const middle = (from + to) / 2;
    if (rising(middle) > 0) to = middle;
    else from = middle;
  }
  return (from + to) / 2;
}
