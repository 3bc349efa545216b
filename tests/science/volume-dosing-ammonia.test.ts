import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ammoniumPKa,
  freeAmmoniaMgLN,
  totalForFreeMgLN,
  unionisedFraction,
} from "../../language/science/ammonia.ts";
import {
  afterRepeats,
  concentrationFromStockMgL,
  concentrationMgL,
  copperSulfateCeilingMgL,
  liquidForMassML,
  liquidML,
  productMg,
  redoseMg,
  shareLeftAtRepeat,
  stockMassMg,
  stockML,
} from "../../language/science/dosing.ts";
import { beyond, isOutside, map, outside } from "../../language/science/result.ts";
import {
  bowFrontL,
  cylinderL,
  netVolumeL,
  polygonL,
  rectangleL,
  trapezoidL,
  waterHeightCm,
} from "../../language/science/volume.ts";

const length = fc.double({ min: 5, max: 300, noNaN: true });

describe("the volume of a tank", () => {
  test("a show tank of 150 x 55 cm filled to 46 cm, with 38 L of sand and wood", () => {
    expect(rectangleL(150, 55, 46)).toBeCloseTo(379.5, 10);
    expect(netVolumeL(379.5, 38)).toBeCloseTo(341.5, 10);
    expect(isOutside(netVolumeL(30, 38))).toBe(true);
  });

  test("the water stands as high as its volume says", () => {
    fc.assert(
      fc.property(length, length, length, (l, w, h) => {
        expect(waterHeightCm(rectangleL(l, w, h), l, w)).toBeCloseTo(h, 8);
      }),
    );
  });

  test("a polygon of very many sides is a cylinder, of four a square", () => {
    const side = 2 * 20 * Math.sin(Math.PI / 10_000);
    expect(polygonL(10_000, side, 50)).toBeCloseTo(cylinderL(40, 50), 4);
    expect(polygonL(4, 30, 40)).toBeCloseTo(rectangleL(30, 30, 40), 10);
  });

  test("a trapezoid of equal sides is a rectangle", () => {
    expect(trapezoidL(60, 60, 30, 36)).toBe(rectangleL(60, 30, 36));
  });

  test("a bow front lies between the rectangles of its side and its middle", () => {
    fc.assert(
      fc.property(length, length, fc.double({ min: 0, max: 0.499, noNaN: true }), length, (l, w, bow, h) => {
        const litres = bowFrontL(l, w, w + bow * l, h) as number;
        expect(litres).toBeGreaterThanOrEqual(rectangleL(l, w, h) * (1 - 1e-9));
        expect(litres).toBeLessThanOrEqual(rectangleL(l, w + bow * l, h) * (1 + 1e-9));
      }),
    );
  });

  test("a bow of half the length is a half circle, a flat one nothing, a deeper one no bow", () => {
    expect(bowFrontL(60, 30, 60, 40)).toBeCloseTo(rectangleL(60, 30, 40) + cylinderL(60, 40) / 2, 9);
    expect(bowFrontL(60, 30, 30, 40)).toBe(rectangleL(60, 30, 40));
    expect(isOutside(bowFrontL(60, 30, 61, 40))).toBe(true);
    expect(isOutside(bowFrontL(60, 30, 29, 40))).toBe(true);
  });
});

describe("a dose", () => {
  test("what is weighed makes what was wanted", () => {
    const positive = fc.double({ min: 0.01, max: 500, noNaN: true });
    const share = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(positive, positive, share, (target, volume, active) => {
        const weighed = productMg(target, volume, active) as number;
        expect(concentrationMgL(weighed, volume, active) / target).toBeCloseTo(1, 10);
        expect(concentrationFromStockMgL(stockML(target, volume, 10), volume, 10) / target).toBeCloseTo(
          1,
          10,
        );
      }),
    );
  });

  test("a product of no active part doses nothing, and says so", () => {
    expect(isOutside(productMg(2, 100, 0))).toBe(true);
    expect(isOutside(productMg(2, 100, 25))).toBe(true);
  });

  test("a change owed before the repeat takes its share with it", () => {
    expect(redoseMg(2, 0.25, 100)).toBe(50);
  });

  test("repeats pile up by what is left of each", () => {
    const left = shareLeftAtRepeat(7, 3, 0.3);
    let level = 0;
    for (let i = 0; i < 5; i++) level = level * left + 2;
    expect(afterRepeats(2, 5, left)).toBeCloseTo(level, 12);
    expect(afterRepeats(2, 3, 1)).toBe(6);
    expect(shareLeftAtRepeat(7, Infinity, 0)).toBe(1);
  });

  test("a liquid by volume is not a liquid by mass", () => {
    expect(liquidML(25, 100)).toBe(2.5);
    expect(liquidForMassML(25, 100, 1.08)).toBeCloseTo(2.5 / 1.08, 12);
    expect(stockMassMg(10, 500)).toBe(5000);
  });

  test("copper sulfate has no ceiling to state in soft water", () => {
    expect(copperSulfateCeilingMgL(150)).toBe(1.5);
    expect(copperSulfateCeilingMgL(50)).toBe(0.5);
    expect(isOutside(copperSulfateCeilingMgL(49.9))).toBe(true);
  });
});

describe("un-ionised ammonia", () => {
  test("half of it at the pKa, more with pH and with warmth", () => {
    expect(unionisedFraction(ammoniumPKa(25) as number, 25)).toBeCloseTo(0.5, 12);
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 45, noNaN: true }),
        (pH, temperatureC) => {
          const here = unionisedFraction(pH, temperatureC) as number;
          expect(unionisedFraction(pH + 0.1, temperatureC)).toBeGreaterThan(here);
          expect(unionisedFraction(pH, temperatureC + 1)).toBeGreaterThan(here);
          const total = totalForFreeMgLN(0.02, pH, temperatureC) as number;
          expect(freeAmmoniaMgLN(total, pH, temperatureC)).toBeCloseTo(0.02, 12);
        },
      ),
    );
  });

  test("gives no figure outside what was measured", () => {
    expect(unionisedFraction(8, 25, 1), "a little salt is dilute still").toBe(unionisedFraction(8, 25));
    for (const answer of [
      unionisedFraction(8, -1),
      unionisedFraction(8, 51),
      unionisedFraction(72, 25),
      unionisedFraction(Number.NaN, 25),
      unionisedFraction(8, 25, 35),
    ]) {
      expect(isOutside(answer)).toBe(true);
    }
  });
});

describe("an answer", () => {
  test("is a figure or a reason, and the reason reads", () => {
    expect(beyond("pH", 72, 0, 14)).toEqual({ outside: "pH 72 is not within 0 to 14" });
    expect(beyond("temperature", 25, 0, 50, "C")).toBeUndefined();
    expect(map(outside("no"), (x) => x + 1)).toEqual({ outside: "no" });
    expect(map(2, (x) => x + 1)).toBe(3);
    expect(isOutside(null)).toBe(false);
  });
});
