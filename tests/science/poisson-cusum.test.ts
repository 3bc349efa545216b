import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  averageRunLength,
  type CusumChart,
  cusumDesign,
  cusumReference,
  nextSum,
} from "../../language/science/poisson-cusum.ts";
import { isOutside, type Outside } from "../../language/science/result.ts";

function given<T>(answer: T | Outside): T {
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
}

const chartOf = (k: number, h: number, stepsPerCount = 1): CusumChart => ({ k, h, stepsPerCount });
const runLength = (mean: number, chart: CusumChart, start = 0): number =>
  given(averageRunLength(mean, chart, start));

describe("run lengths as published", () => {
  // The manual of the R package IAcsSPCR, function arl, prints these for Lucas's chart with k = 2 and h = 6 (seen): at a mean of 1.88, and
  // shifted by 0.9627 of its standard deviation; from 0, and from a head start of h / 2.
  it.each([
    [1.88, 0, 37.2, 2],
    [1.88, 3, 29.19, 2],
    [1.88 + 0.9627 * Math.sqrt(1.88), 0, 5.49, 2],
    [1.88 + 0.9627 * Math.sqrt(1.88), 3, 3.33, 2],
  ])("a mean of %f from %i", (mean, start, published, digits) => {
    expect(runLength(mean, chartOf(2, 6), start)).toBeCloseTo(published, digits);
  });
});

describe("run lengths by hand", () => {
  const mean = 0.7;
  const none = Math.exp(-mean);

  it("an alarm at the first count above k: a geometric wait", () => {
    // With k = 1 and h = 1 it takes 2 of a day or more.
    const few = none * (1 + mean);
    expect(runLength(mean, chartOf(1, 1))).toBeCloseTo(1 / (1 - few), 10);
  });

  it("two values of the sum: k = 1, h = 2", () => {
    // From 0: 0 or 1 stay at 0, 2 go to 1. From 1: 0 goes back to 0, 1 stays at 1. a = 1 + (p0 + p1) a + p2 b, b = 1 + p0 a + p1 b.
    const [p0, p1, p2] = [none, none * mean, (none * mean ** 2) / 2];
    const determinant = (1 - p0 - p1) * (1 - p1) - p2 * p0;
    expect(runLength(mean, chartOf(1, 2))).toBeCloseTo((1 - p1 + p2) / determinant, 10);
    expect(runLength(mean, chartOf(1, 2), 1)).toBeCloseTo((1 - p0 - p1 + p0) / determinant, 10);
  });

  it("the reference value between two means: 3 times 0.2 is (0.6 - 0.2) / ln 3", () => {
    expect(cusumReference(0.2, 0.6)).toBeCloseTo(0.4 / 1.0986122887, 9);
  });
});

const charts = fc.record({
  mean: fc.double({ min: 0.05, max: 4, noNaN: true }),
  k: fc.integer({ min: 1, max: 12 }),
  h: fc.integer({ min: 1, max: 25 }),
  stepsPerCount: fc.integer({ min: 1, max: 6 }),
});

describe("run lengths by another way", () => {
  it("the sum of the chances that the chart has not told after n days, day by day", () => {
    fc.assert(
      fc.property(charts, ({ mean, ...chart }) => {
        const exact = averageRunLength(mean, chart);
        fc.pre(!isOutside(exact) && exact < 3000);
        expect(sumOfSurvival(mean, chart) / (exact as number)).toBeCloseTo(1, 7);
      }),
      { numRuns: 60 },
    );
  });

  it.each([
    [0.2, 3, 300],
    [1.5, 2, 100],
  ])("a simulation of sums that are no steps: mean %f, %f times", (mean, ratio, wanted) => {
    const { k, h, inControl, outOfControl } = given(cusumDesign(mean, ratio, wanted));
    for (const [of, exact, runs] of [
      [mean, inControl, 4000],
      [mean * ratio, outOfControl, 4000],
    ] as const) {
      const { average, error } = simulated(of, k, h, runs);
      expect(Math.abs(average - exact)).toBeLessThan(4 * error);
      expect(error).toBeLessThan(0.03 * exact);
    }
  });

  it("animals that come and go change little of it, as k goes with them", () => {
    // Half as many and half as many again, by turns of a week: stated is what holds at the mean.
    const { k, h, inControl } = given(cusumDesign(0.3, 3, 1000));
    const { average } = simulated(0.3, k, h, 3000, (day) => (Math.floor(day / 7) % 2 === 0 ? 0.5 : 1.5));
    expect(average / inControl).toBeGreaterThan(0.8);
    expect(average / inControl).toBeLessThan(1.25);
  });
});

