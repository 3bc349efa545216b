/**
 * Hardness and alkalinity. Degrees by their definitions with CIAAW 2021 weights: 1 dH = 10 mg CaO/L, 1 fH =
 * 10 mg CaCO3/L, 1 eH = 1 grain CaCO3 per imperial gallon. Pages that use CaCO3 = 100.0 differ in the fourth
 * figure.
 */
import { negative } from "./given.ts";
import type { Figure } from "./result.ts";

const CA = 40.078;
const MG = 24.305;
const CACO3 = 40.078 + 12.011 + 3 * 15.999;
const CAO = 40.078 + 15.999;

/** meq/L of one German degree: 10 mg CaO, two equivalents a mole. */
export const MEQ_PER_DEGREE = (2 * 10) / CAO;
/** mg CaCO3 of one milliequivalent. */
export const CACO3_MG_PER_MEQ = CACO3 / 2;

/**
 * Hardness as CaCO3 from calcium and magnesium: 2.497 Ca + 4.118 Mg (Standard Methods 2340 B), from the
 * weights.
 */
export function hardnessMgLCaCO3(calciumMgL: number, magnesiumMgL: number): Figure {
  return (
    negative("calcium", calciumMgL, "mg/L") ??
    negative("magnesium", magnesiumMgL, "mg/L") ??
    hardnessMeqL(calciumMgL, magnesiumMgL) * CACO3_MG_PER_MEQ
  );
}

/** Calcium that makes so many meq/L of hardness, were all of it calcium. */
export function calciumMgL(hardnessMeqL: number): Figure {
  return negative("hardness", hardnessMeqL, "meq/L") ?? (hardnessMeqL * CA) / 2;
}

/** Magnesium that makes so many meq/L of hardness, were all of it magnesium. */
export function magnesiumMgL(hardnessMeqL: number): Figure {
  return negative("hardness", hardnessMeqL, "meq/L") ?? (hardnessMeqL * MG) / 2;
}

/** Both metals in meq/L from their mg/L, for sums that may run below zero on their way. */
export function hardnessMeqL(calciumMgL: number, magnesiumMgL: number): number {
  return (2 * calciumMgL) / CA + (2 * magnesiumMgL) / MG;
}
