import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { hardnessMgLCaCO3, MEQ_PER_DEGREE } from "../../language/science/hardness.ts";
import { isOutside } from "../../language/science/result.ts";
import {
  ionFraction,
  saltGramsToRaise,
  saltMgLPerDGH,
  saltOf,
  speciesMgL,
} from "../../language/science/salts.ts";
import {
  PART_KEYS,
  saltParts,
  unstated,
  type Water,
  type WaterFigures,
  waterFigures,
  waterProblem,
  withSalts,
} from "../../language/science/water.ts";

/** Every salt a recipe may use, in the forms it is sold in. */
const RECIPE_SALTS = [
  "NaHCO3",
  "KHCO3",
  "Na2CO3",
  "K2CO3",
  "CaCO3",
  "MgCO3",
  "CaMg(CO3)2",
  "CaCl2",
  "CaCl2.2H2O",
  "CaCl2.6H2O",
  "CaSO4",
  "2CaSO4.H2O",
  "CaSO4.2H2O",
  "MgSO4",
  "MgSO4.7H2O",
  "MgCl2.6H2O",
  "Ca(NO3)2.4H2O",
  "Mg(NO3)2.6H2O",
  "KNO3",
  "KH2PO4",
  "K2HPO4",
  "NH4NO3",
  "NH4H2PO4",
  "KCl",
  "K2SO4",
  "NaCl",
  "Na2SO4",
];

function figuresOf(water: Water): WaterFigures {
  const figures = waterFigures(water);
  if (isOutside(figures)) throw new Error(figures.outside);
  return figures;
}

/** From a milligram up, which is what a balance tells. */
const gramsOfSome = fc.dictionary(
  fc.constantFrom(...RECIPE_SALTS),
  fc.double({ min: 0.001, max: 50, noNaN: true }),
);

describe("what a salt brings", () => {
  test("the hemihydrate holds two of calcium sulfate and one of water between them", () => {
    // 145.15 g per mole of calcium, against 136.14 of the anhydrous and 172.17 of gypsum (CRC Handbook, recalled).
    const hemi = saltOf("2CaSO4.H2O");
    if (isOutside(hemi)) throw new Error(hemi.outside);
    expect(hemi.gPerMol / 2).toBeCloseTo(145.15, 1);
    expect(hemi.ions).toEqual({ Ca: 2, SO4: 2 });
    const perDegree = saltMgLPerDGH("2CaSO4.H2O") as number;
    expect(perDegree).toBeGreaterThan(saltMgLPerDGH("CaSO4") as number);
    expect(perDegree).toBeLessThan(saltMgLPerDGH("CaSO4.2H2O") as number);
    expect(ionFraction("2CaSO4.H2O", "Ca")).toBeCloseTo(40.078 / 145.145, 4);
  });

  test("calcium nitrate tetrahydrate is 17 % calcium and 11.9 % nitrogen", () => {
    expect(ionFraction("Ca(NO3)2.4H2O", "Ca")).toBeCloseTo(0.1697, 4);
    expect(ionFraction("Ca(NO3)2.4H2O", "N")).toBeCloseTo(0.1186, 4);
    expect(ionFraction("Ca(NO3)2.4H2O", "NO3")).toBeCloseTo(0.5251, 4);
    expect(ionFraction("CO(NH2)2", "N")).toBeCloseTo(0.4665, 4);
  });

  test("no salt charges the water: cations and anions of each are even", () => {
    for (const formula of RECIPE_SALTS) {
      const water = withSalts({}, { [formula]: 10 }, 100);
      if (isOutside(water)) throw new Error(water.outside);
      expect(figuresOf(water).balancePercent, formula).toBeCloseTo(0, 9);
    }
  });

  test("a salt that is not known, or brings what a water does not hold, gives a reason", () => {
    for (const formula of ["FeSO4.7H2O", "NaF", "toString", "", "2", "CaCl2.2X"]) {
      expect(isOutside(saltParts(formula)), formula).toBe(true);
    }
    expect(isOutside(saltOf("constructor"))).toBe(true);
    expect(isOutside(saltGramsToRaise("KCl", 100, 1, "GH"))).toBe(true);
  });
});