describe("what holds of every chart", () => {
  it("more deaths are told sooner, a higher threshold or k later, a head start sooner", () => {
    fc.assert(
      fc.property(charts, fc.double({ min: 1.01, max: 3, noNaN: true }), ({ mean, ...chart }, more) => {
        const length = (of: number, changed: Partial<CusumChart>, start = 0): number => {
          const answer = averageRunLength(of, { ...chart, ...changed }, start);
          return isOutside(answer) ? Number.POSITIVE_INFINITY : answer * (1 + 1e-9);
        };
        const own = averageRunLength(mean, chart);
        fc.pre(!isOutside(own) && own < 1e8);
        const exact = own as number;
        expect(exact).toBeGreaterThanOrEqual(1);
        expect(length(mean * more, {})).toBeLessThanOrEqual(exact * (1 + 1e-6));
        expect(length(mean, { h: chart.h + 1 })).toBeGreaterThanOrEqual(exact);
        expect(length(mean, { k: chart.k + 1 })).toBeGreaterThanOrEqual(exact);
        if (chart.h > 1) expect(length(mean, {}, chart.h - 1)).toBeLessThanOrEqual(exact * (1 + 1e-6));
      }),
    );
  });

  it("so many deaths that each day alone tells: one day", () => {
    expect(runLength(200, chartOf(2, 6))).toBeCloseTo(1, 12);
  });

  it("a design is the least that holds what is wanted, with k as the means have it", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.03, max: 10, noNaN: true }),
        fc.double({ min: 1.5, max: 6, noNaN: true }),
        fc.double({ min: 20, max: 2000, noNaN: true }),
        (mean, ratio, wanted) => {
          const { chart, k, h, inControl, outOfControl } = given(cusumDesign(mean, ratio, wanted));
          expect(inControl).toBeGreaterThanOrEqual(wanted);
          if (chart.h > 1) expect(runLength(mean, { ...chart, h: chart.h - 1 })).toBeLessThan(wanted);
          expect(outOfControl).toBeLessThan(inControl);
          const exact = given(cusumReference(mean, mean * ratio));
          expect(exact).toBeGreaterThan(mean);
          expect(exact).toBeLessThan(mean * ratio);
          expect(Math.abs(k / exact - 1)).toBeLessThan(0.0201);
          expect([k, h]).toEqual([chart.k / chart.stepsPerCount, chart.h / chart.stepsPerCount]);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("refuses what cannot be", () => {
    const refused = [
      cusumReference(0, 1),
      cusumReference(2, 1),
      averageRunLength(Number.NaN, chartOf(1, 2)),
      averageRunLength(1, chartOf(0, 2)),
      averageRunLength(1, chartOf(1, 0)),
      averageRunLength(1, chartOf(1.5, 2)),
      averageRunLength(1, chartOf(1, 2), 2),
      averageRunLength(1, chartOf(1, 1e6)),
      averageRunLength(0.001, chartOf(20, 20)),
      cusumDesign(1, 1, 100),
      cusumDesign(1, 2, Number.NaN),
    ];
    expect(refused.every(isOutside)).toBe(true);
  });
});

/** Independent of the linear system: the chances of each sum carried on day by day, their total added up, the rest geometric. */
function sumOfSurvival(mean: number, { k, h, stepsPerCount }: CusumChart): number {
  let chances = new Float64Array(h);
  chances[0] = 1;
  let total = 0;
  let left = 1;
  let ratio = Number.NaN;
  for (let day = 0; day < 400_000; day++) {
    total += left;
    const next = new Float64Array(h);
    for (let from = 0; from < h; from++) {
      let chance = Math.exp(-mean);
      for (let count = 0; from + count * stepsPerCount - k < h; count++) {
        next[Math.max(0, from + count * stepsPerCount - k)]! += chances[from]! * chance;
        chance *= mean / (count + 1);
      }
    }
    const now = next.reduce((sum, each) => sum + each, 0);
    const then = now / left;
    chances = next;
    left = now;
    if (left < 1e-14 || (day > 200 && Math.abs(then - ratio) < 1e-13)) {
      return total + (left < 1e-14 ? 0 : left / (1 - then));
    }
    ratio = then;
  }
  throw new Error("it does not settle");
}

function simulated(
  mean: number,
  k: number,
  h: number,
  runs: number,
  animals: (day: number) => number = () => 1,
): { average: number; error: number } {
  const random = mulberry32(5);
  const lengths: number[] = [];
  for (let run = 0; run < runs; run++) {
    let sum = 0;
    // Begun at any day of the turn, as an alarm may be.
    const begin = Math.floor(random() * 14);
    let days = 0;
    do {
      const there = animals(begin + days);
      sum = nextSum(sum, poisson(mean * there, random), k * there);
      days++;
    } while (sum < h - 1e-9);
    lengths.push(days);
  }
  const average = lengths.reduce((sum, each) => sum + each, 0) / runs;
  const spread = lengths.reduce((sum, each) => sum + (each - average) ** 2, 0) / (runs - 1);
  return { average, error: Math.sqrt(spread / runs) };
}

function poisson(mean: number, random: () => number): number {
  let count = 0;
  for (let product = random(); product > Math.exp(-mean); product *= random()) count++;
  return count;
}

/** Tommy Ettinger's mulberry32, public domain. */
function mulberry32(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
