import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  conductivity25MSPerCm,
  conductivityFromSolidsUSPerCm,
  dissolvedSolidsMgL,
  linearAt25,
  linearFrom25,
  naturalAt25USPerCm,
  naturalFactor,
  salinityFrom25,
} from "../../language/science/conductivity.ts";
import { isOutside } from "../../language/science/result.ts";
import {
  conductivityMSPerCm,
  ratioFromSalinity,
  salinityFromConductivity,
  salinityFromGravity,
  salinityFromRatio,
  specificGravity,
  t68FromC,
} from "../../language/science/seawater.ts";

const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/**
 * Sea salt by its ions, mmol per kg of salinity 35 (Dickson, Sabine & Christian 2007, recalled), charge, and
 * limiting equivalent conductivity at 25 C in S cm2/mol (CRC Handbook of Chemistry and Physics, recalled).
 */
const SEA_SALT = [
  { mmol: 468.96, charge: 1, limit: 50.1 },
  { mmol: 52.82, charge: 2, limit: 53.0 },
  { mmol: 10.28, charge: 2, limit: 59.5 },
  { mmol: 10.21, charge: 1, limit: 73.5 },
  { mmol: 545.87, charge: 1, limit: 76.3 },
  { mmol: 28.24, charge: 2, limit: 80.0 },
  { mmol: 2.2, charge: 1, limit: 44.5 },
  { mmol: 0.84, charge: 1, limit: 78.1 },
];

/** Very dilute sea salt by Kohlrausch and the limiting law of Onsager, uS/cm at 25 C. */
function byIons(salinity: number): number {
  const litre = 0.997 * (salinity / 35);
  let equivalents = 0;
  let limiting = 0;
  let strength = 0;
  for (const { mmol, charge, limit } of SEA_SALT) {
    equivalents += (mmol * charge * litre) / 2;
    limiting += mmol * charge * litre * limit;
    strength += (mmol * charge ** 2 * litre) / 2;
  }
  const equivalent = limiting / equivalents;
  return equivalents * (equivalent - (60.2 + 0.229 * equivalent) * Math.sqrt(strength / 1000));
}

describe("salinity below 2", () => {
  test("very dilute sea salt conducts as its ions do", () => {
    for (const salinity of [0.05, 0.1, 0.2, 0.5, 1]) {
      const measured = (conductivity25MSPerCm(salinity) as number) * 1000;
      // 1.1 %: limiting conductivities to three figures, ions of two charges by a law of single ones.
      expect(measured / byIons(salinity)).toBeGreaterThan(0.989);
      expect(measured / byIons(salinity)).toBeLessThan(1.011);
    }
  });

  test("the scale has no step at 2", () => {
    for (const c of [0, 10, 15, 25, 35]) {
      const [below, above] = [
        ratioFromSalinity(1.999999, c) as number,
        ratioFromSalinity(2.000001, c) as number,
      ];
      // The terms of the extension at 2 are 1e-5 in salinity, 5e-6 of the ratio.
      expect(Math.abs(above / below - 1)).toBeLessThan(1.2e-5);
    }
  });

  test("purer water than the extension holds for, such as from reverse osmosis, gets a reason", () => {
    expect(isOutside(salinityFrom25(0.02))).toBe(true);
    expect(isOutside(conductivity25MSPerCm(0.02))).toBe(true);
  });

  test("salinity and conductivity undo each other from nothing to sea water", () => {
    fc.assert(
      fc.property(double(0.051, 41.9), double(0, 34), (salinity, c) => {
        expect(salinityFromConductivity(conductivityMSPerCm(salinity, c) as number, c)).toBeCloseTo(
          salinity,
          4,
        );
        expect(salinityFrom25(conductivity25MSPerCm(salinity) as number)).toBeCloseTo(salinity, 4);
      }),
    );
  });

  test("more salt and more warmth conduct better", () => {
    fc.assert(
      fc.property(double(0.05, 41), double(0, 34), (salinity, c) => {
        const here = conductivityMSPerCm(salinity, c) as number;
        expect(conductivityMSPerCm(salinity + 0.5, c)).toBeGreaterThan(here);
        expect(conductivityMSPerCm(salinity, c + 1)).toBeGreaterThanOrEqual(here);
      }),
    );
  });

  test("as reference libraries document: 34.5487 mS/cm at 28.7856 C and 10 dbar is salinity 20.00987", () => {
    expect(salinityFromRatio(0.6990725, 10)).toBeCloseTo(26.8609, 4);
    expect(salinityFromRatio(0.6990725, 10, 1000)).toBeCloseTo(26.5072, 4);
    expect(salinityFromRatio(34.5487 / 42.914, t68FromC(28.7856), 10)).toBeCloseTo(20.009869599086951, 9);
    expect(salinityFromRatio(38 / 42.914, t68FromC(10), 100)).toBeCloseTo(34.8618423333713, 9);
  });

  test("figures that cannot be give a reason", () => {
    for (const refused of [
      salinityFrom25(-1),
      salinityFrom25(Number.NaN),
      salinityFrom25(80),
      conductivity25MSPerCm(43),
      conductivity25MSPerCm(-0.1),
      salinityFromRatio(0.5, 36),
    ]) {
      expect(isOutside(refused)).toBe(true);
    }
  });
});

