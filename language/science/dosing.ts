/**
 * Doses: amounts, stock solutions and what a change takes away. A calculation never says that a dose is
 * harmless: label, local rules and a veterinarian come first.
 *
 * amount = V * CF * ppm * 100/%active: SRAC 410 (Masser & Jensen 1991), where CF is the weight that makes 1
 * ppm; in litres and mg/L the CF is 0.001 g/L by definition, so one formula in SI serves every unit of
 * volume.
 */
import { type Figure, outside } from "./result.ts";

/**
 * Product to weigh for a concentration of its active part.
 * @param activeFraction 0..1 of the product's mass
 */
export function productMg(targetMgL: number, volumeL: number, activeFraction = 1): Figure {
  if (!(activeFraction > 0 && activeFraction <= 1))
    return outside("the active part is more than 0 and at most 100 %");
  return (targetMgL * volumeL) / activeFraction;
}

/** Concentration of the active part that a mass of product makes. */
export function concentrationMgL(productMgWeighed: number, volumeL: number, activeFraction = 1): number {
  return (productMgWeighed * activeFraction) / volumeL;
}

/** Volume of a stock solution for a target: C1 V1 = C2 V2, the stock's own volume in the tank neglected. */
export function stockML(targetMgL: number, volumeL: number, stockMgPerML: number): number {
  return (targetMgL * volumeL) / stockMgPerML;
}

/** Concentration that a volume of stock makes. */
export function concentrationFromStockMgL(
  stockMLAdded: number,
  volumeL: number,
  stockMgPerML: number,
): number {
  return (stockMLAdded * stockMgPerML) / volumeL;
}

/** Concentration after diluting: C1 V1/V2 in whatever unit C1 has. */
export function diluted(concentration: number, takenL: number, madeUpToL: number): number {
  return (concentration * takenL) / madeUpToL;
}

/** Salt for a stock: mass to dissolve and make up to a volume. x % weight in volume is 10x g/L. */
export function stockMassMg(stockMgPerML: number, stockMLMade: number): number {
  return stockMgPerML * stockMLMade;
}

/** g/L of a per cent weight in volume, by definition. */
export function gPerLFromPercentWV(percent: number): number {
  return percent * 10;
}

/** Liquid by volume for parts per million by volume: 1 ppm v/v = 1 uL/L. */
export function liquidML(targetULPerL: number, volumeL: number): number {
  return (targetULPerL * volumeL) / 1000;
}

/** Liquid by volume for mg/L of the liquid itself: mass divided by density. */
export function liquidForMassML(targetMgL: number, volumeL: number, densityGPerML: number): number {
  return (targetMgL * volumeL) / 1000 / densityGPerML;
}

/** What a change took away and must be put back to hold the dose: dose * f * V. Mass balance. */
export function redoseMg(doseMgL: number, fraction: number, volumeL: number): number {
  return doseMgL * fraction * volumeL;
}

/**
 * Level just after the n-th of equal doses, one every so many days, when a share of it is left at each next
 * dose: D (1-r^n)/(1-r), with r = (1-f) 2^(-days/half-life). Geometric series; r = 1 gives nD.
 */
export function afterRepeats(doseMgL: number, count: number, shareLeft: number): number {
  if (shareLeft === 1) return doseMgL * count;
  return (doseMgL * (1 - shareLeft ** count)) / (1 - shareLeft);
}

/**
 * The share of a dose left after a time of decay and a change.
 * @param halfLifeDays Infinity: it does not break down
 */
export function shareLeftAtRepeat(days: number, halfLifeDays: number, changeFraction: number): number {
  return (1 - changeFraction) * 2 ** (-days / halfLifeDays);
}

/**
 * Copper sulfate pentahydrate ceiling by alkalinity: mg/L = alkalinity/100; SRAC 410 and extension practice,
 * which do not use it below about 50 mg/L alkalinity as CaCO3, where this gives a reason and no figure.
 */
export function copperSulfateCeilingMgL(alkalinityMgLCaCO3: number): Figure {
  if (!(alkalinityMgLCaCO3 >= 50))
    return outside("copper sulfate is not used below 50 mg/L alkalinity as CaCO3");
  return alkalinityMgLCaCO3 / 100;
}

/**
 * Oxygen that formalin consumes: about 1 mg/L for each 5 ppm (Piper et al. 1982, Fish Hatchery Management, p.
 * 276).
 */
export function formalinOxygenMgL(formalinPpm: number): number {
  return formalinPpm / 5;
}

/**
 * Chloride to protect against nitrite at a weight ratio: SRAC 462 (Durborow, Crosby & Brunson 1997) says 10:1
 * or more.
 */
export function chlorideForNitriteMgL(nitriteMgL: number, ratio = 10): number {
  return nitriteMgL * ratio;
}

/** NaCl that carries a mass of chloride: 58.44/35.45 by CIAAW 2021 weights (Na 22.98976928, Cl 35.45). */
export function saltForChloride(chloride: number): number {
  return (chloride * (22.98976928 + 35.45)) / 35.45;
}
