import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ammoniumPKa,
  freeAmmoniaMgLN,
  totalForFreeMgLN,
  unionisedFraction,
} from "../../language/science/ammonia.ts";
import { changesToFreeLimit, changeToFreeLimit } from "../../language/science/ammonia-change.ts";
import {
  afterEndlessRepeats,
  afterRepeats,
  chlorideForNitriteMgL,
  concentrationFromStockMgL,
  concentrationMgL,
  copperSulfateCeilingMgL,
  diluted,
  formalinOxygenMgL,
  gPerLFromPercentWV,
  liquidForMassML,
  liquidML,
  productMg,
  redoseMg,
  saltForChloride,
  shareLeftAtRepeat,
  stockMassMg,
  stockML,
  strengthForMgPerML,
} from "../../language/science/dosing.ts";
import { type Drop, dropByMark, dropByMass } from "../../language/science/drop.ts";
import { beyond, isOutside, map, type Outside, outside } from "../../language/science/result.ts";
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
        const made = concentrationMgL(weighed, volume, active) as number;
        expect(made / target).toBeCloseTo(1, 10);
        const poured = stockML(target, volume, 10) as number;
        const fromStock = concentrationFromStockMgL(poured, volume, 10) as number;
        expect(fromStock / target).toBeCloseTo(1, 10);
        expect(strengthForMgPerML(target, volume, poured)).toBeCloseTo(10, 8);
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
    const left = shareLeftAtRepeat(7, 3, 0.3) as number;
    let level = 0;
    for (let i = 0; i < 5; i++) level = level * left + 2;
    expect(afterRepeats(2, 5, left)).toBeCloseTo(level, 12);
    expect(afterRepeats(2, 3, 1)).toBe(6);
    expect(shareLeftAtRepeat(7, Infinity, 0)).toBe(1);
    expect(afterEndlessRepeats(2, left)).toBeCloseTo(afterRepeats(2, 400, left) as number, 12);
    expect(isOutside(afterEndlessRepeats(2, 1)), "nothing is gone").toBe(true);
  });

  test("that cannot be gives a reason that names what is wrong", () => {
    const reasons: Record<string, unknown> = {
      dose: productMg(-1, 100),
      volume: stockML(2, 0, 10),
      strength: stockML(2, 100, 0),
      stock: concentrationFromStockMgL(Number.NaN, 100, 10),
      product: concentrationMgL(-5, 100),
      active: concentrationMgL(5, 100, 0),
      density: liquidForMassML(25, 100, 0),
      "uL/L": liquidML(-25, 100),
      "share of the water": redoseMg(2, 1.2, 100),
      "not whole": afterRepeats(2, 2.5, 0.5),
      "half-life": shareLeftAtRepeat(7, 0, 0),
      time: shareLeftAtRepeat(-7, 3, 0),
      chloride: saltForChloride(Number.POSITIVE_INFINITY),
      ratio: chlorideForNitriteMgL(1, 0),
      nitrite: chlorideForNitriteMgL(Number.NaN),
      formalin: formalinOxygenMgL(-1),
      "per cent": gPerLFromPercentWV(-1),
      taken: diluted(10, 2, 1),
      "copper sulfate": copperSulfateCeilingMgL(Number.NaN),
      alkalinity: copperSulfateCeilingMgL(Number.POSITIVE_INFINITY),
      "one dose": strengthForMgPerML(2, 100, 0),
    };
    for (const [named, reason] of Object.entries(reasons)) {
      expect(isOutside(reason), named).toBe(true);
      expect((reason as Outside).outside).toContain(named);
    }
  });

  test("by drops: the mark lies between the last one and the one before", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.1, noNaN: true }),
        fc.double({ min: 0.5, max: 10, noNaN: true }),
        (dropML, markML) => {
          const counted = Math.ceil(markML / dropML);
          const found = dropByMark(counted, markML) as Drop;
          expect(found.leastML).toBeLessThanOrEqual(dropML * (1 + 1e-12));
          expect(found.mostML).toBeGreaterThanOrEqual(dropML * (1 - 1e-12));
          expect(found.mL).toBeGreaterThan(found.leastML);
          expect(found.mL).toBeLessThan(found.mostML);
        },
      ),
    );
    expect(isOutside(dropByMark(1, 1))).toBe(true);
  });

  test("by drops weighed: the true mass is within half a step of the scale", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.1, noNaN: true }),
        fc.integer({ min: 5, max: 100 }),
        fc.constantFrom(0.01, 0.1),
        (dropML, count, stepG) => {
          const shown = Math.round((dropML * count * 0.998) / stepG) * stepG;
          fc.pre(shown > 0);
          const found = dropByMass(count, shown, stepG, 0.998) as Drop;
          expect(found.leastML).toBeLessThanOrEqual(dropML + 1e-12);
          expect(found.mostML).toBeGreaterThanOrEqual(dropML - 1e-12);
        },
      ),
    );
    expect(isOutside(dropByMass(0, 1, 0.1, 1))).toBe(true);
    expect(isOutside(dropByMass(20, 1, 0.1, 0))).toBe(true);
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

describe("a change against free ammonia", () => {
  const tank = { totalMgLN: 2, pH: 8.5, temperatureC: 25, salinityGPerKg: 0 };
  const limit = 0.0165;

  test("is of no use where the new water stands above the limit, below the tank or above it", () => {
    for (const source of [0.2, 1, 2, 2.5, 50]) {
      for (const answer of [
        changeToFreeLimit(tank, limit, source),
        changesToFreeLimit(tank, limit, 0.3, source),
      ]) {
        expect((answer as Outside).outside).toContain(`the new water itself holds ${source} mg/L N`);
      }
    }
    const quiet = { ...tank, totalMgLN: 0.01 };
    expect(changeToFreeLimit(quiet, limit, 50), "it is there already").toBe(0);
  });

  test("in parts never quite reaches what the new water holds, but all of it at once does", () => {
    expect(isOutside(changesToFreeLimit(tank, 0, 0.3))).toBe(true);
    expect(changesToFreeLimit(tank, 0, 1)).toBe(1);
    expect(changeToFreeLimit(tank, 0)).toBe(1);
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