describe("conductivity at 25 C", () => {
  test("between whole degrees as the tenths of the printed table of ISO 7888", () => {
    const printed: readonly (readonly [number, number])[] = [
      [0.1, 1.912],
      [0.5, 1.887],
      [3.3, 1.729],
      [9.4, 1.451],
      [15.3, 1.246],
      [20.2, 1.111],
      [24.1, 1.019],
      [30.3, 0.898],
      [35, 0.822],
    ];
    // The print is rounded to 0.001 at both ends and here.
    for (const [c, factor] of printed)
      expect(Math.abs((naturalFactor(c) as number) - factor)).toBeLessThan(0.0016);
  });

  test("tap water that reads 410 uS/cm at 12 C has 555 at 25", () => {
    expect(naturalAt25USPerCm(410, 12)).toBeCloseTo(410 * 1.354, 9);
    expect(isOutside(naturalAt25USPerCm(20, 12))).toBe(true);
    expect(isOutside(naturalAt25USPerCm(2000, 12))).toBe(true);
    expect(isOutside(naturalAt25USPerCm(410, 36))).toBe(true);
  });

  test("linear and natural agree near 25 C, at 1.9 to 2.2 %/C, and part in the cold", () => {
    const natural = (c: number) => naturalAt25USPerCm(500, c) as number;
    expect(natural(22) / (linearAt25(500, 22, 2.1) as number)).toBeCloseTo(1, 2);
    expect(natural(2) / (linearAt25(500, 2, 2.1) as number)).toBeLessThan(0.95);
  });

  test("the 1413 uS/cm standard by its printed temperatures, 1.94 %/C from 15 to 30 C", () => {
    // Potassium chloride 0.01 mol/L, as an instrument's manual prints it with its coefficient.
    for (const [c, measured] of [
      [15, 1147],
      [20, 1278],
      [30, 1552],
    ] as const) {
      expect(Math.abs((linearAt25(measured, c, 1.94) as number) - 1413)).toBeLessThan(12);
    }
  });

  test("linear undoes itself and keeps 25 C", () => {
    fc.assert(
      fc.property(double(0, 60_000), double(0, 50), double(1, 3), (at25, c, percent) => {
        expect(linearAt25(linearFrom25(at25, c, percent) as number, c, percent)).toBeCloseTo(at25, 6);
        expect(linearAt25(at25, 25, percent)).toBe(at25);
      }),
    );
    expect(isOutside(linearAt25(500, 20, 19))).toBe(true);
    expect(isOutside(linearAt25(-1, 20, 2))).toBe(true);
  });

  test("a meter for dissolved solids that shows 250 with its factor of 0.5 has read 500 uS/cm", () => {
    expect(conductivityFromSolidsUSPerCm(250, 0.5)).toBe(500);
    expect(dissolvedSolidsMgL(500, 0.7)).toBeCloseTo(350, 12);
    expect(isOutside(dissolvedSolidsMgL(500, 0))).toBe(true);
    expect(isOutside(conductivityFromSolidsUSPerCm(-5, 0.5))).toBe(true);
  });
});

test("specific gravity has no figure against a temperature at which no water density was fitted", () => {
  for (const reference of [-3, 41, 500, Number.NaN]) {
    expect(isOutside(specificGravity(35, 25, reference))).toBe(true);
    expect(isOutside(salinityFromGravity(1.026, 25, reference))).toBe(true);
  }
  expect(salinityFromGravity(specificGravity(35, 25, 4) as number, 25, 4)).toBeCloseTo(35, 6);
});
