/**
 * Doses: amounts, stock solutions and what a change takes away. A calculation never says that a dose is
 * harmless: label, local rules and a veterinarian come first.
 *
 * amount = V * CF * ppm * 100/%active: SRAC 410 (Masser & Jensen 1991), where CF is the weight that makes 1
 * ppm; in litres and mg/L the CF is 0.001 g/L by definition, so one formula in SI serves every unit of
 * volume.
 */
import { molarMass } from "./elements.ts";
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure, type Outside, outside } from "./result.ts";

/**
 * Product to weigh for a concentration of its active part.
 * @param activeFraction 0..1 of the product's mass
 */
export function productMg(targetMgL: number, volumeL: number, activeFraction = 1): Figure {
  return aimed(targetMgL, volumeL) ?? active(activeFraction) ?? (targetMgL * volumeL) / activeFraction;
}

/** Concentration of the active part that a mass of product makes. */
export function concentrationMgL(productMgWeighed: number, volumeL: number, activeFraction = 1): Figure {
  return (
    negative("product", productMgWeighed, "mg") ??
    notPositive("volume", volumeL, "L") ??
    active(activeFraction) ??
    (productMgWeighed * activeFraction) / volumeL
  );
}

/** Volume of a stock solution for a target: C1 V1 = C2 V2, the stock's own volume in the tank neglected. */
export function stockML(targetMgL: number, volumeL: number, stockMgPerML: number): Figure {
  return (
    aimed(targetMgL, volumeL) ??
    notPositive("strength", stockMgPerML, "mg/mL") ??
    (targetMgL * volumeL) / stockMgPerML
  );
}

/** Concentration that a volume of stock makes. */
export function concentrationFromStockMgL(
  stockMLAdded: number,
  volumeL: number,
  stockMgPerML: number,
): Figure {
  return (
    negative("stock", stockMLAdded, "mL") ??
    notPositive("volume", volumeL, "L") ??
    negative("strength", stockMgPerML, "mg/mL") ??
    (stockMLAdded * stockMgPerML) / volumeL
  );
}

/** Concentration after diluting: C1 V1/V2 in whatever unit C1 has. */
export function diluted(concentration: number, takenL: number, madeUpToL: number): Figure {
  return (
    negative("concentration", concentration) ??
    notPositive("volume made up to", madeUpToL, "L") ??
    beyond("volume taken", takenL, 0, madeUpToL, "L") ??
    (concentration * takenL) / madeUpToL
  );
}

/** Salt for a stock: mass to dissolve and make up to a volume. x % weight in volume is 10x g/L. */
export function stockMassMg(stockMgPerML: number, stockMLMade: number): Figure {
  return (
    negative("strength", stockMgPerML, "mg/mL") ??
    notPositive("stock made", stockMLMade, "mL") ??
    stockMgPerML * stockMLMade
  );
}

/** The strength at which so many mL of stock make a target in a tank: C1 = C2 V2/V1. */
export function strengthForMgPerML(targetMgL: number, volumeL: number, eachML: number): Figure {
  return aimed(targetMgL, volumeL) ?? notPositive("one dose", eachML, "mL") ?? (targetMgL * volumeL) / eachML;
}

/** g/L of a per cent weight in volume, by definition. */
export function gPerLFromPercentWV(percent: number): Figure {
  return negative("per cent weight in volume", percent, "%") ?? percent * 10;
}

/** Liquid by volume for parts per million by volume: 1 ppm v/v = 1 uL/L. */
export function liquidML(targetULPerL: number, volumeL: number): Figure {
  return aimed(targetULPerL, volumeL, "uL/L") ?? (targetULPerL * volumeL) / 1000;
}

/** Liquid by volume for mg/L of the liquid itself: mass divided by density. */
export function liquidForMassML(targetMgL: number, volumeL: number, densityGPerML: number): Figure {
  return (
    aimed(targetMgL, volumeL) ??
    notPositive("density", densityGPerML, "g/mL") ??
    (targetMgL * volumeL) / 1000 / densityGPerML
  );
}

/** What a change took away and must be put back to hold the dose: dose * f * V. Mass balance. */
export function redoseMg(doseMgL: number, fraction: number, volumeL: number): Figure {
  return (
    aimed(doseMgL, volumeL) ??
    beyond("share of the water changed", fraction, 0, 1) ??
    doseMgL * fraction * volumeL
  );
}

