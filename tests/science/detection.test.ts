import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  animalsToExamine,
  animalsToExamineInMany,
  chanceToFind,
  chanceToFindInMany,
  diseasedAtLeast,
} from "../../language/science/detection.ts";
import { isOutside } from "../../language/science/result.ts";

describe("how many to examine", () => {
  test("the 30, 60 and 150 fish of the aquatic code, before they were rounded up", () => {
    // De Blas et al. 2020, Front. Vet. Sci. 7:253, for 10, 5 and 2 % at 95 % (seen).
    for (const [prevalence, fish, rounded] of [
      [0.1, 29, 30],
      [0.05, 59, 60],
      [0.02, 149, 150],
    ] as const) {
      expect(animalsToExamineInMany(prevalence)).toBe(fish);
      expect(Math.ceil(fish / 10) * 10).toBe(rounded);
    }
  });

  // SciPy 1.17.1, the least n with stats.hypergeom.pmf(0, N, D, n) <= 0.05, for 2, 5 and 10 %.
  test.each([
    [50, 48, 31, 22],
    [100, 78, 45, 25],
    [250, 112, 51, 27],
    [500, 129, 56, 28],
    [1000, 138, 57, 29],
    [10_000, 148, 59, 29],
  ])("of %d", (animals, ...fish) => {
    const got = [0.02, 0.05, 0.1].map((prevalence) =>
      animalsToExamine(animals, diseasedAtLeast(animals, prevalence) as number),
    );
    expect(got).toEqual(fish);
  });

  test("is within one of the formula that is printed for a group and a test that misses some", () => {
    // Cannon 2001, eq. 4.11, of Cannon & Roe 1982 for a = 1: n = [1 - (1-g)^(1/D)] [N - (aD - 1)/2]/a, "error under one
    // sample except at extremes": where nearly all have to be examined it strays, so those are left out.
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 2000 }),
        fc.double({ min: 0.02, max: 0.3, noNaN: true }),
        fc.constantFrom(0.7, 0.9, 1),
        fc.constantFrom(0.9, 0.95, 0.99),
        (animals, prevalence, a, g) => {
          const diseased = diseasedAtLeast(animals, prevalence) as number;
          const printed = ((1 - (1 - g) ** (1 / diseased)) * (animals - (a * diseased - 1) / 2)) / a;
          fc.pre(diseased > 2 && printed < 0.7 * animals);
          const exact = animalsToExamine(animals, diseased, g, a) as number;
          expect(Math.abs(exact - printed)).toBeLessThan(1.5);
        },
      ),
    );
  });

  test("as many as do it, and one fewer would not; more of a larger group, fewer of a sicker one", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 300 }),
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0.5, max: 1, noNaN: true }),
        fc.double({ min: 0.5, max: 0.995, noNaN: true }),
        (animals, sick, sensitivity, confidence) => {
          const diseased = Math.min(sick, animals);
          const n = animalsToExamine(animals, diseased, confidence, sensitivity);
          const all = chanceToFind(animals, diseased, animals, sensitivity) as number;
          expect(isOutside(n)).toBe(all < confidence);
          if (isOutside(n)) return;
          expect(chanceToFind(animals, diseased, n, sensitivity)).toBeGreaterThanOrEqual(confidence - 1e-9);
          expect(chanceToFind(animals, diseased, n - 1, sensitivity)).toBeLessThan(confidence + 1e-9);
          expect(animalsToExamine(animals + 1, diseased, confidence, sensitivity)).toBeGreaterThanOrEqual(n);
          if (diseased < animals)
            expect(animalsToExamine(animals, diseased + 1, confidence, sensitivity)).toBeLessThanOrEqual(n);
        },
      ),
    );
  });

  test("the chance, drawn out: 2 sick of 5, 2 examined", () => {
    // Of the 10 pairs 3 have no sick animal, 6 have one, 1 has both.
    expect(chanceToFind(5, 2, 2)).toBeCloseTo(0.7, 12);
    expect(chanceToFind(5, 2, 2, 0.8)).toBeCloseTo(1 - (3 + 6 * 0.2 + 1 * 0.04) / 10, 12);
    expect(chanceToFind(5, 2, 0)).toBeCloseTo(0, 12);
    expect(chanceToFind(5, 2, 5)).toBe(1);
    expect(chanceToFindInMany(0.1, 2, 0.5)).toBeCloseTo(1 - 0.95 ** 2, 12);
  });

  test.each([
    [
      animalsToExamine(10, 1, 0.95, 0.8),
      "even with all 10 examined a test that finds 80 % of them finds one with 80 % only",
    ],
    [animalsToExamine(10, 0), "where none is diseased none can be found"],
    [animalsToExamine(10, 11), "11 of 10 are more than all"],
    [animalsToExamine(10, 2, 1), "a confidence of 1 is not between 0 and 1"],
    [animalsToExamineInMany(0), "a prevalence of 0 is none"],
    [animalsToExamineInMany(1.2), "prevalence 1.2 is not within 0 to 1"],
    [animalsToExamineInMany(0.1, 0.95, 0), "a test with a sensitivity of 0 finds nothing"],
    [animalsToExamineInMany(0.1, Number.NaN), "a confidence of NaN is not between 0 and 1"],
    [chanceToFind(10, 2, 11), "11 of 10 cannot be examined"],
    [chanceToFind(10.5, 2, 3), "number of animals 10.5 is no count"],
    [diseasedAtLeast(10, Number.NaN), "a prevalence of NaN is none"],
  ])("%#: %s", (answer, outside) => expect(answer).toEqual({ outside }));

  test("a whole number of diseased stays that number", () => {
    expect(diseasedAtLeast(100, 0.07)).toBe(7);
    expect(diseasedAtLeast(30, 0.02)).toBe(1);
    expect(diseasedAtLeast(55, 0.1)).toBe(6);
  });
});
