/** Whether one group of figures lies above another, without asking how they are spread. */
import { notFinite } from "./given.ts";
import { type Outside, outside } from "./result.ts";

/** More figures than these are not told apart by counting; so many spawnings of one pair hardly come. */
const most = 60;

/**
 * Two-sided p of the rank-sum test, exact also where figures are equal: Wilcoxon 1945, Biometrics Bull. 1:80-83; Mann & Whitney 1947, Ann.
 * Math. Stat. 18:50-60. Counts all ways to deal the pooled ranks (mean ranks where equal) and takes those as far from the middle as the one
 * at hand, or further.
 */
export function rankSumP(some: readonly number[], others: readonly number[]): number | Outside {
  const all = [...some, ...others];
  const wrong = all.map((value) => notFinite("figure", value)).find((refused) => refused !== undefined);
  if (wrong !== undefined) return wrong;
  if (some.length === 0 || others.length === 0) return outside("there is nothing to compare");
  if (all.length > most) return outside(`more than ${most} figures are not compared by counting`);
  const ranks = doubledRanks(all);
  const total = ranks.reduce((sum, rank) => sum + rank, 0);
  // ways[k][s]: how many ways to choose k of the ranks so that they come to s.
  const ways = Array.from({ length: some.length + 1 }, () => new Float64Array(total + 1));
  ways[0]![0] = 1;
  ranks.forEach((rank, seen) => {
    for (let chosen = Math.min(some.length, seen + 1); chosen >= 1; chosen--) {
      const [to, from] = [ways[chosen]!, ways[chosen - 1]!];
      for (let sum = total; sum >= rank; sum--) to[sum]! += from[sum - rank]!;
    }
  });
  const middle = (total * some.length) / all.length;
  const off = Math.abs(ranks.slice(0, some.length).reduce((sum, rank) => sum + rank, 0) - middle);
  let far = 0;
  let every = 0;
  ways[some.length]!.forEach((count, sum) => {
    every += count;
    if (Math.abs(sum - middle) >= off - 1e-9) far += count;
  });
  return Math.min(1, far / every);
}

/** Twice the rank of each figure, so that mean ranks stay whole. */
function doubledRanks(all: readonly number[]): number[] {
  return all.map((value) => {
    const below = all.filter((other) => other < value).length;
    const same = all.filter((other) => other === value).length;
    return 2 * below + same + 1;
  });
}
