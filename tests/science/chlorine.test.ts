import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  AMMONIA_N_PER_COMBINED,
  ASCORBIC_ACID_MG_PER_MG,
  ammoniaReleasedMgLN,
  ascorbicAcidMg,
  combinedChlorineMgL,
  criteriaExceeded,
  THIOSULFATE_PER_CHLORINE,
  type ThiosulfatePath,
  thiosulfateMg,
  thiosulfateMgPerMg,
} from "../../language/science/chlorine.ts";
import { afterChange } from "../../language/science/dilution.ts";
import { atoms } from "../../language/science/elements.ts";
import { isOutside } from "../../language/science/result.ts";

const PATHS = Object.keys(THIOSULFATE_PER_CHLORINE) as ThiosulfatePath[];
const level = fc.double({ min: 0.01, max: 5, noNaN: true });
const litres = fc.double({ min: 0.1, max: 5000, noNaN: true });

type Side = readonly (readonly [count: number, formula: string, charge: number])[];

/** Atoms and charge of one side of a reaction. */
function content(side: Side): Record<string, number> {
  const sum: Record<string, number> = { charge: 0 };
  for (const [count, formula, charge] of side) {
    const held = atoms(formula);
    if (isOutside(held)) throw new Error(held.outside);
    for (const [element, number] of held) sum[element] = (sum[element] ?? 0) + count * number;
    sum.charge! += count * charge;
  }
  return sum;
}

describe("thiosulfate", () => {
  test("each path is a reaction that keeps its atoms and its charge", () => {
    const reactions: Record<ThiosulfatePath, readonly [Side, Side]> = {
      tetrathionate: [
        [
          [2, "S2O3", -2],
          [1, "Cl2", 0],
        ],
        [
          [1, "S4O6", -2],
          [2, "Cl", -1],
        ],
      ],
      sulfur: [
        [
          [1, "S2O3", -2],
          [1, "Cl2", 0],
          [1, "H2O", 0],
        ],
        [
          [1, "SO4", -2],
          [1, "S", 0],
          [2, "Cl", -1],
          [2, "H", 1],
        ],
      ],
      sulfate: [
        [
          [1, "S2O3", -2],
          [4, "Cl2", 0],
          [5, "H2O", 0],
        ],
        [
          [2, "SO4", -2],
          [8, "Cl", -1],
          [10, "H", 1],
        ],
      ],
    };
    for (const path of PATHS) {
      const [before, after] = reactions[path];
      expect(content(before), path).toEqual(content(after));
      const ratio = before[0]![0] / before[1]![0];
      expect(THIOSULFATE_PER_CHLORINE[path], path).toBe(ratio);
    }
  });

  test("mg for a mg of chlorine, by each path", () => {
    // From 70.906, 158.11 and 248.18 g/mol, each to the figures given.
    const published: Record<ThiosulfatePath, readonly [dry: number, crystals: number]> = {
      tetrathionate: [4.46, 7.0],
      sulfur: [2.23, 3.5],
      sulfate: [0.56, 0.875],
    };
    for (const path of PATHS) {
      const [dry, crystals] = published[path];
      expect(thiosulfateMgPerMg("anhydrous", path), path).toBeCloseTo(dry, 2);
      expect(thiosulfateMgPerMg("pentahydrate", path), path).toBeCloseTo(crystals, 2);
    }
    // An instrument maker's sheet: 7.0 mg of pentahydrate for each mg of chlorine of a sample.
    expect(thiosulfateMgPerMg("pentahydrate")).toBeCloseTo(7.0, 1);
    // The field guide's 1.9 from practice lies between the paths.
    expect(thiosulfateMgPerMg("anhydrous", "sulfate")).toBeLessThan(1.9);
    expect(thiosulfateMgPerMg("anhydrous", "tetrathionate")).toBeGreaterThan(1.9);
  });

  test("what is needed goes with chlorine and with litres, and the path not named is the dearest", () => {
    expect(thiosulfateMg(1.5, 60, "pentahydrate")).toBeCloseTo(1.5 * 60 * 7.0, 0);
    fc.assert(
      fc.property(
        level,
        litres,
        fc.constantFrom("anhydrous" as const, "pentahydrate" as const),
        (mgL, l, form) => {
          const most = thiosulfateMg(mgL, l, form) as number;
          expect((thiosulfateMg(2 * mgL, l, form) as number) / most).toBeCloseTo(2, 9);
          expect((thiosulfateMg(mgL, 2 * l, form) as number) / most).toBeCloseTo(2, 9);
          for (const path of PATHS) expect(thiosulfateMg(mgL, l, form, path)).toBeLessThanOrEqual(most);
        },
      ),
    );
  });
});

