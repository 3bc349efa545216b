/**
 * A water by its main ions: what is dissolved in it, mixed with another, and with salts added. What is not
 * given counts as 0, and `unstated` names it so that a caller can say so.
 *
 * Nothing here precipitates, degasses or is taken up: ions and alkalinity add up and mix by volume, as both
 * are conservative. pH and free CO2 do not, and conductivity does not quite (the ions hinder each other the
 * more of them there are; Kohlrausch's law), so that neither is mixed here.
 */
import { molarMass } from "./elements.ts";
import { negative, notPositive } from "./given.ts";
import { hardnessMeqL, MEQ_PER_DEGREE } from "./hardness.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";
import { saltOf } from "./salts.ts";

/**
 * What a water holds. Nitrate and phosphate are as the ions NO3 and PO4, ammonia is the total as N, alkalinity
 * in meq/L stands for bicarbonate and what else takes up acid.
 */
export const PARTS = {
  calciumMgL: { name: "calcium", unit: "mg/L", ion: "Ca", charge: 2 },
  magnesiumMgL: { name: "magnesium", unit: "mg/L", ion: "Mg", charge: 2 },
  sodiumMgL: { name: "sodium", unit: "mg/L", ion: "Na", charge: 1 },
  potassiumMgL: { name: "potassium", unit: "mg/L", ion: "K", charge: 1 },
  ammoniaMgLN: { name: "ammonia", unit: "mg/L N", ion: "NH4", charge: 1 },
  chlorideMgL: { name: "chloride", unit: "mg/L", ion: "Cl", charge: -1 },
  sulfateMgL: { name: "sulfate", unit: "mg/L", ion: "SO4", charge: -2 },
  nitrateMgL: { name: "nitrate", unit: "mg/L", ion: "NO3", charge: -1 },
  phosphateMgL: { name: "phosphate", unit: "mg/L", ion: "PO4", charge: -1 },
  alkalinityMeqL: { name: "alkalinity", unit: "meq/L", ion: "HCO3", charge: -1 },
} as const satisfies Record<string, { name: string; unit: string; ion: string; charge: number }>;

export type Part = keyof typeof PARTS;
export const PART_KEYS = Object.keys(PARTS) as readonly Part[];

export interface Water extends Readonly<Partial<Record<Part, number>>> {
  /** Mixes by volume, as the heat capacity of fresh waters is the same. */
  readonly temperatureC?: number;
}

/** A reason why something is no water: a negative or infinite part, a temperature that no water has. */
export function waterProblem(water: Water): Outside | undefined {
  for (const part of PART_KEYS) {
    const problem = negative(PARTS[part].name, water[part] ?? 0, PARTS[part].unit);
    if (problem !== undefined) return problem;
  }
  return water.temperatureC === undefined
    ? undefined
    : beyond("temperature", water.temperatureC, 0, 100, "C");
}

/** The parts that a water does not state and that count as 0. */
export function unstated(water: Water): readonly Part[] {
  return PART_KEYS.filter((part) => water[part] === undefined);
}

/** How many of a part's own unit are one milliequivalent of charge. */
export function perMeq(part: Part): number {
  if (part === "alkalinityMeqL") return 1;
  const { ion, charge } = PARTS[part];
  const counted = part === "ammoniaMgLN" ? "N" : ion;
  return (molarMass(counted) as number) / Math.abs(charge);
}

export interface WaterFigures {
  readonly hardnessMeqL: number;
  readonly hardnessDGH: number;
  readonly alkalinityMeqL: number;
  readonly alkalinityDKH: number;
  /** mg of calcium for each mg of magnesium. */
  readonly calciumToMagnesiumByMass: Figure;
  /** Atoms of calcium for each atom of magnesium: the ratio by mass times 24.305/40.078. */
  readonly calciumToMagnesiumByMole: Figure;
  readonly cationsMeqL: number;
  readonly anionsMeqL: number;
  /**
   * 100 (cations - anions)/(cations + anions), the charge balance of water analysis (Standard Methods 1030 E,
   * recalled; the same formula in the British Columbia government's documentation of its water data, seen). A
   * complete and correct analysis is near 0; what is left out shows here.
   */
  readonly balancePercent: Figure;
  /** Sum of the ions, alkalinity as bicarbonate: what stands in the water, more than an evaporated residue. */
  readonly dissolvedMgL: number;
}

