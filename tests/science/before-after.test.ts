import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chanceOfMore, medianOf, shiftBetween } from "../../language/science/before-after.ts";
import { above, below, figure, order, type Reading } from "../../language/science/censored.ts";
import type { Limits } from "../../language/science/interval.ts";
import { asReading, rankSumP } from "../../language/science/rank-sum.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";

/** Values of the literature are in tests/published/reference/17-before-after.csv. */

function given<T>(answer: T | Outside): T {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer as T;
}

const reading: fc.Arbitrary<Reading> = fc
  .tuple(
    fc.integer({ min: 0, max: 6 }),
    fc.integer({ min: 0, max: 3 }),
    fc.constantFrom("figure", "figure", "below", "above", "between"),
  )
  .map(([value, more, is]) => {
    if (is === "below") return below(value + 1);
    if (is === "above") return above(value);
    return is === "between" && more > 0 ? { low: value, high: value + more, is } : figure(value);
  });
const some = (of: fc.Arbitrary<Reading>, most = 6) => fc.array(of, { minLength: 1, maxLength: most });
const plain = fc.integer({ min: 0, max: 6 }).map(figure);
/** No two alike, in an order of their own. */
const unlike = fc
  .uniqueArray(fc.integer({ min: 0, max: 400 }), { minLength: 2, maxLength: 9 })
  .chain((all) => fc.tuple(fc.constant(all), fc.integer({ min: 1, max: all.length - 1 })))
  .map(([all, at]) => [all.slice(0, at), all.slice(at)] as const);

/** All ways to choose so many of some things. */
function choices<T>(of: readonly T[], count: number): T[][] {
  if (count === 0) return [[]];
  const [first, ...rest] = of;
  if (first === undefined) return [];
  return [...choices(rest, count - 1).map((each) => [first, ...each]), ...choices(rest, count)];
}

