import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { above, below, figure, order, type Reading } from "../../language/science/censored.ts";
import { kendallVariance, tieGroups } from "../../language/science/kendall.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";
import { mannKendall, theilSen } from "../../language/science/trend.ts";

function given<T extends object>(answer: T | Outside): T {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
}

const reading: fc.Arbitrary<Reading> = fc
  .tuple(fc.integer({ min: 0, max: 9 }), fc.constantFrom("figure", "figure", "below", "above"))
  .map(([value, is]) => (is === "below" ? below(value + 1) : is === "above" ? above(value) : figure(value)));

describe("of two readings the second is", () => {
  test.each([
    [below(1), figure(10), 1],
    [below(1), figure(0.5), 0],
    [below(1), below(5), 0],
    [below(5), figure(5), 1],
    [figure(5), above(5), 1],
    [above(5), figure(5), -1],
    [above(100), above(80), 0],
    [figure(3), figure(3), 0],
    [figure(0), below(0.25), 0],
    [{ low: 15, high: 25, is: "between" }, { low: 25, high: 35, is: "between" }, 0],
    [{ low: 15, high: 25, is: "between" }, figure(26), 1],
  ] as const)("%o %o: %d", (first, second, more) => {
    expect(order(first, second)).toBe(more);
    expect(order(second, first)).toBe(more === 0 ? 0 : -more);
  });
});

describe("a trend of readings of which some are censored", () => {
  test("by hand: <5, 10, 12, 20, a week apart", () => {
    // Days a pair is apart, and what its change a day may be: 7: 5/7..10/7; 14: 7/14..12/14; 21: 15/21..20/21; 7: 2/7;
    // 14: 10/14; 7: 8/7. At 5/7 a day as many pairs change surely more (8/7) as surely less (2/7).
    const { perDay, intercept } = given(theilSen([0, 7, 14, 21], [below(5), 10, 12, 20]));
    expect(perDay).toBeCloseTo(5 / 7, 12);
    // Less 0, 5, 10, 15: under 5, 5, 2, 5.
    expect(intercept).toBeCloseTo(5, 12);
    expect(given(mannKendall([below(5), 10, 12, 20]))).toMatchObject({ score: 6, isExact: true });
  });

  test("the score and the slope of plain figures are what they were", () => {
    const values = [4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69];
    expect(mannKendall(values.map(figure))).toEqual(mannKendall(values));
    expect(theilSen([...values.keys()], values.map(figure))).toEqual(theilSen([...values.keys()], values));
  });

  test("its variance is that of all orders of the readings", () => {
    fc.assert(
      fc.property(fc.array(reading, { minLength: 3, maxLength: 6 }), fc.boolean(), (readings, isTwice) => {
        // Two readings of one day, or each of a day of its own.
        const times = readings.map((_, i) => (isTwice && i === 1 ? 0 : i));
        const scores = permutations(readings).map((each) => given(mannKendall(each, times)).score);
        const squares = scores.reduce((sum, score) => sum + score ** 2, 0) / scores.length;
        expect(given(mannKendall(readings, times)).variance).toBeCloseTo(squares, 9);
      }),
      { numRuns: 40 },
    );
  });

  test("and for plain figures at one of two times, Kendall's with ties of both", () => {
    const values = [3, 1, 4, 1, 5, 9, 2, 6];
    const days = [0, 0, 1, 2, 3, 4, 4, 4];
    // Kendall 1975, ch. 4: both rankings tied, here t = 2 among the values, u = 2 and 3 among the days.
    const n = 8;
    const [t, u] = [tieGroups(values), tieGroups(days)];
    const sum = (groups: number[], of: (size: number) => number) =>
      groups.reduce((all, size) => all + of(size), 0);
    const triples = (size: number) => size * (size - 1) * (size - 2);
    const twos = (size: number) => size * (size - 1);
    const variance =
      (n * (n - 1) * (2 * n + 5) -
        sum(t, (k) => twos(k) * (2 * k + 5)) -
        sum(u, (k) => twos(k) * (2 * k + 5))) /
        18 +
      (sum(t, triples) * sum(u, triples)) / (9 * triples(n)) +
      (sum(t, twos) * sum(u, twos)) / (2 * twos(n));
    expect(given(mannKendall(values, days)).variance).toBeCloseTo(variance, 10);
    expect(variance).not.toBeCloseTo(kendallVariance(n, t), 3);
  });

  test("at the slope the readings less the line have no trend, above and below it they have", () => {
    // Akritas, Murphy & LaValley 1995 define the slope so; here the score is counted of the readings turned down by the line.
    const series = fc.array(reading, { minLength: 4, maxLength: 9 });
    const scoreLess = (readings: readonly Reading[], perDay: number): number => {
      let score = 0;
      for (let i = 0; i < readings.length; i++)
        for (let j = i + 1; j < readings.length; j++) {
          const [from, to] = [readings[i]!, readings[j]!];
          const line = perDay * (j - i);
          if (to.low - from.high > line) score++;
          if (to.high - from.low < line) score--;
        }
      return score;
    };
    fc.assert(
      fc.property(series, (readings) => {
        const found = theilSen([...readings.keys()], readings);
        fc.pre(!isOutside(found));
        const { perDay } = found as { perDay: number };
        expect(scoreLess(readings, perDay + 1e-6)).toBeLessThanOrEqual(0);
        expect(scoreLess(readings, perDay - 1e-6)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test("turned about in time the slope turns, whichever order the readings are given in", () => {
    fc.assert(
      fc.property(fc.array(reading, { minLength: 3, maxLength: 9 }), (readings) => {
        const days = [...readings.keys()];
        const forth = theilSen(days, readings);
        const back = theilSen(days, [...readings].reverse());
        const shuffled = theilSen([...days].reverse(), [...readings].reverse());
        expect(isOutside(back)).toBe(isOutside(forth));
        if (isOutside(forth) || isOutside(back) || isOutside(shuffled)) return;
        expect(back.perDay).toBeCloseTo(-forth.perDay, 9);
        expect(shuffled.perDay).toBeCloseTo(forth.perDay, 9);
      }),
    );
  });

  test("says so where it bounds nothing", () => {
    for (const untold of [
      [below(5), below(5), below(5)],
      [below(5), 3, below(5)],
    ])
      expect(theilSen([0, 7, 14], untold)).toEqual({
        outside: "each two of the readings may as well rise as fall",
      });
    expect(theilSen([0, 7, 14], [3, 3, below(5)]), "as much as two equal figures tell").toMatchObject({
      perDay: 0,
    });
    expect(theilSen([0, 7, 9], [40, above(100), above(100)])).toEqual({
      outside: "the censored readings bound the change on one side only",
    });
    expect(given(mannKendall([below(5), below(5), below(5)]))).toMatchObject({ score: 0, z: 0, p: 1 });
    expect(mannKendall([below(Number.NaN), 3])).toEqual({ outside: "NaN is no reading" });
    expect(theilSen([0, Number.NaN], [1, 2])).toEqual({ outside: "NaN is no time" });
  });
});

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}