/**
 * Hardness, alkalinity, ratios and checks of a water. Charges are those at the end point of the alkalinity
 * titration, all ammonia NH4+ and all phosphate H2PO4-, as in the explicit conservative expression of
 * alkalinity (Wolf-Gladrow, Zeebe, Klaas, Koertzinger & Dickson 2007, Mar. Chem. 106:287-300, recalled): so
 * the balance holds whatever the pH.
 */
export function waterFigures(water: Water): WaterFigures | Outside {
  const problem = waterProblem(water);
  if (problem !== undefined) return problem;
  let cationsMeqL = 0;
  let anionsMeqL = 0;
  let dissolvedMgL = 0;
  for (const part of PART_KEYS) {
    const meqL = (water[part] ?? 0) / perMeq(part);
    const { ion, charge } = PARTS[part];
    if (charge > 0) cationsMeqL += meqL;
    else anionsMeqL += meqL;
    dissolvedMgL += (meqL * (molarMass(ion) as number)) / Math.abs(charge);
  }
  const { calciumMgL = 0, magnesiumMgL = 0, alkalinityMeqL = 0 } = water;
  const hardness = hardnessMeqL(calciumMgL, magnesiumMgL);
  const byMass = magnesiumMgL > 0 ? calciumMgL / magnesiumMgL : outside("there is no magnesium");
  return {
    hardnessMeqL: hardness,
    hardnessDGH: hardness / MEQ_PER_DEGREE,
    alkalinityMeqL,
    alkalinityDKH: alkalinityMeqL / MEQ_PER_DEGREE,
    calciumToMagnesiumByMass: byMass,
    calciumToMagnesiumByMole: isOutside(byMass) ? byMass : byMass * MASS_TO_MOLE,
    cationsMeqL,
    anionsMeqL,
    balancePercent:
      cationsMeqL + anionsMeqL > 0
        ? (100 * (cationsMeqL - anionsMeqL)) / (cationsMeqL + anionsMeqL)
        : outside("there are no ions"),
    dissolvedMgL,
  };
}

/** A ratio of calcium to magnesium by mass times this is the ratio of their atoms. */
export const MASS_TO_MOLE = (molarMass("Mg") as number) / (molarMass("Ca") as number);

/**
 * What one mg/L of a salt adds, in the parts' own units. A carbonate counts in full as the alkalinity it becomes
 * once it has taken up CO2 from the air.
 */
export function saltParts(formula: string): Readonly<Partial<Record<Part, number>>> | Outside {
  const salt = saltOf(formula);
  if (isOutside(salt)) return salt;
  const parts: Partial<Record<Part, number>> = {};
  for (const [ion, count] of Object.entries(salt.ions)) {
    if (ion === "HCO3" || ion === "CO3") continue;
    const part = PART_KEYS.find((key) => PARTS[key].ion === ion);
    if (part === undefined) return outside(`${formula} brings ${ion}, which is not reckoned with in a water`);
    parts[part] = (count * Math.abs(PARTS[part].charge) * perMeq(part)) / salt.gPerMol;
  }
  if (salt.alkalinity > 0) parts.alkalinityMeqL = salt.alkalinity / salt.gPerMol;
  return parts;
}

/**
 * A water with salts dissolved in it, their own volume neglected.
 * @param grams of each salt by its formula
 */
export function withSalts(
  water: Water,
  grams: Readonly<Record<string, number>>,
  volumeL: number,
): Water | Outside {
  const problem = waterProblem(water) ?? notPositive("volume", volumeL, "L");
  if (problem !== undefined) return problem;
  const result: { -readonly [Key in keyof Water]: Water[Key] } = { ...water };
  for (const [formula, mass] of Object.entries(grams)) {
    const parts = saltParts(formula);
    const unusable = isOutside(parts) ? parts : negative(formula, mass, "g");
    if (isOutside(parts) || unusable !== undefined) return unusable as Outside;
    for (const part of PART_KEYS) {
      const each = parts[part];
      if (each !== undefined) result[part] = (result[part] ?? 0) + (each * mass * 1000) / volumeL;
    }
  }
  return result;
}
