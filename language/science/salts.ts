/**
 * What a salt brings to water: hardness (calcium and magnesium), alkalinity, ions.
 * 1 dGH = 10 mg CaO/L = 0.178326 mmol/L; 1 dKH = 0.356652 meq/L (`hardness.ts`). Masses by `elements.ts`.
 */
import { atoms, molarMass } from "./elements.ts";
import { negative, notPositive } from "./given.ts";
import { MEQ_PER_DEGREE } from "./hardness.ts";
import { type Figure, isOutside, map, type Outside, outside } from "./result.ts";

export interface Salt {
  readonly gPerMol: number;
  /** Ions or groups per formula unit. */
  readonly ions: Readonly<Record<string, number>>;
  /**
   * Equivalents of acid one mole takes up down to the end point of the titration, about pH 4.5, where phosphate
   * is H2PO4 and so counts from there.
   */
  readonly alkalinity: number;
}

/** Anhydrous part of each salt known here; water of crystallisation changes the mass only. */
const SALTS: Readonly<
  Record<string, readonly [ions: Readonly<Record<string, number>>, alkalinity?: number]>
> = {
  NaCl: [{ Na: 1, Cl: 1 }],
  KCl: [{ K: 1, Cl: 1 }],
  NH4Cl: [{ NH4: 1, Cl: 1 }],
  CaCl2: [{ Ca: 1, Cl: 2 }],
  MgCl2: [{ Mg: 1, Cl: 2 }],
  CaSO4: [{ Ca: 1, SO4: 1 }],
  MgSO4: [{ Mg: 1, SO4: 1 }],
  Na2SO4: [{ Na: 2, SO4: 1 }],
  K2SO4: [{ K: 2, SO4: 1 }],
  "(NH4)2SO4": [{ NH4: 2, SO4: 1 }],
  CuSO4: [{ Cu: 1, SO4: 1 }],
  FeSO4: [{ Fe: 1, SO4: 1 }],
  MnSO4: [{ Mn: 1, SO4: 1 }],
  ZnSO4: [{ Zn: 1, SO4: 1 }],
  NaNO3: [{ Na: 1, NO3: 1 }],
  KNO3: [{ K: 1, NO3: 1 }],
  NH4NO3: [{ NH4: 1, NO3: 1 }],
  "Ca(NO3)2": [{ Ca: 1, NO3: 2 }],
  "Mg(NO3)2": [{ Mg: 1, NO3: 2 }],
  KH2PO4: [{ K: 1, PO4: 1 }],
  NH4H2PO4: [{ NH4: 1, PO4: 1 }],
  K2HPO4: [{ K: 2, PO4: 1 }, 1],
  NaHCO3: [{ Na: 1, HCO3: 1 }, 1],
  KHCO3: [{ K: 1, HCO3: 1 }, 1],
  Na2CO3: [{ Na: 2, CO3: 1 }, 2],
  K2CO3: [{ K: 2, CO3: 1 }, 2],
  CaCO3: [{ Ca: 1, CO3: 1 }, 2],
  MgCO3: [{ Mg: 1, CO3: 1 }, 2],
  "CaMg(CO3)2": [{ Ca: 1, Mg: 1, CO3: 2 }, 4],
};

/**
 * What a salt brings, by its formula with its water of crystallisation: `CaCl2.2H2O`, `2CaSO4.H2O` for the
 * hemihydrate. A formula is per unit as it is written: `2CaSO4.H2O` holds two of calcium.
 * @returns a reason for a salt that is not in the table
 */
export function saltOf(formula: string): Salt | Outside {
  const [, times = "", anhydrous = ""] = /^(\d*)(.*)$/.exec(formula.split(/[.·*]/)[0]!) ?? [];
  const known = Object.hasOwn(SALTS, anhydrous) ? SALTS[anhydrous] : undefined;
  if (known === undefined) return outside(`${formula} is not among the salts known here`);
  const gPerMol = molarMass(formula);
  if (isOutside(gPerMol)) return gPerMol;
  const units = times === "" ? 1 : Number(times);
  const ions = Object.fromEntries(Object.entries(known[0]).map(([ion, count]) => [ion, count * units]));
  return { gPerMol, ions, alkalinity: (known[1] ?? 0) * units };
}

/** Mass of a salt that raises a litre by one degree of general hardness. */
export function saltMgLPerDGH(formula: string): Figure {
  const salt = saltOf(formula);
  if (isOutside(salt)) return salt;
  const divalent = (salt.ions.Ca ?? 0) + (salt.ions.Mg ?? 0);
  if (divalent === 0) return outside(`${formula} is not known to bring calcium or magnesium`);
  return (salt.gPerMol * (MEQ_PER_DEGREE / 2)) / divalent;
}

/** Mass of a salt that raises a litre by one degree of carbonate hardness. */
export function saltMgLPerDKH(formula: string): Figure {
  const salt = saltOf(formula);
  if (isOutside(salt)) return salt;
  if (salt.alkalinity === 0) return outside(`${formula} is not known to bring alkalinity`);
  return (salt.gPerMol * MEQ_PER_DEGREE) / salt.alkalinity;
}

/** Grams of a salt to raise a volume by so many degrees of one of the two. */
export function saltGramsToRaise(formula: string, volumeL: number, degrees: number, of: "GH" | "KH"): Figure {
  const perDegree = of === "GH" ? saltMgLPerDGH(formula) : saltMgLPerDKH(formula);
  return (
    negative("rise", degrees, of === "GH" ? "dGH" : "dKH") ??
    notPositive("volume", volumeL, "L") ??
    map(perDegree, (mgL) => (mgL * degrees * volumeL) / 1000)
  );
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
  const salt = saltOf(formula);
  const count = (isOutside(salt) ? undefined : salt.ions[ion]) ?? held.get(ion);
  return count === undefined ? outside(`${formula} is not known to hold ${ion}`) : (count * part) / whole;
}

/**
 * mg/L counted as one species said as another, atom for atom of the element they share: N as NO3, P as P2O5,
 * CaCO3 as Ca. Oxygen and hydrogen are shared by too many to count by.
 */
export function speciesMgL(mgL: number, from: string, to: string): Figure {
  const problem = negative(from, mgL, "mg/L");
  if (problem !== undefined) return problem;
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
