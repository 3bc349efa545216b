/**
 * Fertilisers: what a dose puts into the water, and where repeated doses level off. By formula, or by the stated
 * percentage of what has none, such as chelates. Plants take up part of it, so that figures without uptake are
 * upper bounds.
 */
import { steadyAfterChangeMgL, steadyBeforeChangeMgL } from "./dilution.ts";
import { atoms, molarMass } from "./elements.ts";
import { negative, notPositive } from "./given.ts";
import { type Figure, isOutside, map, type Outside, outside } from "./result.ts";
import { ionFraction, saltOf } from "./salts.ts";

/** mg/L of an element or ion that grams of a salt bring to a volume: `NO3` of `KNO3`, `N` of `CO(NH2)2`. */
export function broughtMgL(formula: string, species: string, grams: number, volumeL: number): Figure {
  return (
    negative(formula, grams, "g") ??
    notPositive("volume", volumeL, "L") ??
    map(ionFraction(formula, species), (share) => (share * grams * 1000) / volumeL)
  );
}

/** Grams of a salt for a rise of an element or ion by so many mg/L. */
export function gramsFor(formula: string, species: string, riseMgL: number, volumeL: number): Figure {
  return (
    negative(`rise of ${species}`, riseMgL, "mg/L") ??
    notPositive("volume", volumeL, "L") ??
    map(ionFraction(formula, species), (share) => (riseMgL * volumeL) / 1000 / share)
  );
}

/** One thing dosed: a salt by its formula, or a product by the per cent of each element that it states. */
export type Dose =
  | { readonly grams: number; readonly formula: string }
  | { readonly grams: number; readonly percent: Readonly<Record<string, number>> };

export interface Brought {
  /** mg/L of each element but hydrogen, carbon and oxygen; nitrogen is all of it. */
  readonly elementsMgL: Readonly<Record<string, number>>;
  /**
   * Nitrogen by what it comes as. Urea becomes ammonia in the tank (hydrolysis to NH3 and CO2), and so counts
   * with ammonium as what can be NH3. Products by percentage do not state a form and are not in here.
   */
  readonly nitrateMgLN: number;
  readonly ammoniumMgLN: number;
  readonly ureaMgLN: number;
}

const UREA = /^(?:CO\(NH2\)2|CH4N2O|\(NH2\)2CO)$/;

/** What several doses bring together. */
export function broughtTogether(doses: readonly Dose[], volumeL: number): Brought | Outside {
  const problem = notPositive("volume", volumeL, "L");
  if (problem !== undefined) return problem;
  const elementsMgL: Record<string, number> = {};
  const nitrogen = { nitrateMgLN: 0, ammoniumMgLN: 0, ureaMgLN: 0 };
  for (const dose of doses) {
    const shares = "formula" in dose ? elementShares(dose.formula) : statedShares(dose.percent);
    if (isOutside(shares)) return shares;
    const wrong = negative("formula" in dose ? dose.formula : "product", dose.grams, "g");
    if (wrong !== undefined) return wrong;
    const mgL = (dose.grams * 1000) / volumeL;
    for (const [element, share] of Object.entries(shares)) {
      elementsMgL[element] = (elementsMgL[element] ?? 0) + share * mgL;
    }
    if (!("formula" in dose)) continue;
    const n = molarMass("N") as number;
    const salt = saltOf(dose.formula);
    if (UREA.test(dose.formula)) nitrogen.ureaMgLN += (shares.N ?? 0) * mgL;
    if (isOutside(salt)) continue;
    nitrogen.nitrateMgLN += (((salt.ions.NO3 ?? 0) * n) / salt.gPerMol) * mgL;
    nitrogen.ammoniumMgLN += (((salt.ions.NH4 ?? 0) * n) / salt.gPerMol) * mgL;
  }
  return { elementsMgL, ...nitrogen };
}

export interface Level {
  /** Just before a change, the dose of the period being in. */
  readonly highestMgL: number;
  /** Just after the change, before the next dose. */
  readonly lowestMgL: number;
}

/**
 * Where repeated doses level off with one change a period and nothing taken up: source + addition/fraction before
 * the change (`dilution.ts`). @param fraction of the water changed each period, more than 0 and at most 1
 */
export function levelsOff(additionMgLPerPeriod: number, fraction: number, sourceMgL = 0): Level | Outside {
  const problem =
    negative("addition", additionMgLPerPeriod, "mg/L") ??
    negative("source water", sourceMgL, "mg/L") ??
    share(fraction);
  if (problem !== undefined) return problem;
  const highestMgL = steadyBeforeChangeMgL(additionMgLPerPeriod, fraction, sourceMgL);
  const lowestMgL = steadyAfterChangeMgL(additionMgLPerPeriod, fraction, sourceMgL);
  if (isOutside(highestMgL)) return highestMgL;
  return isOutside(lowestMgL) ? lowestMgL : { highestMgL, lowestMgL };
}

/** The addition per period that levels off at a highest level: (level - source) times the fraction changed. */
export function additionForMgL(highestMgL: number, fraction: number, sourceMgL = 0): Figure {
  const problem =
    negative("level", highestMgL, "mg/L") ?? negative("source water", sourceMgL, "mg/L") ?? share(fraction);
  if (problem !== undefined) return problem;
  if (highestMgL < sourceMgL) return outside(`the source water alone brings it to ${sourceMgL} mg/L`);
  return (highestMgL - sourceMgL) * fraction;
}

/**
 * Periods until a share of the way from the first level to the last is done: what is left shrinks by (1 - fraction)
 * a period. @param done 0 to below 1: 0.95 for nineteen twentieths
 */
export function periodsUntil(done: number, fraction: number): Figure {
  const problem = share(fraction);
  if (problem !== undefined) return problem;
  if (!(done >= 0 && done < 1))
    return outside(`share ${done} is not 0 to below 1: the last is never reached`);
  if (fraction === 1) return done === 0 ? 0 : 1;
  // A whole number of periods must not become one more by the last bit of a logarithm.
  return Math.max(0, Math.ceil(Math.log1p(-done) / Math.log1p(-fraction) - 1e-9));
}

function share(fraction: number): Outside | undefined {
  if (fraction > 0 && fraction <= 1) return undefined;
  return outside(`fraction ${fraction} is not more than 0 and at most 1`);
}

function elementShares(formula: string): Readonly<Record<string, number>> | Outside {
  const held = atoms(formula);
  if (isOutside(held)) return held;
  const shares: Record<string, number> = {};
  for (const element of held.keys()) {
    const part = ionFraction(formula, element);
    if (isOutside(part)) return part;
    if (!["H", "C", "O"].includes(element)) shares[element] = part;
  }
  return shares;
}

function statedShares(percent: Readonly<Record<string, number>>): Readonly<Record<string, number>> | Outside {
  const stated = Object.entries(percent);
  const whole = stated.reduce((sum, [, value]) => sum + value, 0);
  if (!(whole <= 100)) return outside(`the stated percentages together are ${whole}`);
  for (const [element, value] of stated) {
    const wrong = negative(element, value, "%");
    if (wrong !== undefined) return wrong;
  }
  return Object.fromEntries(stated.map(([element, value]) => [element, value / 100]));
}
