import fc from "fast-check";
import { median } from "simple-statistics";
import { describe, expect, test } from "vitest";
import {
  criticalScore,
  kendallP,
  kendallScore,
  kendallTail,
  kendallVariance,
} from "../../language/science/kendall.ts";
import { normalCdf, normalQuantile, studentT, twoSidedZ } from "../../language/science/normal.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";
import { mannKendall, type Slope, theilSen } from "../../language/science/trend.ts";

const values = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 14 });
const slope = (answer: Slope | Outside): Slope => {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
};

describe("the normal distribution", () => {
  // Abramowitz & Stegun 1964, table 26.1 and 26.5 (memory), to the digits given.
  test.each([
    [0, 0.5],
    [1, 0.8413447460685429],
    [1.959963984540054, 0.975],
    [-1.6448536269514722, 0.05],
    [3, 0.9986501019683699],
    [-5, 2.866515718791933e-7],
    [6, 0.9999999990134123],
  ])("below %d lies %d", (z, p) => {
    expect(normalCdf(z)).toBeCloseTo(p, 13);
    if (p < 0.5) expect(normalCdf(z) / p).toBeCloseTo(1, 9);
  });

  test("its quantile undoes it, far out too", () => {
    fc.assert(
      fc.property(fc.double({ min: -7.5, max: 7.5, noNaN: true }), (z) => {
        if (z < 5) expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 8);
        expect(normalCdf(z) + normalCdf(-z)).toBeCloseTo(1, 12);
      }),
    );
    expect(twoSidedZ(0.95)).toBeCloseTo(1.959963984540054, 12);
    expect(normalQuantile(0)).toBe(-Infinity);
    expect(normalQuantile(2)).toBeNaN();
  });
});

describe("Student's t", () => {
  // Abramowitz & Stegun 1964, table 26.10 (memory): two-sided 95 % and 99 %.
  test.each([
    [0.95, 10, 2.228, 0.003],
    [0.95, 30, 2.042, 0.001],
    [0.99, 20, 2.845, 0.003],
    [0.95, 5, 2.571, 0.01],
    [0.95, 2, 4.303, 0.07],
  ])("%d of %d degrees of freedom", (confidence, freedom, t, share) => {
    expect(Math.abs(studentT(twoSidedZ(confidence), freedom) / t - 1)).toBeLessThan(share);
  });

  test("tends to the normal quantile", () => {
    expect(studentT(1.96, 1e9)).toBeCloseTo(1.96, 8);
  });
});

describe("Kendall's score", () => {
  test("is counted out exactly: all orders of five values", () => {
    const orders = permutations([1, 2, 3, 4, 5]);
    for (let score = -10; score <= 10; score++) {
      const as = orders.filter((order) => kendallScore(order) >= score).length;
      expect(kendallTail(5, score)).toBeCloseTo(as / orders.length, 14);
    }
  });

  // Hollander & Wolfe 1973 / Gilbert 1987 table A18 (memory): P(S >= s) for n = 4, 5, 8, 10.
  test.each([
    [4, 6, 0.042],
    [5, 8, 0.042],
    [5, 10, 0.0083],
    [8, 16, 0.031],
    [10, 19, 0.054],
    [10, 25, 0.014],
  ])("n = %d, S = %d", (count, score, p) =>
    expect(Math.abs(kendallTail(count, score) - p)).toBeLessThan(6e-4),
  );

  test("its variance is that of the orders", () => {
    for (const count of [3, 4, 5, 6]) {
      const orders = permutations(Array.from({ length: count }, (_, i) => i));
      const mean = orders.reduce((sum, order) => sum + kendallScore(order) ** 2, 0) / orders.length;
      expect(kendallVariance(count)).toBeCloseTo(mean, 10);
    }
  });

  test("its variance with ties is that of the orders of the tied values", () => {
    const orders = permutations([1, 1, 2, 3, 3]);
    const mean = orders.reduce((sum, order) => sum + kendallScore(order) ** 2, 0) / orders.length;
    expect(kendallVariance(5, [2, 2])).toBeCloseTo(mean, 10);
    const three = permutations([1, 1, 1, 2, 3]);
    const other = three.reduce((sum, order) => sum + kendallScore(order) ** 2, 0) / three.length;
    expect(kendallVariance(5, [3])).toBeCloseTo(other, 10);
  });

  test("the critical score is the largest that is no sign of a trend", () => {
    for (let count = 3; count <= 14; count++) {
      const critical = criticalScore(count, 0.95);
      const pairs = (count * (count - 1)) / 2;
      expect(2 * kendallTail(count, critical + 2)).toBeLessThanOrEqual(0.05);
      if (critical < pairs) expect(2 * kendallTail(count, critical)).toBeGreaterThan(0.05);
    }
    expect(criticalScore(4, 0.95), "four readings are too few").toBe(6);
  });

  test("the normal way agrees with the exact one where both serve", () => {
    for (const count of [20, 30, 40]) {
      const normal = criticalScore(count, 0.95, kendallVariance(count));
      expect(Math.abs(normal - criticalScore(count, 0.95))).toBeLessThanOrEqual(2);
    }
  });

  test("p is a probability, smaller the further from zero", () => {
    for (let score = 1; score <= 45; score += 2) {
      const p = kendallP(score, 10);
      expect(p).toBeGreaterThan(0);
      expect(p).toBeLessThanOrEqual(kendallP(score - 2, 10));
    }
  });
});

