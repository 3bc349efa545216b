import fc from "fast-check";
import { gammaln } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { betaI, betaInverse } from "../../language/science/beta.ts";
import { compareRates, type RateRatio } from "../../language/science/rates.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";

function given<T extends object>(answer: T | Outside): T {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
}
const compare = (x: number, t: number, y: number, u: number, confidence = 0.95, supposed = 1): RateRatio =>
  given(compareRates({ count: x, exposure: t }, { count: y, exposure: u }, confidence, supposed));

describe("losses of two tanks", () => {
  test("an example of Fay's, printed with twice the smaller tail: p 0.05011, 0.0218 to 1.0005", () => {
    // Fay 2022, Testing the Ratio of Two Poisson Rates, section 1 (seen): chosen so that p is just over 0.05.
    const { ratio, interval, p } = compare(2, 17877, 9, 16660);
    expect(ratio).toBeCloseTo(0.2070941557, 9);
    expect(p).toBeCloseTo(0.05011, 5);
    expect(interval.low).toBeCloseTo(0.02177406, 8);
    expect(interval.high).toBeCloseTo(1.0005491, 7);
  });

  test("an example of Gu et al. 2008, tested against a ratio of 1.2", () => {
    // R package exactci, as the tests of statsmodels carry it (seen).
    const tested = compare(60, 51477.5, 30, 54308.7, 0.95, 1.2);
    expect(tested.ratio).toBeCloseTo(2.10999757175465, 12);
    expect(tested.asMany).toBeCloseTo(0.006651774552714537, 12);
    expect(tested.asFew).toBeCloseTo(0.9964625674930079, 12);
  });

  // SciPy 1.17.1, stats.binomtest(x, x + y, t/(t + u)), its one-sided p and its exact interval turned into a ratio.
  test.each([
    [
      60, 51477.5, 30, 54308.7, 0.0004280526940501244, 0.9998077878100844, 1.3397357217716694,
      3.3883655736243234,
    ],
    [11, 800, 21, 3011, 0.05600865978769968, 0.9759318232273121, 0.858426403391619, 4.277265943654079],
    [0, 40, 7, 55, 1, 0.021800858165401747, 0, 0.9539942226328009],
    [5, 120, 0, 90, 0.06092699470458736, 1, 0.6872668929865949, Infinity],
  ])("%d in %d and %d in %d", (x, t, y, u, asMany, asFew, low, high) => {
    const got = compare(x, t, y, u);
    expect(got.asMany).toBeCloseTo(asMany, 12);
    expect(got.asFew).toBeCloseTo(asFew, 12);
    expect(got.interval.low).toBeCloseTo(low, 9);
    if (high === Infinity) expect(got.interval.high).toBe(Infinity);
    else expect(got.interval.high).toBeCloseTo(high, 9);
  });

  test("counted out from the Poisson chances themselves, of whatever mean", () => {
    // Among all ways for both tanks to have had as many cases together, those with as many in the first or more.
    const chance = (count: number, mean: number): number =>
      Math.exp(count * Math.log(mean) - mean - gammaln(count + 1));
    const some = fc.integer({ min: 0, max: 12 });
    const exposure = fc.double({ min: 0.5, max: 300, noNaN: true });
    fc.assert(
      fc.property(
        some,
        some,
        exposure,
        exposure,
        fc.double({ min: 0.01, max: 0.2, noNaN: true }),
        (x, y, t, u, rate) => {
          fc.pre(x + y > 0);
          let all = 0;
          let asMany = 0;
          for (let k = 0; k <= x + y; k++) {
            const both = chance(k, rate * t) * chance(x + y - k, rate * u);
            all += both;
            if (k >= x) asMany += both;
          }
          expect(compare(x, t, y, u).asMany).toBeCloseTo(asMany / all, 8);
        },
      ),
    );
  });

  test("the interval leaves out 1 just where p is below what is left of the confidence", () => {
    const some = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(some, some, fc.double({ min: 0.2, max: 5, noNaN: true }), (x, y, t) => {
        fc.pre(x + y > 0);
        const { interval, p, ratio } = compare(x, t, y, 1);
        fc.pre(Math.abs(p - 0.05) > 1e-6);
        expect(p < 0.05).toBe(interval.low > 1 || interval.high < 1);
        expect(interval.low).toBeLessThanOrEqual(ratio);
        expect(interval.high).toBeGreaterThanOrEqual(ratio);
        const turned = compare(y, 1, x, t);
        expect(turned.p).toBeCloseTo(p, 9);
        if (x > 0) expect(1 / turned.interval.high).toBeCloseTo(interval.low, 6);
      }),
    );
  });

  test.each([
    [
      compareRates({ count: 0, exposure: 3 }, { count: 0, exposure: 4 }),
      "no case in either: there is nothing to compare",
    ],
    [compareRates({ count: 1.5, exposure: 3 }, { count: 1, exposure: 4 }), "count 1.5 is no count"],
    [
      compareRates({ count: 1, exposure: 0 }, { count: 1, exposure: 4 }),
      "exposure 0 is not a figure of more than 0",
    ],
    [
      compareRates({ count: 1, exposure: 3 }, { count: 1, exposure: 4 }, 2),
      "a confidence of 2 is not between 0 and 1",
    ],
  ])("%#: %s", (answer, outside) => expect(answer).toEqual({ outside }));
});

describe("the beta function under it", () => {
  test("agrees with SciPy 1.17.1, special.betainc and stats.beta.ppf", () => {
    expect(betaI(0.3, 2.5, 7)).toBeCloseTo(0.6412224629717214, 13);
    expect(betaI(0.9, 40, 3)).toBeCloseTo(0.19510765482693676, 13);
    expect(betaInverse(0.025, 3, 38)).toBeCloseTo(0.01574217985104153, 13);
  });

  test("is the tail of the binomial, counted out", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 25 }),
        fc.integer({ min: 1, max: 25 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (a, b, x) => {
          const n = a + b - 1;
          let tail = 0;
          for (let k = a; k <= n; k++) {
            let ways = 1;
            for (let i = 0; i < k; i++) ways = (ways * (n - i)) / (i + 1);
            tail += ways * x ** k * (1 - x) ** (n - k);
          }
          expect(betaI(x, a, b)).toBeCloseTo(tail, 10);
          expect(betaI(betaInverse(0.3, a, b), a, b)).toBeCloseTo(0.3, 10);
        },
      ),
    );
    expect(betaI(0, 2, 3)).toBe(0);
    expect(betaI(1, 2, 3)).toBe(1);
  });
});
