import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mixed, shareOfFirst } from "../../language/science/blend.ts";
import { logK1, logK2, logKHenry, logKw } from "../../language/science/carbonate.ts";
import { MEQ_PER_DEGREE } from "../../language/science/hardness.ts";
import { type Recipe, recipe, type Task } from "../../language/science/recipe.ts";
import { isOutside } from "../../language/science/result.ts";
import {
  calciteMgL,
  calciteSaturation,
  GYPSUM_MMOL_L,
  gypsumSaturation,
} from "../../language/science/solubility.ts";
import type { Target } from "../../language/science/target.ts";
import { type Water, withSalts } from "../../language/science/water.ts";

/** Reverse osmosis water, as good as nothing in it. */
const RO: Water = { temperatureC: 20 };
/** A hard tap water whose ions balance. */
const TAP: Water = {
  calciumMgL: 90,
  magnesiumMgL: 15,
  sodiumMgL: 20,
  potassiumMgL: 3,
  chlorideMgL: 35,
  sulfateMgL: 60,
  nitrateMgL: 25,
  alkalinityMeqL: 4.2,
  temperatureC: 12,
};

function made(task: Partial<Task>): Recipe {
  const found = recipe({ waters: [RO], salts: [], targets: {}, volumeL: 100, ...task });
  if (isOutside(found)) throw new Error(found.outside);
  return found;
}

function reasonOf(task: Partial<Task>): string {
  const found = recipe({ waters: [RO], salts: [], targets: {}, volumeL: 100, ...task });
  if (!isOutside(found)) throw new Error("there is a recipe");
  return found.outside;
}

const gramsOf = (found: Recipe, formula: string) =>
  found.salts.find((salt) => salt.formula === formula)?.grams;
const missOf = (found: Recipe, target: Target) => found.targets.find((one) => one.target === target)!;

