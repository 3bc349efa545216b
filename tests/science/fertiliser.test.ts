import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { molarMass } from "../../language/science/elements.ts";
import {
  additionForMgL,
  type Brought,
  broughtMgL,
  broughtTogether,
  type Dose,
  gramsFor,
  levelsOff,
  periodsUntil,
} from "../../language/science/fertiliser.ts";
import { recipe } from "../../language/science/recipe.ts";
import { isOutside } from "../../language/science/result.ts";

/** Grams of so many mmol of a salt. */
const mmol = (formula: string, amount: number) => ((molarMass(formula) as number) * amount) / 1000;

function together(doses: readonly Dose[], volumeL: number): Brought {
  const found = broughtTogether(doses, volumeL);
  if (isOutside(found)) throw new Error(found.outside);
  return found;
}

/**
 * The solution of Hoagland & Arnon (1950, Calif. Agric. Exp. Sta. Circ. 347) for a litre: 5 mmol KNO3, 5 Ca(NO3)2,
 * 1 KH2PO4, 2 MgSO4 (seen in a laboratory's recipe); its elements in mg/L as encyclopaedias list them (seen).
 */
const HOAGLAND: readonly Dose[] = [
  { formula: "KNO3", grams: mmol("KNO3", 5) },
  { formula: "Ca(NO3)2.4H2O", grams: mmol("Ca(NO3)2.4H2O", 5) },
  { formula: "KH2PO4", grams: mmol("KH2PO4", 1) },
  { formula: "MgSO4.7H2O", grams: mmol("MgSO4.7H2O", 2) },
];
const HOAGLAND_MG_L = { N: 210, K: 235, Ca: 200, P: 31, S: 64, Mg: 48.6 };

describe("what a dose brings", () => {
  test("Hoagland's solution has the elements that are published for it", () => {
    const { elementsMgL, nitrateMgLN, ammoniumMgLN } = together(HOAGLAND, 1);
    for (const [element, mgL] of Object.entries(HOAGLAND_MG_L)) {
      // The list is rounded to the mg.
      expect(Math.abs(elementsMgL[element]! - mgL), element).toBeLessThanOrEqual(0.5);
    }
    expect(nitrateMgLN).toBeCloseTo(elementsMgL.N!, 9);
    expect(ammoniumMgLN).toBe(0);
    expect(Object.keys(elementsMgL).sort()).toEqual(["Ca", "K", "Mg", "N", "P", "S"]);
  });

  test("and its salts are found from the ions wanted", () => {
    const found = recipe({
      waters: [{}],
      salts: ["KNO3", "Ca(NO3)2.4H2O", "KH2PO4", "MgSO4.7H2O"],
      targets: {
        nitrateMgL: 15 * 62.004,
        potassiumMgL: 6 * 39.0983,
        phosphateMgL: 94.97,
        magnesiumMgL: 2 * 24.305,
      },
      volumeL: 1,
    });
    if (isOutside(found)) throw new Error(found.outside);
    for (const dose of HOAGLAND) {
      if (!("formula" in dose)) continue;
      const salt = found.salts.find(({ formula }) => formula === dose.formula)!;
      expect(salt.grams / dose.grams, dose.formula).toBeCloseTo(1, 3);
    }
  });

  test("a gram of potassium nitrate in 100 L: 6.13 mg/L nitrate, 3.87 potassium, 1.39 of it nitrogen", () => {
    expect(broughtMgL("KNO3", "NO3", 1, 100)).toBeCloseTo(6.13, 2);
    expect(broughtMgL("KNO3", "K", 1, 100)).toBeCloseTo(3.87, 2);
    expect(broughtMgL("KNO3", "N", 1, 100)).toBeCloseTo(1.39, 2);
    expect(broughtMgL("FeSO4.7H2O", "Fe", 1, 100)).toBeCloseTo(2.01, 2);
    expect(gramsFor("KNO3", "NO3", 10, 100)).toBeCloseTo(101.102 / 62.004, 4);
  });

  test("grams for a rise, and the rise of those grams, are inverse", () => {
    const salt = fc.constantFrom(
      ["KNO3", "NO3"],
      ["KH2PO4", "PO4"],
      ["K2SO4", "K"],
      ["Mg(NO3)2.6H2O", "Mg"],
      ["Ca(NO3)2.4H2O", "N"],
      ["CO(NH2)2", "N"],
    );
    const some = fc.double({ min: 0.01, max: 500, noNaN: true });
    fc.assert(
      fc.property(salt, some, some, ([formula = "", species = ""], mgL, volumeL) => {
        const grams = gramsFor(formula, species, mgL, volumeL) as number;
        expect(broughtMgL(formula, species, grams, volumeL)).toBeCloseTo(mgL, 8);
      }),
    );
  });

  test("nitrogen by its form: half of ammonium nitrate's is ammonium, urea's is to become ammonia", () => {
    const { elementsMgL, nitrateMgLN, ammoniumMgLN, ureaMgLN } = together(
      [
        { formula: "NH4NO3", grams: 1 },
        { formula: "CO(NH2)2", grams: 1 },
      ],
      100,
    );
    expect(nitrateMgLN).toBeCloseTo(ammoniumMgLN, 12);
    expect(ureaMgLN).toBeCloseTo(4.665, 3);
    expect(nitrateMgLN + ammoniumMgLN + ureaMgLN).toBeCloseTo(elementsMgL.N!, 12);
  });

  test("a chelate of 13 % iron by its stated percentage, beside the sulfate by its formula", () => {
    const { elementsMgL } = together(
      [
        { percent: { Fe: 13 }, grams: 0.1 },
        { formula: "FeSO4.7H2O", grams: 0.1 },
      ],
      130,
    );
    expect(elementsMgL.Fe).toBeCloseTo(0.1 + ((0.1 * 55.845) / 278.01 / 130) * 1000, 4);
  });
});

