import fc from "fast-check";
import { mean, median } from "simple-statistics";
import { describe, expect, test } from "vitest";
import { above, below, figure, type Reading } from "../../language/science/censored.ts";
import { belowDetection, type Summary } from "../../language/science/nondetects.ts";
import { isOutside } from "../../language/science/result.ts";

/** `"<1 2 3"` as readings. */
const read = (text: string): Reading[] =>
  text.split(" ").map((each) => (each.startsWith("<") ? below(Number(each.slice(1))) : figure(Number(each))));

function summary(readings: readonly Reading[]): Summary {
  const answer = belowDetection(readings);
  if (isOutside(answer)) throw new Error(answer.outside);
  return answer;
}

describe("readings of which some are below what the kit tells", () => {
  test("by hand: <1, 2, <3, 4, 5", () => {
    // 5: 1 of the 5 at most 5, so a fifth of all is 5, 4/5 lie under it. 4: 1 of 4, so a fifth is 4, 3/5 under it. `<3` says
    // nothing of 2. 2: 1 of the 2 at most 2 (2 and <1), so half of the 3/5 is 2, 3/10 under it, at 0 to 1.
    const { mean: of, median: half, below: few } = summary(read("<1 2 <3 4 5"));
    expect(of.least).toBeCloseTo(5 / 5 + 4 / 5 + 2 * 0.3, 12);
    expect(of.most).toBeCloseTo(5 / 5 + 4 / 5 + 2 * 0.3 + 1 * 0.3, 12);
    // 3/5 up to 2, 3/10 under it: half of all is passed at 2.
    expect(half).toBe(2);
    expect(few).toBe(2);
  });

  test("sulfate of a river, Newman's example 2.3, turned about at 8: the median is 8 less 3.15", () => {
    // Newman 1995, Quantitative Methods in Aquatic Ecotoxicology, p. 39, as worked in R's survfit (seen).
    const sulfate = "7.9 7.7 7.1 6.9 6.5 6.2 6.1 5.7 5.6 5.2 4.5 4.1 4.0 3.6 3.5 3.5 3.3 2.6 <2.5 <2.5";
    const { median: half, mean: of } = summary(read(sulfate));
    expect(half).toBeCloseTo(8 - 3.15, 12);
    // With one limit under all figures the mean is the plain one, with the limit or 0 put in.
    const figures = read(sulfate).filter(({ is }) => is === "figure");
    const sum = figures.reduce((total, { low }) => total + low, 0);
    expect(of.most).toBeCloseTo((sum + 5) / 20, 12);
    expect(of.least).toBeCloseTo(sum / 20, 12);
  });

  test("where all are figures it is the plain mean and median", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 15 }), (values) => {
        const { mean: of, median: half } = summary(values.map(figure));
        expect(of.least).toBeCloseTo(mean(values), 9);
        expect(of.most).toBe(of.least);
        expect(half).toBeCloseTo(median(values), 9);
      }),
    );
  });

  test("agrees with the self-consistent estimate, found by steps", () => {
    // Turnbull 1976, J. R. Stat. Soc. B 38:290-295: each reading spreads its share over what it may be, as all do together;
    // again and again, until nothing moves.
    const readings = fc.array(fc.tuple(fc.integer({ min: 1, max: 8 }), fc.boolean()), {
      minLength: 2,
      maxLength: 10,
    });
    fc.assert(
      fc.property(readings, (drawn) => {
        const all = drawn.map(([value, isBelow]) => (isBelow ? below(value) : figure(value)));
        fc.pre(all.some(({ is }) => is === "figure"));
        // Below everything is a place of its own, 0.
        const places = [0, ...new Set(all.filter(({ is }) => is === "figure").map(({ low }) => low))];
        const mayBe = (reading: Reading, place: number): boolean =>
          reading.is === "figure" ? place === reading.low : place < reading.high;
        let shares = places.map(() => 1 / places.length);
        for (let step = 0; step < 6000; step++) {
          const next = places.map(() => 0);
          for (const reading of all) {
            const room = places.reduce((sum, place, i) => sum + (mayBe(reading, place) ? shares[i]! : 0), 0);
            for (const [i, place] of places.entries())
              if (mayBe(reading, place)) next[i]! += shares[i]! / room / all.length;
          }
          shares = next;
        }
        const expected = places.reduce((sum, place, i) => sum + place * shares[i]!, 0);
        expect(summary(all).mean.least).toBeCloseTo(expected, 2);
      }),
      { numRuns: 60 },
    );
  });

  test("lies between none of what is below and all of its limit", () => {
    const readings = fc.array(fc.tuple(fc.integer({ min: 1, max: 40 }), fc.boolean()), {
      minLength: 1,
      maxLength: 20,
    });
    fc.assert(
      fc.property(readings, (drawn) => {
        const all = drawn.map(([value, isBelow]) => (isBelow ? below(value) : figure(value)));
        fc.pre(all.some(({ is }) => is === "figure"));
        const { mean: of } = summary(all);
        expect(of.least).toBeGreaterThanOrEqual(mean(all.map(({ low }) => low)) - 1e-9);
        expect(of.most).toBeLessThanOrEqual(mean(all.map(({ high }) => high)) + 1e-9);
        expect(of.most).toBeGreaterThanOrEqual(of.least);
      }),
    );
  });

  test("says what it cannot tell", () => {
    expect(summary(read("<2 <2 <2 4")).median).toEqual({
      outside: "half or more of all lie under the lowest figure",
    });
    expect(belowDetection(read("<1 <2"))).toEqual({
      outside: "no reading is above its limit: there is nothing to sum up",
    });
    expect(isOutside(belowDetection([figure(3), above(100)]))).toBe(true);
    expect(isOutside(belowDetection([figure(-3)]))).toBe(true);
    expect(isOutside(belowDetection([figure(Number.NaN)]))).toBe(true);
  });
});