describe("remineralising", () => {
  test("6 dGH at 3 calcium to 1 magnesium and 4 dKH in 100 L of RO water", () => {
    const found = made({
      salts: ["CaCl2.2H2O", "MgSO4.7H2O", "NaHCO3"],
      targets: {
        hardnessMeqL: 6 * MEQ_PER_DEGREE,
        calciumToMagnesiumByMass: 3,
        alkalinityMeqL: 4 * MEQ_PER_DEGREE,
      },
    });
    // By hand: 1.0699 mmol/L of hardness, of it 3/40.078 parts calcium to 1/24.305 parts magnesium.
    const mmol = 6 * 0.178326;
    const calcium = (mmol * (3 / 40.078)) / (3 / 40.078 + 1 / 24.305);
    expect(gramsOf(found, "CaCl2.2H2O")).toBeCloseTo(calcium * 0.1 * 147.008, 2);
    expect(gramsOf(found, "MgSO4.7H2O")).toBeCloseTo((mmol - calcium) * 0.1 * 246.466, 2);
    expect(gramsOf(found, "NaHCO3")).toBeCloseTo(4 * 0.356652 * 0.1 * 84.006, 2);
    expect(found.targets.every(({ missing }) => missing === 0)).toBe(true);
    expect(found.figures.hardnessDGH).toBeCloseTo(6, 6);
    expect(found.figures.alkalinityDKH).toBeCloseTo(4, 6);
    expect(found.figures.calciumToMagnesiumByMass).toBeCloseTo(3, 6);
    expect(found.figures.balancePercent).toBeCloseTo(0, 6);
  });

  test("the same ratio by atoms is another recipe", () => {
    const byMole = made({
      salts: ["CaCl2", "MgCl2.6H2O"],
      targets: { hardnessMeqL: 2, calciumToMagnesiumByMole: 3 },
    });
    expect(byMole.figures.calciumToMagnesiumByMole).toBeCloseTo(3, 6);
    expect(byMole.figures.calciumToMagnesiumByMass).toBeCloseTo((3 * 40.078) / 24.305, 5);
  });

  test("one salt for two targets lands between them, and says what remains", () => {
    const found = made({ salts: ["CaCO3"], targets: { calciumMgL: 40.078, alkalinityMeqL: 1 } });
    // Calcium carbonate brings both alike: halfway of 2 and 1 meq/L is 1.5 of each.
    expect(found.water.alkalinityMeqL).toBeCloseTo(1.5, 9);
    expect(missOf(found, "alkalinityMeqL").missing).toBeCloseTo(-0.5, 9);
    expect(missOf(found, "calciumMgL").missing).toBeCloseTo(40.078 / 4, 9);
    expect(missOf(found, "calciumMgL").because).toContain("together");
  });

  test("a target below what the water holds is named as not reachable: salts only add", () => {
    const found = made({
      waters: [TAP],
      salts: ["KHCO3"],
      targets: { calciumMgL: 30, alkalinityMeqL: 5 },
    });
    expect(missOf(found, "calciumMgL")).toMatchObject({ wanted: 30, reached: 90, missing: -60 });
    expect(missOf(found, "calciumMgL").because).toContain("salts only add");
    expect(missOf(found, "alkalinityMeqL").missing).toBe(0);
  });

  test("a target that no salt of the list brings says so", () => {
    const found = made({ salts: ["NaHCO3"], targets: { potassiumMgL: 10, alkalinityMeqL: 1 } });
    expect(missOf(found, "potassiumMgL").because).toContain("no salt");
    expect(found.takenAsZero).toContain("calciumMgL");
  });

  test("a ratio of nothing to nothing is not reached", () => {
    const { reached, missing, because } = missOf(
      made({ salts: ["CaCl2"], targets: { calciumToMagnesiumByMass: 3 } }),
      "calciumToMagnesiumByMass",
    );
    expect(isOutside(reached) && isOutside(missing)).toBe(true);
    expect(because).toContain("no magnesium");
  });

  test("what was weighed in is found again from the water alone", () => {
    const list = ["CaCl2.2H2O", "MgSO4.7H2O", "KHCO3", "NaHCO3", "KNO3"];
    const amount = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(amount, amount, amount, amount, amount), (weighed) => {
        const grams = Object.fromEntries(list.map((formula, i) => [formula, weighed[i]!]));
        const goal = withSalts({}, grams, 100) as Water;
        const { calciumMgL = 0, magnesiumMgL = 0, potassiumMgL = 0, sodiumMgL = 0, nitrateMgL = 0 } = goal;
        const targets = { calciumMgL, magnesiumMgL, potassiumMgL, sodiumMgL, nitrateMgL };
        const found = made({ salts: list, targets });
        for (const formula of list) expect(gramsOf(found, formula)).toBeCloseTo(grams[formula]!, 6);
        expect(found.targets.every(({ missing }) => missing === 0)).toBe(true);
      }),
    );
  });

  test("no recipe takes anything out, whatever is wanted", () => {
    const wish = fc.double({ min: 0, max: 200, noNaN: true });
    fc.assert(
      fc.property(wish, wish, wish, wish, (calciumMgL, magnesiumMgL, potassiumMgL, chlorideMgL) => {
        const found = recipe({
          waters: [TAP],
          salts: ["CaCl2", "CaCl2.2H2O", "MgCl2.6H2O", "MgSO4", "KCl", "K2SO4"],
          targets: { calciumMgL, magnesiumMgL, potassiumMgL, chlorideMgL },
          volumeL: 50,
        });
        if (isOutside(found)) throw new Error(found.outside);
        for (const { grams } of found.salts) expect(grams).toBeGreaterThanOrEqual(0);
        expect(found.water.calciumMgL).toBeGreaterThanOrEqual(90);
        for (const { missing, because } of found.targets) expect(missing === 0).toBe(because === undefined);
      }),
    );
  });

  test("grams go with the volume, the water does not", () => {
    const task = { salts: ["CaCl2.2H2O"], targets: { calciumMgL: 20 } } as const;
    const small = made({ ...task, volumeL: 10 });
    const large = made({ ...task, volumeL: 1000 });
    expect(gramsOf(large, "CaCl2.2H2O")! / gramsOf(small, "CaCl2.2H2O")!).toBeCloseTo(100, 9);
    expect(large.water.calciumMgL).toBeCloseTo(small.water.calciumMgL!, 9);
  });

  test("gives a reason for what cannot be asked", () => {
    expect(reasonOf({ targets: {} })).toContain("no target");
    expect(reasonOf({ waters: [], targets: { calciumMgL: 1 } })).toContain("no water");
    expect(reasonOf({ targets: { calciumMgL: 1 }, volumeL: 0 })).toContain("volume");
    expect(reasonOf({ targets: { calciumMgL: Number.NaN } })).toContain("calcium");
    expect(reasonOf({ targets: { calciumMgL: -1 } })).toContain("calcium");
    expect(reasonOf({ targets: { calciumToMagnesiumByMass: 0 } })).toContain("ratio");
    expect(reasonOf({ targets: { calciumMgL: 1 }, salts: ["NaF"] })).toContain("NaF");
    expect(reasonOf({ targets: { calciumMgL: 1 }, salts: ["KCl", "KCl"] })).toContain("twice");
    expect(reasonOf({ targets: { temperatureC: 20 }, waters: [{}] })).toContain("temperature");
  });
});

