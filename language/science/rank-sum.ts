/** Whether one group of figures lies above another, without asking how they are spread. */
import { figure, notReadings, order, type Reading } from "./censored.ts";
import { notFinite } from "./given.ts";
import { type Outside, outside } from "./result.ts";

/** More figures than these are not told apart by counting; so many spawnings of one pair hardly come. */
export const mostRanked = 100;

/**
 * Two-sided p of the rank-sum test, exact also where figures are equal: Wilcoxon 1945, Biometrics Bull. 1:80-83; Mann & Whitney 1947, Ann.
 * Math. Stat. 18:50-60. Counts all ways to deal the pooled ranks (mean ranks where equal) and takes those as far from the middle as the one
 * at hand, or further. Of readings such as `<5` the rank is how many are surely below less how many are surely above, which of plain figures
 * is the same: Gehan 1965, Biometrika 52:203-223, with the counting of Mantel 1967, Biometrics 23:65-78
 * (both recalled).
 */
export function rankSumP(
  some: readonly (number | Reading)[],
  others: readonly (number | Reading)[],
): number | Outside {
  const wrong = notComparable(some, others);
  if (wrong !== undefined) return wrong;
  const all = [...some, ...others].map(asReading);
  const ranks = doubledRanks(all);
  const ways = waysToSum(ranks, some.length);
  const middle = (ranks.reduce((sum, rank) => sum + rank, 0) * some.length) / all.length;
  const off = Math.abs(ranks.slice(0, some.length).reduce((sum, rank) => sum + rank, 0) - middle);
  let far = 0;
  let every = 0;
  ways.forEach((count, sum) => {
    every += count;
    if (Math.abs(sum - middle) >= off - 1e-9) far += count;
  });
  return Math.min(1, far / every);
}

export const asReading = (value: number | Reading): Reading =>
  typeof value === "number" ? figure(value) : value;

/** A reason unless there are figures on both sides, and not too many to be counted. */
export function notComparable(
  some: readonly (number | Reading)[],
  others: readonly (number | Reading)[],
): Outside | undefined {
  const all = [...some, ...others];
  const wrong = all
    .map((value) => (typeof value === "number" ? notFinite("figure", value) : notReadings([value])))
    .find((refused) => refused !== undefined);
  if (wrong !== undefined) return wrong;
  if (some.length === 0 || others.length === 0) return outside("there is nothing to compare");
  if (all.length > mostRanked) return outside(`more than ${mostRanked} figures are not compared by counting`);
  return undefined;
}

/** How many ways there are to choose so many of the ranks, whole and positive, so that they come to each sum. */
export function waysToSum(ranks: readonly number[], chosen: number): Float64Array {
  const total = ranks.reduce((sum, rank) => sum + rank, 0);
  const ways = Array.from({ length: chosen + 1 }, () => new Float64Array(total + 1));
  ways[0]![0] = 1;
  let most = 0;
  ranks.forEach((rank, seen) => {
    most += rank;
    for (let count = Math.min(chosen, seen + 1); count >= 1; count--) {
      const [to, from] = [ways[count]!, ways[count - 1]!];
      for (let sum = most; sum >= rank; sum--) to[sum]! += from[sum - rank]!;
    }
  });
  return ways[chosen]!;
}

/** Twice the rank of each figure, so that mean ranks stay whole. */
function doubledRanks(all: readonly Reading[]): number[] {
  return all.map((value) => all.reduce((rank, other) => rank + order(other, value), all.length + 1));
}
