import { describe, expect, test } from "vitest";
import {
  daysToDegreeDays,
  degreeDays,
  ZEBRAFISH_STAGES,
  zebrafishHours,
} from "../../language/science/development.ts";
import {
  ammoniaFromFeedGN,
  conditionEnglish,
  flowIndexAtOxygen,
  rationKg,
  weightG,
} from "../../language/science/feeding.ts";
import { isOutside } from "../../language/science/result.ts";
import { THRESHOLDS, threshold } from "../../language/science/thresholds.ts";
import { catfishLoadLbPerGal, loadAtTemperature } from "../../language/science/transport.ts";

describe("development, growth, feed", () => {
  test("warmer is sooner, in the range it was measured", () => {
    expect(zebrafishHours(48, 28.5)).toBeCloseTo(48 / 0.9975, 10);
    expect(zebrafishHours(48, 31)).toBeLessThan(zebrafishHours(48, 26) as number);
    expect(isOutside(zebrafishHours(48, 24))).toBe(true);
  });

  test("stages come one after the other, and long-pec is the second day", () => {
    const hours = Object.values(ZEBRAFISH_STAGES);
    expect(hours.toSorted((a, b) => a - b)).toEqual(hours);
    // The periods of the source: segmentation 10 to 24 h, pharyngula 24 to 48 h, hatching 48 to 72 h.
    expect([ZEBRAFISH_STAGES.bud, ZEBRAFISH_STAGES["prim-5"]]).toEqual([10, 24]);
    expect([ZEBRAFISH_STAGES["long-pec"], ZEBRAFISH_STAGES["protruding-mouth"]]).toEqual([48, 72]);
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

  test("a load, a temperature or a rule that cannot be gives a reason that names it", () => {
    expect(loadAtTemperature(-1, 52, 57, 5.56)).toMatchObject({ outside: expect.stringContaining("load") });
    for (const wrong of [Number.NaN, 20, 200])
      expect(loadAtTemperature(1000, 52, wrong, 5.56)).toMatchObject({
        outside: expect.stringContaining("temperature"),
      });
    expect(isOutside(loadAtTemperature(1000, Number.NaN, 57, 5.56))).toBe(true);
    expect(isOutside(loadAtTemperature(1000, 52, 57, -5))).toBe(true);
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