describe("blends", () => {
  test("two waters and one target: the share is exact, hot and cold likewise", () => {
    expect(shareOfFirst(4.2, 0, 1.05)).toBeCloseTo(0.25, 12);
    // (T wanted - T cold)/(T hot - T cold)
    expect(shareOfFirst(55, 10, 25)).toBeCloseTo(1 / 3, 12);
    const found = made({ waters: [TAP, RO], targets: { alkalinityMeqL: 1.05 }, volumeL: 80 });
    expect(found.waters[0]!.fraction).toBeCloseTo(0.25, 9);
    expect(found.waters[0]!.litres).toBeCloseTo(20, 6);
    expect(found.water.nitrateMgL).toBeCloseTo(6.25, 6);
    expect(found.water.temperatureC).toBeCloseTo(18, 6);
  });

  test("where the target lies between two waters it is met, and shares never leave 0 to 1", () => {
    const level = fc.double({ min: 0, max: 300, noNaN: true });
    fc.assert(
      fc.property(level, level, level, (first, second, target) => {
        fc.pre(Math.abs(first - second) > 1e-3);
        const waters = [{ nitrateMgL: first }, { nitrateMgL: second }];
        const found = made({ waters, targets: { nitrateMgL: target } });
        const shares = found.waters.map(({ fraction }) => fraction);
        for (const share of shares) {
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(1);
        }
        expect(shares[0]! + shares[1]!).toBeCloseTo(1, 14);
        const exact = shareOfFirst(first, second, target);
        if (isOutside(exact)) {
          // The nearer of the two is taken whole.
          const nearer = Math.abs(first - target) < Math.abs(second - target) ? 0 : 1;
          expect(shares[nearer]).toBe(1);
        } else {
          expect(found.water.nitrateMgL).toBeCloseTo(target, 5);
          expect(exact * first + (1 - exact) * second).toBeCloseTo(target, 9);
        }
      }),
    );
  });

  test("waters that hardly differ are told apart", () => {
    const found = made({
      waters: [{ nitrateMgL: 0 }, { nitrateMgL: 0.001 }],
      targets: { nitrateMgL: 0.000005 },
    });
    expect(found.waters[1]!.fraction).toBeCloseTo(0.005, 9);
  });

  test("three waters and three targets: no other blend of a fine grid comes nearer", () => {
    const water = fc.record({
      calciumMgL: fc.integer({ min: 0, max: 150 }),
      alkalinityMeqL: fc.integer({ min: 0, max: 6 }),
      nitrateMgL: fc.integer({ min: 0, max: 50 }),
    });
    const miss = (one: Water, goal: Water) =>
      Math.hypot(
        (one.calciumMgL! - goal.calciumMgL!) / 20.039,
        one.alkalinityMeqL! - goal.alkalinityMeqL!,
        (one.nitrateMgL! - goal.nitrateMgL!) / 62.004,
      );
    fc.assert(
      fc.property(fc.array(water, { minLength: 3, maxLength: 3 }), water, (waters, targets) => {
        const best = miss(made({ waters, targets }).water, targets);
        for (let i = 0; i <= 40; i++) {
          for (let j = 0; i + j <= 40; j++) {
            const other = mixed(waters, [i / 40, j / 40, (40 - i - j) / 40]) as Water;
            expect(best).toBeLessThanOrEqual(miss(other, targets) + 1e-6);
          }
        }
      }),
      { numRuns: 40 },
    );
  });

  test("a blend with salts: tap for the alkalinity, magnesium on top", () => {
    const found = made({
      waters: [TAP, RO],
      salts: ["MgSO4.7H2O"],
      targets: { alkalinityMeqL: 1.4, calciumToMagnesiumByMass: 3 },
    });
    expect(found.waters[0]!.fraction).toBeCloseTo(1 / 3, 6);
    expect(found.water.calciumMgL).toBeCloseTo(30, 5);
    expect(found.water.magnesiumMgL).toBeCloseTo(10, 5);
    expect(gramsOf(found, "MgSO4.7H2O")).toBeCloseTo((5 / 24.305) * 246.466 * 0.1, 3);
  });

  test("gives a reason where no blend is", () => {
    expect(isOutside(shareOfFirst(5, 5, 5))).toBe(true);
    expect(isOutside(shareOfFirst(5, 1, 6))).toBe(true);
    expect(isOutside(shareOfFirst(Number.NaN, 1, 6))).toBe(true);
    expect(isOutside(mixed([TAP, RO], [0.5, 0.6]))).toBe(true);
    expect(isOutside(mixed([TAP, RO], [1.5, -0.5]))).toBe(true);
    expect(isOutside(mixed([TAP], [0.5, 0.5]))).toBe(true);
    expect(mixed([TAP, {}], [0.5, 0.5])).not.toHaveProperty("temperatureC");
  });
});

