import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { feedOxygenG, nitrateRiseMgLPerDay } from "../../language/science/feed-waste.ts";
import { ammoniaFromFeedGN, conditionEnglish } from "../../language/science/feeding.ts";
import {
  conditionFactor,
  dryMatterG,
  foodConversion,
  groupRationG,
  growthPercentPerDay,
  sameDryMatterG,
  weightAfterG,
} from "../../language/science/growth.ts";
import { isOutside } from "../../language/science/result.ts";

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("growth and rations", () => {
  test("fry that double in ten days grow 6.93 % a day", () => {
    expect(growthPercentPerDay(0.2, 0.4, 10)).toBeCloseTo(6.931, 3);
    expect(growthPercentPerDay(0.4, 0.2, 10)).toBeCloseTo(-6.931, 3);
  });

  test("growth is what daily compounding by very short days makes, and undoes itself", () => {
    fc.assert(
      fc.property(double(0.01, 500), double(-5, 20), double(1, 100), (from, percent, days) => {
        const to = weightAfterG(from, percent, days) as number;
        expect(growthPercentPerDay(from, to, days)).toBeCloseTo(percent, 8);
        const pieces = 1_000_000;
        const compounded = from * (1 + (percent / 100) * (days / pieces)) ** pieces;
        expect(compounded / to).toBeCloseTo(1, 3);
      }),
    );
  });

  test("a fish of 8.076 g and 100 mm: condition 0.81, the catfish of the hatchery manual", () => {
    // Piper and others 1982, p. 61: channel catfish 80.76e-7 in g and mm, 2918e-7 in lb and inches.
    expect(conditionFactor(8.076, 100)).toBeCloseTo(0.8076, 10);
    expect(conditionEnglish((conditionFactor(8.076, 100) as number) / 1e5)).toBeCloseTo(2918e-7, 7);
    expect(conditionFactor(1, 0)).toMatchObject({ outside: expect.stringContaining("length") });
    expect(conditionFactor(Number.NaN, 10)).toMatchObject({ outside: expect.stringContaining("weight") });
  });

  test("150 g of food for 120 g of gain is 1.25", () => {
    expect(foodConversion(150, 120)).toBe(1.25);
  });

  test("30 platies of 40 mm at 2 %: condition 1.5 by g and cm, 0.96 g each, 0.576 g a day", () => {
    expect(groupRationG(30, 40, 1.5e-5, 3, 2)).toBeCloseTo(0.576, 12);
  });

  test("1 g of flake at 8 % of water is 7.7 g of frozen food at 88 %", () => {
    expect(sameDryMatterG(1, 0.08, 0.88)).toBeCloseTo(7.667, 3);
    fc.assert(
      fc.property(double(0, 100), double(0, 0.95), double(0, 0.95), (food, one, other) => {
        const swap = sameDryMatterG(food, one, other) as number;
        expect(dryMatterG(swap, other)).toBeCloseTo(dryMatterG(food, one) as number, 8);
        expect(sameDryMatterG(swap, other, one)).toBeCloseTo(food, 8);
      }),
    );
  });

  test("figures that cannot be give a reason", () => {
    for (const refused of [
      growthPercentPerDay(0, 1, 1),
      growthPercentPerDay(1, 1, 0),
      weightAfterG(-1, 1, 1),
      weightAfterG(1, 500, 1),
      foodConversion(10, 0),
      foodConversion(-1, 1),
      groupRationG(-1, 40, 1e-5, 3, 2),
      groupRationG(1, 0, 1e-5, 3, 2),
      groupRationG(1, 40, 1e-5, 5, 2),
      groupRationG(1, 40, 1e-5, 3, 301),
      dryMatterG(1, 1.2),
      sameDryMatterG(1, 0.1, 1),
      sameDryMatterG(Number.NaN, 0.1, 0.1),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});

describe("what food leaves in the water", () => {
  test("1 g a day of 45 % protein on 100 L: 0.414 mg/L N and 1.83 mg/L NO3 a day", () => {
    expect((ammoniaFromFeedGN(1, 0.45) * 1000) / 100).toBeCloseTo(0.414, 9);
    expect(nitrateRiseMgLPerDay(1, 0.45, 100)).toBeCloseTo(0.414 * 4.4266, 4);
  });

  test("twice the food is twice the nitrate, twice the water half", () => {
    fc.assert(
      fc.property(double(0, 50), double(0, 1), double(1, 2000), (food, protein, volume) => {
        const rise = nitrateRiseMgLPerDay(food, protein, volume) as number;
        expect(nitrateRiseMgLPerDay(2 * food, protein, volume)).toBeCloseTo(2 * rise, 8);
        expect(nitrateRiseMgLPerDay(food, protein, 2 * volume)).toBeCloseTo(rise / 2, 8);
      }),
    );
  });

  test("oxygen of food is within a sixth of the 1.25 kg per kg published for general use", () => {
    // His 2.67 and a food of 28 to 40 % protein, with what he has farmed fish keep.
    for (const [protein, carbon, nitrogen] of [
      [0.28, 0.12, 0.3],
      [0.32, 0.1, 0.25],
      [0.4, 0.08, 0.2],
    ] as const) {
      const demand = feedOxygenG(1000, protein, { carbon, nitrogen }) as number;
      expect(demand / 1250).toBeGreaterThan(5 / 6);
      expect(demand / 1250).toBeLessThan(7 / 6);
    }
    expect(feedOxygenG(1, 0, { carbon: 0, nitrogen: 0 }, 1 / 2.66)).toBeCloseTo(1, 2);
  });

  test("fish that keep more leave less to burn", () => {
    fc.assert(
      fc.property(double(0.1, 0.6), double(0, 0.8), double(0, 0.8), (protein, carbon, nitrogen) => {
        const here = feedOxygenG(1, protein, { carbon, nitrogen }) as number;
        expect(feedOxygenG(1, protein, { carbon: carbon + 0.1, nitrogen })).toBeLessThan(here);
        expect(feedOxygenG(1, protein, { carbon, nitrogen: nitrogen + 0.1 })).toBeLessThan(here);
      }),
    );
  });

  test("figures that cannot be give a reason", () => {
    for (const refused of [
      nitrateRiseMgLPerDay(1, 0.4, 0),
      nitrateRiseMgLPerDay(-1, 0.4, 100),
      nitrateRiseMgLPerDay(1, 40, 100),
      feedOxygenG(-1, 0.4, { carbon: 0, nitrogen: 0 }),
      feedOxygenG(1, 0.4, { carbon: 2, nitrogen: 0 }),
      feedOxygenG(1, 0.4, { carbon: 0, nitrogen: 0 }, 0.9),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});