describe("a water by its ions", () => {
  test("the reconstituted water of toxicity tests has the hardness and alkalinity that are published", () => {
    // Per litre NaHCO3 96, CaSO4.2H2O 60, MgSO4 60, KCl 4 mg (EPA 1985, seen in a list of media by an institute for
    // environmental studies); hardness 80 to 100 and alkalinity 57 to 64 mg/L as CaCO3 (EPA, recalled).
    const water = withSalts({}, { NaHCO3: 9.6, "CaSO4.2H2O": 6, MgSO4: 6, KCl: 0.4 }, 100);
    if (isOutside(water)) throw new Error(water.outside);
    const hardness = hardnessMgLCaCO3(water.calciumMgL!, water.magnesiumMgL!);
    expect(hardness).toBeGreaterThanOrEqual(80);
    expect(hardness).toBeLessThanOrEqual(100);
    const alkalinity = water.alkalinityMeqL! * 50.043;
    expect(alkalinity).toBeGreaterThanOrEqual(57);
    expect(alkalinity).toBeLessThanOrEqual(64);
    const figures = figuresOf(water);
    expect(figures.hardnessDGH * MEQ_PER_DEGREE).toBeCloseTo(figures.hardnessMeqL, 12);
    // Nothing is lost but the waters of the gypsum: 220 mg weighed, 60 * 36.03/172.17 of them crystal water.
    expect(figures.dissolvedMgL).toBeCloseTo(220 - (60 * 36.03) / 172.17, 1);
  });

  test("the ratio is said both ways: 3 to 1 by mass is 1.82 atoms of calcium to one of magnesium", () => {
    const figures = figuresOf({ calciumMgL: 30, magnesiumMgL: 10 });
    expect(figures.calciumToMagnesiumByMass).toBe(3);
    expect(figures.calciumToMagnesiumByMole).toBeCloseTo(30 / 40.078 / (10 / 24.305), 12);
    expect(isOutside(figuresOf({ calciumMgL: 30 }).calciumToMagnesiumByMass)).toBe(true);
    expect(isOutside(figuresOf({}).balancePercent)).toBe(true);
  });

  test("an analysis with its chloride left out shows it", () => {
    const whole = { calciumMgL: 40.078, chlorideMgL: 35.45, alkalinityMeqL: 1 };
    expect(figuresOf(whole).balancePercent).toBeCloseTo(0, 9);
    expect(figuresOf({ calciumMgL: 40.078, alkalinityMeqL: 1 }).balancePercent).toBeCloseTo(100 / 3, 9);
    expect(unstated(whole)).not.toContain("chlorideMgL");
    expect(unstated(whole)).toContain("sulfateMgL");
  });

  test("salts add up in any order, and twice the volume is half of each", () => {
    fc.assert(
      fc.property(gramsOfSome, fc.double({ min: 1, max: 1000, noNaN: true }), (grams, volumeL) => {
        const all = withSalts({}, grams, volumeL) as Water;
        let one: Water = {};
        for (const [formula, mass] of Object.entries(grams).reverse()) {
          one = withSalts(one, { [formula]: mass }, volumeL) as Water;
        }
        const thin = withSalts({}, grams, 2 * volumeL) as Water;
        for (const part of PART_KEYS) {
          expect(one[part] ?? 0).toBeCloseTo(all[part] ?? 0, 6);
          expect(2 * (thin[part] ?? 0)).toBeCloseTo(all[part] ?? 0, 6);
        }
        const balance = figuresOf(all).balancePercent;
        if (!isOutside(balance)) expect(balance).toBeCloseTo(0, 6);
      }),
    );
  });

  test("gives a reason that names what cannot be", () => {
    expect(waterProblem({ calciumMgL: -1 })?.outside).toContain("calcium");
    expect(waterProblem({ sulfateMgL: Number.NaN })?.outside).toContain("sulfate");
    expect(waterProblem({ temperatureC: 140 })?.outside).toContain("temperature");
    expect(isOutside(waterFigures({ alkalinityMeqL: -0.1 }))).toBe(true);
    expect(isOutside(withSalts({}, { KCl: 1 }, 0))).toBe(true);
    expect(isOutside(withSalts({}, { KCl: -1 }, 10))).toBe(true);
    expect(isOutside(withSalts({}, { KCl: Infinity }, 10))).toBe(true);
    expect(isOutside(withSalts({}, { NaBr: 1 }, 10))).toBe(true);
    expect(saltGramsToRaise("NaHCO3", 100, -3, "KH")).toEqual({
      outside: "rise -3 dKH is not a figure of 0 or more",
    });
    expect(isOutside(saltGramsToRaise("NaHCO3", 0, 3, "KH"))).toBe(true);
    expect(isOutside(speciesMgL(Number.NaN, "N", "NO3"))).toBe(true);
  });
});