describe("how far readings after lie above those before", () => {
  it("four ratings of much and four of little", () => {
    const shift = given(shiftBetween([3, 3, 2, 3], [1, 0, 1, 2]));
    // Differences: 3, 2, 3, 3 less 1, 0, 1, 2, the other way round: -3 three times, -2 seven times, -1 five times, 0 once.
    expect(shift.best).toEqual({ low: -2, high: -2 });
    expect(shift.interval).toEqual({ low: -3, high: 0 });
    expect(shift.confidence).toBeCloseTo(1 - 2 / 70, 12);
    expect(shift.isReached).toBe(true);
  });

  it("so few that no interval of 95 % exists: the widest, with what it has", () => {
    const shift = given(shiftBetween([18, 20, 19], [10, 12, 14]));
    expect(shift.interval).toEqual({ low: -10, high: -4 });
    expect(shift.confidence).toBeCloseTo(0.9, 12);
    expect(shift.isReached).toBe(false);
    expect(given(shiftBetween([18, 20, 19], [10, 12, 14], 0.9)).isReached).toBe(true);
    expect(given(shiftBetween([1], [2])).confidence).toBe(0);
  });

  it("`<5` is all from 0 to 5, and `>100` all above", () => {
    const shift = given(shiftBetween([10, 12, 11], [below(5), below(5), 6]));
    // 6 - 12 is the greatest of those that are sure; <5 less 10 is -10 to -5.
    expect(shift.best).toEqual({ low: -10, high: -6 });
    expect(shift.interval).toEqual({ low: -12, high: -4 });
    const open = given(shiftBetween([10, 12, 11], [above(100), above(100), 90]));
    expect(open.best).toEqual({ low: 88, high: Number.POSITIVE_INFINITY });
  });

  it("gives a reason for what cannot be compared", () => {
    expect(shiftBetween([], [1])).toEqual({ outside: "there is nothing to compare" });
    expect(shiftBetween([Number.NaN], [1])).toEqual({ outside: "figure NaN is no figure" });
    expect(shiftBetween([1], [2], 1)).toEqual({ outside: "a confidence of 1 is not between 0 and 1" });
    const many = Array.from({ length: 51 }, (_, at) => at);
    expect(shiftBetween(many, many)).toEqual({
      outside: "more than 100 figures are not compared by counting",
    });
  });

  it("holds the shift in as many of all deals of the ranks as it says, and one step further in it does not", () => {
    fc.assert(
      fc.property(unlike, fc.constantFrom(0.5, 0.8, 0.9, 0.95), ([before, after], confidence) => {
        const shift = given(shiftBetween(before, after, confidence));
        // With nothing changed: of each deal of the ranks, whether the interval made of it holds 0.
        const ranks = [...before, ...after].map((_, at) => at);
        const deals = choices(ranks, after.length);
        const share = (k: number): number =>
          deals.filter((to) => {
            const from = ranks.filter((rank) => !to.includes(rank));
            const pairs = to.flatMap((a) => from.map((b) => a - b)).sort((a, b) => a - b);
            return pairs[k - 1]! <= 0 && pairs.at(-k)! >= 0;
          }).length / deals.length;
        const differences = after.flatMap((a) => before.map((b) => a - b)).sort((a, b) => a - b);
        const ks = differences
          .map((_, at) => at + 1)
          .filter(
            (k) => differences[k - 1] === shift.interval.low && differences.at(-k) === shift.interval.high,
          );
        expect(ks.map((k) => share(k).toFixed(9))).toContain(shift.confidence.toFixed(9));
        if (shift.isReached) expect(shift.confidence).toBeGreaterThanOrEqual(confidence);
        else expect(ks).toContain(1);
        const k = ks.find((each) => share(each).toFixed(9) === shift.confidence.toFixed(9))!;
        if (shift.isReached && 2 * (k + 1) <= differences.length + 1)
          expect(share(k + 1)).toBeLessThan(confidence);
      }),
    );
  });

  it("a shift within it is one that the rank-sum test does not refuse, one outside is refused", () => {
    fc.assert(
      fc.property(unlike, fc.integer({ min: -820, max: 820 }), ([before, after], twice) => {
        const { interval, confidence, isReached } = given(shiftBetween(before, after));
        fc.pre(isReached);
        // Halves are no difference of whole figures, so that nothing is equal.
        const by = twice + 0.5;
        const p = given(
          rankSumP(
            before,
            after.map((value) => value - by),
          ),
        );
        const isWithin = by > interval.low && by < interval.high;
        expect(p > 1 - confidence + 1e-9).toBe(isWithin);
      }),
    );
  });

  it("the other way round it is the same with the sign turned", () => {
    fc.assert(
      fc.property(some(reading), some(reading), (before, after) => {
        const [there, back] = [given(shiftBetween(before, after)), given(shiftBetween(after, before))];
        const turned = ({ low, high }: Limits): Limits => ({ low: 0 - high, high: 0 - low });
        expect(turned(back.best)).toEqual(there.best);
        expect(turned(back.interval)).toEqual(there.interval);
        expect(back.confidence).toBeCloseTo(there.confidence, 12);
      }),
    );
  });

  it("whatever a censored reading was, best and interval are within what is told", () => {
    // At its very end `<5` is not 5: what is filled in keeps off it.
    const open = fc.array(fc.double({ min: 0.01, max: 0.99, noNaN: true }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(some(reading), some(reading), open, (before, after, where) => {
        const told = given(shiftBetween(before, after));
        const filled = (of: readonly Reading[], from: number): number[] =>
          of.map(
            ({ low, high }, at) =>
              low + where[from + at]! * ((Number.isFinite(high) ? high : low + 50) - low),
          );
        const one = given(shiftBetween(filled(before, 0), filled(after, 6)));
        const slack = 1e-9;
        expect(one.best.low).toBeGreaterThanOrEqual(told.best.low - slack);
        expect(one.best.high).toBeLessThanOrEqual(told.best.high + slack);
        expect(one.interval.low).toBeGreaterThanOrEqual(told.interval.low - slack);
        expect(one.interval.high).toBeLessThanOrEqual(told.interval.high + slack);
        const chance = given(chanceOfMore(before, after));
        const share = given(chanceOfMore(filled(before, 0), filled(after, 6)));
        expect(share.low).toBeGreaterThanOrEqual(chance.low - slack);
        expect(share.high).toBeLessThanOrEqual(chance.high + slack);
      }),
    );
  });
});

describe("the chance that one after is above one before", () => {
  it("counts pairs, those that are equal by half", () => {
    expect(chanceOfMore([1, 2], [2, 3])).toEqual({ low: 0.875, high: 0.875 });
    expect(chanceOfMore([5], [below(5)])).toEqual({ low: 0, high: 0 });
    expect(chanceOfMore([2], [below(5)])).toEqual({ low: 0, high: 1 });
    expect(chanceOfMore([below(5)], [5])).toEqual({ low: 1, high: 1 });
    expect(chanceOfMore([], [1])).toEqual({ outside: "there is nothing to compare" });
  });

  it("is 1 less what it is the other way round", () => {
    fc.assert(
      fc.property(some(reading), some(reading), (before, after) => {
        const [there, back] = [given(chanceOfMore(before, after)), given(chanceOfMore(after, before))];
        expect(there.low).toBeCloseTo(1 - back.high, 12);
        expect(there.high).toBeCloseTo(1 - back.low, 12);
        expect(there.low).toBeLessThanOrEqual(there.high);
      }),
    );
  });
});

describe("the rank sum of censored readings", () => {
  it("counts all deals of their scores", () => {
    fc.assert(
      fc.property(some(reading, 4), some(reading, 4), (before, after) => {
        const all = [...before, ...after];
        const scores = all.map((one) => all.reduce((sum, other) => sum + order(other, one), 0));
        const sum = (of: readonly number[]): number => of.reduce((total, at) => total + scores[at]!, 0);
        const places = all.map((_, at) => at);
        const deals = choices(places, before.length).map(sum);
        const own = Math.abs(sum(places.slice(0, before.length)));
        // Scores of a pool come to nothing together, so the middle is 0.
        const far = deals.filter((each) => Math.abs(each) >= own).length / deals.length;
        expect(given(rankSumP(before, after))).toBeCloseTo(far, 9);
      }),
    );
  });

  it("of plain figures is what it was", () => {
    fc.assert(
      fc.property(some(plain), some(plain), (before, after) => {
        const values = (of: readonly Reading[]): number[] => of.map(({ low }) => low);
        expect(rankSumP(values(before), values(after))).toBe(rankSumP(before, after));
      }),
    );
  });
});

it("the median of readings by what they may be", () => {
  expect(medianOf([1, 3, 2].map(asReading))).toEqual({ low: 2, high: 2 });
  expect(medianOf([below(5), figure(6), above(100)])).toEqual({ low: 6, high: 6 });
  expect(medianOf([below(5), figure(3)])).toEqual({ low: 1.5, high: 4 });
});