describe("what dissolves", () => {
  test("calcium sulfate beyond its published solubility is refused", () => {
    // Gypsum alone: 2.53 g/L is 14.7 mmol/L.
    const brim = withSalts({}, { "CaSO4.2H2O": 2.53 }, 1) as Water;
    expect(gypsumSaturation(brim)).toBeCloseTo(1, 3);
    const calcium = (mmol: number) => ({ salts: ["CaSO4.2H2O"], targets: { calciumMgL: mmol * 40.078 } });
    expect(reasonOf(calcium(GYPSUM_MMOL_L * 1.01))).toContain("dissolves");
    expect(made(calcium(GYPSUM_MMOL_L * 0.99)).remarks.join()).toContain("slowly");
    expect(made({ salts: ["CaCl2"], targets: { calciumMgL: 100 } }).remarks).toEqual([]);
  });

  test("calcite in air agrees with the whole equilibrium, solved for pH", () => {
    for (const temperatureC of [5, 15, 25, 30]) {
      for (const co2Ppm of [420, 1000, 5000]) {
        const simple = calciteMgL(temperatureC, co2Ppm) as number;
        // Carbonate, hydroxide and hydrogen ions are what the short form leaves out.
        expect(simple / calciteByPH(temperatureC, co2Ppm)).toBeCloseTo(1, 1);
        const water = withSalts({}, { CaCO3: simple / 1000 }, 1) as Water;
        expect(calciteSaturation(water, temperatureC, co2Ppm)).toBeCloseTo(1, 9);
      }
    }
    // Back from the solubility at 1 atm of CO2: log KC at 25 C is printed as -8.480 +- 0.020.
    const molar = (calciteMgL(25, 1e6) as number) / 100_086;
    const rest = (logK1(25) as number) + (logKHenry(25) as number) - (logK2(25) as number);
    const logKC = Math.log10(4 * molar ** 3) - rest;
    expect(logKC).toBeCloseTo(-8.48, 3);
    // Another evaluation has -8.52 +- 0.04 (Christ, Hostetler & Siebert 1974, J. Res. U.S. Geol. Survey, abstract
    // seen): the two differ by 0.0402, within what both state of themselves together.
    expect(Math.abs(logKC + 8.52)).toBeLessThan(0.04 + 0.02);
  });

  test("more calcium carbonate than air holds CO2 for is remarked on, not so where there is more CO2", () => {
    const task = { salts: ["CaCO3"], targets: { alkalinityMeqL: 3 } };
    expect(made(task).remarks.join()).toContain("does not dissolve in full");
    expect(made({ ...task, co2InAirPpm: 20_000 }).remarks.join()).toContain("only as it takes up CO2");
    expect(made({ salts: ["MgCO3"], targets: { magnesiumMgL: 3 } }).remarks.join()).toContain("MgCO3");
    expect(reasonOf({ ...task, co2InAirPpm: -1 })).toContain("CO2");
    expect(isOutside(calciteMgL(95, 420))).toBe(true);
  });

  test("lime dissolves less in warmer water and more under more CO2", () => {
    const warmth = fc.double({ min: 0, max: 40, noNaN: true });
    const air = fc.double({ min: 100, max: 50_000, noNaN: true });
    fc.assert(
      fc.property(warmth, air, (temperatureC, ppm) => {
        const here = calciteMgL(temperatureC, ppm) as number;
        expect(calciteMgL(temperatureC + 1, ppm)).toBeLessThan(here);
        expect(calciteMgL(temperatureC, ppm * 2)).toBeGreaterThan(here);
      }),
    );
  });
});

/** Calcite in water with air, all carbonate ions and the charge balance, by bisection on pH; mg/L of CaCO3. */
function calciteByPH(temperatureC: number, co2Ppm: number): number {
  const T = temperatureC + 273.15;
  const kc = 10 ** (-171.9065 - 0.077993 * T + 2839.319 / T + 71.595 * Math.log10(T));
  const [k1, k2, kw] = [logK1, logK2, logKw].map((log) => 10 ** (log(temperatureC) as number)) as [
    number,
    number,
    number,
  ];
  const co2 = 10 ** (logKHenry(temperatureC) as number) * co2Ppm * 1e-6;
  const calcium = (h: number) => kc / ((k1 * k2 * co2) / h ** 2);
  const charge = (h: number) => 2 * calcium(h) + h - (k1 * co2) / h - (2 * k1 * k2 * co2) / h ** 2 - kw / h;
  let [low, high] = [4, 11];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (charge(10 ** -middle) > 0) low = middle;
    else high = middle;
  }
  return calcium(10 ** -low) * 100_086;
}
