/**
 * What a salt brings to water: hardness (calcium and magnesium), alkalinity, ions.
 * 1 dGH = 10 mg CaO/L = 0.178326 mmol/L; 1 dKH = 0.356652 meq/L (`hardness.ts`). Masses by `elements.ts`.
 */
import { atoms, molarMass } from "./elements.ts";
import { MEQ_PER_DEGREE } from "./hardness.ts";
import { type Figure, isOutside, map, outside } from "./result.ts";

interface Salt {
  /** Ions or groups per formula unit. */
  readonly ions: Readonly<Record<string, number>>;
  /** Equivalents of acid one mole takes up. */
  readonly alkalinity: number;
}

/** Anhydrous part of each salt known here; water of crystallisation changes the mass only. */
const SALTS: Readonly<Record<string, Salt>> = {
  NaCl: { ions: { Na: 1, Cl: 1 }, alkalinity: 0 },
  KCl: { ions: { K: 1, Cl: 1 }, alkalinity: 0 },
  CaCl2: { ions: { Ca: 1, Cl: 2 }, alkalinity: 0 },
  MgCl2: { ions: { Mg: 1, Cl: 2 }, alkalinity: 0 },
  CaSO4: { ions: { Ca: 1, SO4: 1 }, alkalinity: 0 },
  MgSO4: { ions: { Mg: 1, SO4: 1 }, alkalinity: 0 },
  K2SO4: { ions: { K: 2, SO4: 1 }, alkalinity: 0 },
  KNO3: { ions: { K: 1, NO3: 1 }, alkalinity: 0 },
  KH2PO4: { ions: { K: 1, PO4: 1 }, alkalinity: 0 },
  NaHCO3: { ions: { Na: 1, HCO3: 1 }, alkalinity: 1 },
  KHCO3: { ions: { K: 1, HCO3: 1 }, alkalinity: 1 },
  Na2CO3: { ions: { Na: 2, CO3: 1 }, alkalinity: 2 },
  K2CO3: { ions: { K: 2, CO3: 1 }, alkalinity: 2 },
  CaCO3: { ions: { Ca: 1, CO3: 1 }, alkalinity: 2 },
  MgCO3: { ions: { Mg: 1, CO3: 1 }, alkalinity: 2 },
  CuSO4: { ions: { Cu: 1, SO4: 1 }, alkalinity: 0 },
};

function saltOf(formula: string): Salt | undefined {
  return SALTS[formula.split(/[.·*]/)[0]!];
}

/** Mass of a salt that raises a litre by one degree of general hardness. */
export function saltMgLPerDGH(formula: string): Figure {
  const salt = saltOf(formula);
  const divalent = (salt?.ions.Ca ?? 0) + (salt?.ions.Mg ?? 0);
  if (divalent === 0) return outside(`${formula} is not known to bring calcium or magnesium`);
  return map(molarMass(formula), (mass) => (mass * (MEQ_PER_DEGREE / 2)) / divalent);
}

/** Mass of a salt that raises a litre by one degree of carbonate hardness. */
export function saltMgLPerDKH(formula: string): Figure {
  const alkalinity = saltOf(formula)?.alkalinity ?? 0;
  if (alkalinity === 0) return outside(`${formula} is not known to bring alkalinity`);
  return map(molarMass(formula), (mass) => (mass * MEQ_PER_DEGREE) / alkalinity);
}

/** Grams of a salt to raise a volume by so many degrees of one of the two. */
export function saltGramsToRaise(formula: string, volumeL: number, degrees: number, of: "GH" | "KH"): Figure {
  const perDegree = of === "GH" ? saltMgLPerDGH(formula) : saltMgLPerDKH(formula);
  return map(perDegree, (mgL) => (mgL * degrees * volumeL) / 1000);
}

/**
 * The share of a salt's mass that is one element or ion, as written in its formula: `NO3` in `KNO3`, `PO4` or
 * `P` in `KH2PO4`.
 */
export function ionFraction(formula: string, ion: string): Figure {
  const whole = molarMass(formula);
  const part = molarMass(ion);
  const held = atoms(formula);
  if (isOutside(whole) || isOutside(part) || isOutside(held)) {
    return outside(`${formula} with ${ion} does not read as formulas of known elements`);
  }
  const count = saltOf(formula)?.ions[ion] ?? held.get(ion);
  return count === undefined ? outside(`${formula} is not known to hold ${ion}`) : (count * part) / whole;
}

/**
 * mg/L counted as one species said as another, atom for atom of the element they share: N as NO3, P as P2O5,
 * CaCO3 as Ca. Oxygen and hydrogen are shared by too many to count by.
 */
export function speciesMgL(mgL: number, from: string, to: string): Figure {
  const was = atoms(from);
  const will = atoms(to);
  const fromMass = molarMass(from);
  const toMass = molarMass(to);
  if (isOutside(was) || isOutside(will) || isOutside(fromMass) || isOutside(toMass)) {
    return outside(`${from} and ${to} do not read as formulas of known elements`);
  }
  const shared = [...was.keys()].find((element) => element !== "O" && element !== "H" && will.has(element));
  if (shared === undefined) return outside(`${from} and ${to} share no element to count by`);
  return (mgL * (toMass / will.get(shared)!)) / (fromMass / was.get(shared)!);
}
