/**
 * Copper criteria by hardness, ug/L, hardness 25 to 400 mg/L as CaCO3: exp(m ln H + b).
 * EPA 1985 (440/5-84-031) total recoverable; EPA 1995 update, dissolved, with the factor 0.960. EPA 2007 went
 * over to a biotic ligand model, which needs more of the water than a keeper measures. Invertebrates die at
 * less than fish.
 */
import { beyond, type Figure } from "./result.ts";

function criterion(hardness: number, slope: number, intercept: number, dissolved = 1): Figure {
  return (
    beyond("hardness", hardness, 25, 400, "mg/L CaCO3") ??
    dissolved * Math.exp(slope * Math.log(hardness) + intercept)
  );
}

export const copperAcuteTotalUgL = (hardnessMgLCaCO3: number): Figure =>
  criterion(hardnessMgLCaCO3, 0.9422, -1.464);
export const copperChronicTotalUgL = (hardnessMgLCaCO3: number): Figure =>
  criterion(hardnessMgLCaCO3, 0.8545, -1.465);
export const copperAcuteDissolvedUgL = (hardnessMgLCaCO3: number): Figure =>
  criterion(hardnessMgLCaCO3, 0.9422, -1.7, 0.96);
export const copperChronicDissolvedUgL = (hardnessMgLCaCO3: number): Figure =>
  criterion(hardnessMgLCaCO3, 0.8545, -1.702, 0.96);