/**
 * Level just after the n-th of equal doses, one every so many days, when a share of it is left at each next
 * dose: D (1-r^n)/(1-r), with r = (1-f) 2^(-days/half-life). Geometric series; r = 1 gives nD.
 */
export function afterRepeats(doseMgL: number, count: number, shareLeft: number): Figure {
  const refused =
    negative("dose", doseMgL, "mg/L") ??
    negative("number of doses", count) ??
    beyond("share left of a dose", shareLeft, 0, 1);
  if (refused !== undefined) return refused;
  if (!Number.isInteger(count)) return outside(`number of doses ${count} is not whole`);
  if (shareLeft === 1) return doseMgL * count;
  return (doseMgL * (1 - shareLeft ** count)) / (1 - shareLeft);
}

/**
 * The highest level that repeats without end come to, just after a dose: D/(1-r), the sum of the series above.
 * @param shareLeft of a dose at the next one
 */
export function afterEndlessRepeats(doseMgL: number, shareLeft: number): Figure {
  const refused = negative("dose", doseMgL, "mg/L") ?? beyond("share left of a dose", shareLeft, 0, 1);
  if (refused !== undefined) return refused;
  if (shareLeft === 1) return outside("nothing of a dose is gone by the next: repeats pile up without end");
  return doseMgL / (1 - shareLeft);
}

/**
 * The share of a dose left after a time of decay and a change.
 * @param halfLifeDays Infinity: it does not break down
 */
export function shareLeftAtRepeat(days: number, halfLifeDays: number, changeFraction: number): Figure {
  if (!(halfLifeDays > 0)) return outside(`half-life ${halfLifeDays} d is not a figure of more than 0`);
  return (
    negative("time between doses", days, "d") ??
    beyond("share of the water changed", changeFraction, 0, 1) ??
    (1 - changeFraction) * 2 ** (-days / halfLifeDays)
  );
}

/**
 * Copper sulfate pentahydrate ceiling by alkalinity: mg/L = alkalinity/100; SRAC 410 and extension practice,
 * which do not use it below about 50 mg/L alkalinity as CaCO3, where this gives a reason and no figure.
 */
export function copperSulfateCeilingMgL(alkalinityMgLCaCO3: number): Figure {
  if (!(alkalinityMgLCaCO3 >= 50))
    return outside("copper sulfate is not used below 50 mg/L alkalinity as CaCO3");
  return negative("alkalinity", alkalinityMgLCaCO3, "mg/L CaCO3") ?? alkalinityMgLCaCO3 / 100;
}

/**
 * Oxygen that formalin consumes: about 1 mg/L for each 5 mg/L of formalin (Piper et al. 1982, Fish Hatchery
 * Management, p. 276, in ppm, whose formalin is by weight; Francis-Floyd, VM-77, University of Florida, in mg/L).
 */
export function formalinOxygenMgL(formalinMgL: number): Figure {
  return negative("formalin", formalinMgL, "mg/L") ?? formalinMgL / 5;
}

/**
 * Chloride to protect against nitrite at a weight ratio: SRAC 462 (Durborow, Crosby & Brunson 1997) says 10:1
 * or more.
 */
export function chlorideForNitriteMgL(nitriteMgL: number, ratio = 10): Figure {
  return (
    negative("nitrite", nitriteMgL, "mg/L") ??
    notPositive("ratio of chloride to nitrite", ratio) ??
    nitriteMgL * ratio
  );
}

/** NaCl that carries a mass of chloride: 58.44/35.45 (`elements.ts`). */
export function saltForChloride(chloride: number): Figure {
  return negative("chloride", chloride) ?? chloride * NACL_PER_CL;
}

const NACL_PER_CL = (molarMass("NaCl") as number) / (molarMass("Cl") as number);

function aimed(target: number, volumeL: number, unit = "mg/L"): Outside | undefined {
  return negative("dose", target, unit) ?? notPositive("volume", volumeL, "L");
}

function active(fraction: number): Outside | undefined {
  if (fraction > 0 && fraction <= 1) return undefined;
  return outside("the active part is more than 0 and at most 100 %");
}
