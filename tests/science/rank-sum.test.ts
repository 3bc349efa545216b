import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rankSumP } from "../../language/science/rank-sum.ts";

describe("two groups compared by ranks", () => {
  // Mann & Whitney 1947, Ann. Math. Stat. 18:50-60, table I for n = 3 (recalled): P(U <= 0, 1, 2) of m = 3 is .050, .100, .200.
  it("agrees with the table of Mann and Whitney, twice for both sides", () => {
    expect(rankSumP([1, 2, 3], [4, 5, 6])).toBeCloseTo(2 * 0.05, 12);
    expect(rankSumP([1, 2, 4], [3, 5, 6])).toBeCloseTo(2 * 0.1, 12);
    expect(rankSumP([1, 2, 5], [3, 4, 6])).toBeCloseTo(2 * 0.2, 12);
  });

  it("says nothing of groups that are all alike, and gives a reason where there is nothing", () => {
    expect(rankSumP([5, 5, 5], [5, 5])).toBe(1);
    expect(rankSumP([], [1])).toEqual({ outside: "there is nothing to compare" });
    expect(rankSumP([Number.NaN], [1])).toEqual({ outside: "figure NaN is no figure" });
  });

  it("is a probability, and the same whichever group is named first", () => {
    const figures = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(figures, figures, (some, others) => {
        const p = rankSumP(some, others) as number;
        expect(p > 0 && p <= 1).toBe(true);
        expect(rankSumP(others, some)).toBeCloseTo(p, 12);
      }),
    );
  });
});