describe("where doses level off", () => {
  test("10 mg/L a week with half changed levels off at 20 before the change and 10 after", () => {
    expect(levelsOff(10, 0.5)).toEqual({ highestMgL: 20, lowestMgL: 10 });
    expect(levelsOff(10, 0.5, 4)).toEqual({ highestMgL: 24, lowestMgL: 14 });
    expect(levelsOff(10, 1, 4)).toEqual({ highestMgL: 14, lowestMgL: 4 });
  });

  test("as week after week comes to, one by one, in the weeks foretold", () => {
    const fraction = fc.double({ min: 0.05, max: 1, noNaN: true });
    const some = fc.double({ min: 0.1, max: 50, noNaN: true });
    fc.assert(
      fc.property(some, fraction, some, some, (addition, changed, source, start) => {
        const level = levelsOff(addition, changed, source);
        if (isOutside(level)) throw new Error(level.outside);
        const weeks = periodsUntil(0.95, changed) as number;
        let after = start;
        for (let week = 0; week < weeks; week++)
          after = (after + addition) * (1 - changed) + source * changed;
        const way = Math.abs(start - level.lowestMgL);
        expect(Math.abs(after - level.lowestMgL)).toBeLessThanOrEqual(0.05 * way + 1e-9);
        for (let week = 0; week < 600; week++) after = (after + addition) * (1 - changed) + source * changed;
        expect(after).toBeCloseTo(level.lowestMgL, 6);
        expect(after + addition).toBeCloseTo(level.highestMgL, 6);
        expect(additionForMgL(level.highestMgL, changed, source)).toBeCloseTo(addition, 8);
      }),
    );
  });

  test("periods are whole: half of the way with half changed is one", () => {
    expect(periodsUntil(0.5, 0.5)).toBe(1);
    expect(periodsUntil(0.75, 0.5)).toBe(2);
    expect(periodsUntil(0.76, 0.5)).toBe(3);
    expect(periodsUntil(0, 0.5)).toBe(0);
    expect(periodsUntil(0.99, 1)).toBe(1);
  });
});

test("what cannot be gives a reason", () => {
  for (const wrong of [-1, Number.NaN, Infinity]) {
    expect(isOutside(broughtMgL("KNO3", "K", wrong, 10))).toBe(true);
    expect(isOutside(broughtMgL("KNO3", "K", 1, wrong))).toBe(true);
    expect(isOutside(gramsFor("KNO3", "K", wrong, 10))).toBe(true);
    expect(isOutside(broughtTogether([{ formula: "KNO3", grams: wrong }], 10))).toBe(true);
    expect(isOutside(broughtTogether([{ percent: { Fe: wrong }, grams: 1 }], 10))).toBe(true);
    expect(isOutside(broughtTogether([], wrong))).toBe(true);
    expect(isOutside(levelsOff(wrong, 0.5))).toBe(true);
    expect(isOutside(levelsOff(1, wrong))).toBe(true);
    expect(isOutside(levelsOff(1, 0.5, wrong))).toBe(true);
    expect(isOutside(additionForMgL(wrong, 0.5))).toBe(true);
    expect(isOutside(periodsUntil(wrong, 0.5))).toBe(true);
  }
  expect(isOutside(levelsOff(1, 0))).toBe(true);
  expect(isOutside(periodsUntil(1, 0.5))).toBe(true);
  expect(isOutside(additionForMgL(10, 0.5, 25))).toBe(true);
  expect(isOutside(gramsFor("KNO3", "Mg", 1, 10))).toBe(true);
  expect(isOutside(broughtTogether([{ formula: "Xy", grams: 1 }], 10))).toBe(true);
  expect(isOutside(broughtTogether([{ percent: { N: 60, P: 50 }, grams: 1 }], 10))).toBe(true);
});