describe("Theil-Sen", () => {
  test("is the median of the slopes of all pairs", () => {
    fc.assert(
      fc.property(values, (ys) => {
        const slopes: number[] = [];
        for (let i = 0; i < ys.length; i++)
          for (let j = i + 1; j < ys.length; j++) slopes.push((ys[j]! - ys[i]!) / (j - i));
        const days = ys.map((_, i) => i);
        expect(slope(theilSen(days, ys)).perDay).toBeCloseTo(median(slopes), 10);
      }),
    );
  });

  test("finds a straight line whole", () => {
    const line = slope(theilSen([0, 2, 3, 7, 11, 20], [5, 6, 6.5, 8.5, 10.5, 15]));
    expect(line.perDay).toBeCloseTo(0.5, 12);
    expect(line.intercept).toBeCloseTo(5, 12);
    expect(line.interval).toEqual({ low: 0.5, high: 0.5 });
  });

  test("one slip of the finger in seven does not move it", () => {
    const days = [1, 2, 3, 4, 5, 6, 7];
    const line = slope(theilSen(days, [10.0, 10.2, 10.4, 30.0, 10.8, 11.0, 11.2]));
    expect(line.perDay).toBeCloseTo(0.2, 12);
  });

  test("Sen's interval: the slopes that the exact score does not contradict", () => {
    // n = 10: critical |S| = 21 (P(|S| >= 23) = 0.047), so of 45 slopes the 12th and the 34th.
    const ys = [4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69];
    const slopes: number[] = [];
    for (let i = 0; i < 10; i++) for (let j = i + 1; j < 10; j++) slopes.push((ys[j]! - ys[i]!) / (j - i));
    slopes.sort((a, b) => a - b);
    const { interval } = slope(theilSen([...ys.keys()], ys));
    expect(criticalScore(10, 0.95)).toBe(21);
    expect(interval).toEqual({ low: slopes[11], high: slopes[33] });
  });

  test("says so when readings are too few", () => {
    expect(slope(theilSen([0, 1, 2, 3], [1, 2, 3, 4])).interval).toEqual({
      outside: "4 readings are too few for an interval of 95 %",
    });
    expect(isOutside(theilSen([3, 3], [1, 2]))).toBe(true);
    expect(isOutside(theilSen([3], [1]))).toBe(true);
  });

  test("turned about, the slope turns", () => {
    fc.assert(
      fc.property(values, (ys) => {
        const days = ys.map((_, i) => i);
        const up = slope(theilSen(days, ys));
        const down = slope(
          theilSen(
            days,
            ys.map((y) => -y),
          ),
        );
        expect(down.perDay).toBeCloseTo(-up.perDay, 10);
        if (!isOutside(up.interval) && !isOutside(down.interval)) {
          expect(down.interval.low).toBeCloseTo(-up.interval.high, 10);
        }
      }),
    );
  });

  test("Mann-Kendall of a rising series", () => {
    expect(mannKendall([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])).toMatchObject({ score: 45, variance: 125 });
    expect(mannKendall([7, 7, 7, 7])).toMatchObject({ score: 0, z: 0, p: 1 });
  });
});

function permutations(items: readonly number[]): number[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((item, i) =>
    permutations([...items.slice(0, i), ...items.slice(i + 1)]).map((rest) => [item, ...rest]),
  );
}
