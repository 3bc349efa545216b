import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { daysToDegreeDays, degreeDays, zebrafishHours } from "../../language/science/development.ts";
import {
  ammoniaFromFeedGN,
  conditionEnglish,
  flowIndexAtOxygen,
  rationKg,
  weightG,
} from "../../language/science/feeding.ts";
import { gammaP, gammaPInverse } from "../../language/science/gamma.ts";
import { isOutside } from "../../language/science/result.ts";
import {
  attackRatePercent,
  ewma,
  ewmaLimits,
  incidenceRate,
  individualsLimits,
  kaplanMeier,
  meanMovingRange,
  poissonExact,
  poissonScore,
  wilson,
} from "../../language/science/statistics.ts";
import { THRESHOLDS, threshold } from "../../language/science/thresholds.ts";
import { catfishLoadLbPerGal, loadAtTemperature } from "../../language/science/transport.ts";

describe("losses as a share", () => {
  test("the interval holds the share, and none lost is not none to lose", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (outOf, share) => {
          const lost = Math.floor(share * outOf);
          const { low, high } = wilson(lost, outOf);
          expect(low).toBeLessThanOrEqual(lost / outOf + 1e-12);
          expect(high).toBeGreaterThanOrEqual(lost / outOf - 1e-12);
          const other = wilson(outOf - lost, outOf);
          expect(other.low).toBeCloseTo(1 - high, 10);
        },
      ),
    );
    expect(wilson(0, 20).high).toBeCloseTo(0.161, 3);
  });

  test("of a count: exact, and the score interval inside it", () => {
    for (const count of [0, 1, 5, 20, 100]) {
      const exact = poissonExact(count);
      const score = poissonScore(count);
      expect(exact.low).toBeLessThanOrEqual(count);
      expect(exact.high).toBeGreaterThan(count);
      expect(score.low).toBeGreaterThanOrEqual(exact.low - 1e-9);
      // The defining property: as few as these are 2.5 % likely at the upper end.
      expect(1 - gammaP(count + 1, exact.high)).toBeCloseTo(0.025, 10);
    }
    expect(poissonExact(15, 400).high).toBeCloseTo(poissonExact(15).high / 400, 14);
  });

  test("the gamma function under it", () => {
    expect(gammaP(1, 2)).toBeCloseTo(1 - Math.exp(-2), 13);
    expect(gammaP(3, 2.5)).toBeCloseTo(1 - Math.exp(-2.5) * (1 + 2.5 + 2.5 ** 2 / 2), 13);
    expect(gammaP(3, 0)).toBe(0);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 200 }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (a, p) => {
          expect(gammaP(a, gammaPInverse(a, p))).toBeCloseTo(p, 9);
        },
      ),
    );
  });

  test("attack and incidence need somebody at risk", () => {
    expect(attackRatePercent(3, 12)).toBe(25);
    expect(incidenceRate(2, 400)).toBe(0.005);
    expect(isOutside(attackRatePercent(0, 0))).toBe(true);
    expect(isOutside(incidenceRate(0, 0))).toBe(true);
  });
});

describe("survival of a brood", () => {
  test("with nobody sold before it died, it is the share alive", () => {
    const days = [1, 1, 2, 5, 8, 9, 9, 12];
    const all = days.map(() => true);
    for (const at of [0, 1, 4, 9, 12]) {
      const alive = days.filter((day) => day > at).length / days.length;
      expect(kaplanMeier(days, all, at).survival).toBeCloseTo(alive, 12);
      expect(kaplanMeier(days, all, at).standardError).toBeCloseTo(
        Math.sqrt((alive * (1 - alive)) / days.length),
        12,
      );
    }
  });

  test("one sold at a time was at risk at it", () => {
    expect(kaplanMeier([3, 3, 5], [true, false, true], 3).survival).toBeCloseTo(2 / 3, 12);
    expect(kaplanMeier([3, 3, 5], [true, false, true], 5)).toMatchObject({ survival: 0 });
  });
});

describe("control charts", () => {
  test("an average of one weight is the values themselves; its limits begin narrow and widen", () => {
    expect(ewma([3, 5, 4], 1, 9)).toEqual([3, 5, 4]);
    expect(ewma([3, 3, 3], 0.25, 3)).toEqual([3, 3, 3]);
    const early = ewmaLimits(50, 2, 0.3, 3, 1);
    const late = ewmaLimits(50, 2, 0.3);
    expect(early.high).toBeCloseTo(50 + 3 * 2 * 0.3, 10);
    expect(late.high).toBeGreaterThan(early.high);
    expect(late.low + late.high).toBeCloseTo(100, 12);
  });

  test("individuals", () => {
    expect(meanMovingRange([3, 5, 4])).toBe(1.5);
    const { low, high } = individualsLimits(4, 1.5);
    expect(high - 4).toBeCloseTo((3 * 1.5) / 1.128, 12);
    expect(low + high).toBeCloseTo(8, 12);
  });
});

describe("development, growth, feed", () => {
  test("warmer is sooner, in the range it was measured", () => {
    expect(zebrafishHours(48, 28.5)).toBeCloseTo(48 / 0.9975, 10);
    expect(zebrafishHours(48, 31)).toBeLessThan(zebrafishHours(48, 26) as number);
    expect(isOutside(zebrafishHours(48, 24))).toBe(true);
  });

  test("degree-days: a day below the base counts nothing", () => {
    expect(degreeDays([12, 8, 15], 10)).toBe(7);
    expect(daysToDegreeDays(310, 10)).toBe(31);
    expect(isOutside(daysToDegreeDays(310, 10, 10))).toBe(true);
  });

  test("weights and rations", () => {
    expect(weightG(100, 1e-5)).toBeCloseTo(10, 10);
    expect(rationKg(4, 2.5)).toBe(0.1);
    expect(ammoniaFromFeedGN(100, 0.5)).toBeCloseTo(4.6, 12);
    expect(conditionEnglish(1)).toBeCloseTo(36.127, 3);
    expect(flowIndexAtOxygen(1.5, 11, 11, 5)).toBe(1.5);
  });
});

describe("transport", () => {
  test("warmer water carries less, until the rule has nothing to say", () => {
    expect(catfishLoadLbPerGal(16, 75)).toBe(3);
    expect(catfishLoadLbPerGal(16, 55)).toBe(5);
    expect(isOutside(catfishLoadLbPerGal(8, 65))).toBe(true);
    expect(isOutside(catfishLoadLbPerGal(16, 95))).toBe(true);
    expect(isOutside(loadAtTemperature(1000, 52, 80, 5.56))).toBe(true);
  });
});

describe("published thresholds", () => {
  test("each stands once, with its source; what was only remembered says so", () => {
    const keys = THRESHOLDS.map((each) => `${each.group ?? ""} ${each.parameter}`);
    expect(new Set(keys).size).toBe(keys.length);
    for (const each of THRESHOLDS) expect(each.source).not.toBe("");
    expect(threshold("nitrite_max", "coldwater")).toMatchObject({ value: 0.2, recalled: true });
    expect(threshold("nitrite_max")).toBeUndefined();
  });
});