describe("ascorbic acid", () => {
  test("2.5 for 1 by the field guide's table, 2.48 by mass", () => {
    expect(ASCORBIC_ACID_MG_PER_MG).toBeCloseTo(176.124 / 70.9, 3);
    expect(ASCORBIC_ACID_MG_PER_MG).toBeCloseTo(2.5, 1);
    const before = content([
      [1, "C6H8O6", 0],
      [1, "HOCl", 0],
    ]);
    const after = content([
      [1, "C6H6O6", 0],
      [1, "H2O", 0],
      [1, "H", 1],
      [1, "Cl", -1],
    ]);
    expect(before).toEqual(after);
    expect(ascorbicAcidMg(1, 0, 100)).toBeCloseTo(248.4, 1);
  });

  test("not for chloramine", () => {
    expect(ascorbicAcidMg(0.5, 0.5, 100)).toHaveProperty("outside", expect.stringContaining("combined"));
  });
});

describe("chloramine", () => {
  test("combined is total less free", () => {
    expect(combinedChlorineMgL(2, 0.5)).toBe(1.5);
    expect(combinedChlorineMgL(0.5, 0.5)).toBe(0);
    expect(isOutside(combinedChlorineMgL(0.5, 0.6))).toBe(true);
  });

  test("1 mg/L as monochloramine leaves 0.198 mg/L of ammonia nitrogen", () => {
    expect(AMMONIA_N_PER_COMBINED).toBeCloseTo(0.1976, 4);
    expect(ammoniaReleasedMgLN(1)).toBeCloseTo(0.198, 3);
    const [nitrogen, chlorine] = [atoms("NH2Cl"), atoms("Cl2")];
    if (isOutside(nitrogen) || isOutside(chlorine)) throw new Error("formulas do not read");
    // One nitrogen and one active chlorine in the molecule, and one Cl2 says one active chlorine.
    expect(nitrogen.get("N")).toBe(nitrogen.get("Cl"));
  });

  test("the tank gets the share that is changed, as a change of water with so much ammonia in it", () => {
    fc.assert(
      fc.property(level, fc.double({ min: 0, max: 1, noNaN: true }), (combined, fraction) => {
        const whole = ammoniaReleasedMgLN(combined) as number;
        expect(ammoniaReleasedMgLN(combined, fraction)).toBeCloseTo(afterChange(0, fraction, whole), 12);
      }),
    );
  });

  test("the criteria: below, between, above", () => {
    expect(criteriaExceeded(0.01)).toEqual([]);
    expect(criteriaExceeded(0.015)).toEqual(["chronic"]);
    expect(criteriaExceeded(0.02)).toEqual(["acute", "chronic"]);
  });
});

test("what cannot be gives a reason that names it", () => {
  for (const wrong of [-1, Number.NaN, Infinity]) {
    expect(thiosulfateMg(wrong, 10, "anhydrous")).toHaveProperty(
      "outside",
      expect.stringContaining("chlorine"),
    );
    expect(thiosulfateMg(1, wrong, "anhydrous")).toHaveProperty("outside", expect.stringContaining("volume"));
    expect(isOutside(ascorbicAcidMg(wrong, 0, 10))).toBe(true);
    expect(isOutside(ascorbicAcidMg(1, wrong, 10))).toBe(true);
    expect(isOutside(combinedChlorineMgL(wrong, 0))).toBe(true);
    expect(isOutside(combinedChlorineMgL(1, wrong))).toBe(true);
    expect(isOutside(ammoniaReleasedMgLN(wrong))).toBe(true);
    expect(isOutside(ammoniaReleasedMgLN(1, wrong))).toBe(true);
    expect(isOutside(criteriaExceeded(wrong))).toBe(true);
  }
  expect(isOutside(thiosulfateMg(1, 0, "anhydrous"))).toBe(true);
  expect(isOutside(ammoniaReleasedMgLN(1, 1.1))).toBe(true);
});
