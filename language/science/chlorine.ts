/**
 * Chlorine of tap water and what takes it up. mg/L of chlorine are as Cl2, as tests say them. Nothing here takes
 * ammonia out: neutralised chloramine leaves its ammonia behind. A total chlorine test afterwards is what tells.
 *
 * Oxygen is not reckoned: a utility field guide calls thiosulfate a weak oxygen scavenger and reports none for
 * ascorbic acid (AWWA, Disinfection of Pipelines and Storage Facilities, table 7-2, seen), without a figure.
 */
import { molarMass } from "./elements.ts";
import { negative, notPositive } from "./given.ts";
import { type Figure, type Outside, outside } from "./result.ts";

const CL2 = molarMass("Cl2") as number;

/**
 * Moles of thiosulfate for a mole of chlorine, by what it becomes. In tap water it is not known beforehand how
 * far it goes; tetrathionate needs the most and so is the cautious one. Reactions (recalled; the amounts follow):
 * - tetrathionate: 2 S2O3(2-) + Cl2 -> S4O6(2-) + 2 Cl(-)
 * - sulfur: S2O3(2-) + Cl2 + H2O -> SO4(2-) + S + 2 Cl(-) + 2 H(+)
 * - sulfate: S2O3(2-) + 4 Cl2 + 5 H2O -> 2 SO4(2-) + 8 Cl(-) + 10 H(+)
 */
export const THIOSULFATE_PER_CHLORINE = { tetrathionate: 2, sulfur: 1, sulfate: 1 / 4 } as const;
export type ThiosulfatePath = keyof typeof THIOSULFATE_PER_CHLORINE;

/** The two forms that are sold: crystals hold five waters. */
export const THIOSULFATE = { anhydrous: "Na2S2O3", pentahydrate: "Na2S2O3.5H2O" } as const;
export type ThiosulfateForm = keyof typeof THIOSULFATE;

/**
 * mg of sodium thiosulfate for a mg of chlorine. For the pentahydrate 7.00, 3.50 and 0.875; an instrument maker's
 * sheet for samples says 7.0 (seen), the field guide above about 1.9 from experience at pH 7, between the paths.
 */
export function thiosulfateMgPerMg(form: ThiosulfateForm, path: ThiosulfatePath = "tetrathionate"): number {
  return (THIOSULFATE_PER_CHLORINE[path] * (molarMass(THIOSULFATE[form]) as number)) / CL2;
}

/**
 * Sodium thiosulfate for the new water, in mg.
 * @param totalMgL total chlorine, free and combined: both use it up alike
 * @param newWaterL of new water, not of the tank: only the new water brings chlorine
 */
export function thiosulfateMg(
  totalMgL: number,
  newWaterL: number,
  form: ThiosulfateForm,
  path: ThiosulfatePath = "tetrathionate",
): Figure {
  return (
    negative("total chlorine", totalMgL, "mg/L") ??
    notPositive("volume", newWaterL, "L") ??
    totalMgL * newWaterL * thiosulfateMgPerMg(form, path)
  );
}

/**
 * mg of ascorbic acid for a mg of free chlorine: 2.48, mole for mole (C6H8O6 + HOCl -> C6H6O6 + H2O + HCl); 2.5 in
 * AWWA table 7-2 (seen).
 */
export const ASCORBIC_ACID_MG_PER_MG = (molarMass("C6H8O6") as number) / CL2;

/**
 * Ascorbic acid for the new water, in mg; it lowers pH where there is little alkalinity. For free chlorine only:
 * on monochloramine it was found without effect (Basu & De Souza 2011, J. Water Supply Res. Technol. AQUA
 * 60:167-177, abstract seen; utilities report otherwise), so combined chlorine gives a reason.
 */
export function ascorbicAcidMg(freeMgL: number, combinedMgL: number, newWaterL: number): Figure {
  const problem =
    negative("free chlorine", freeMgL, "mg/L") ??
    negative("combined chlorine", combinedMgL, "mg/L") ??
    notPositive("volume", newWaterL, "L");
  if (problem !== undefined) return problem;
  if (combinedMgL > 0) return outside("ascorbic acid is not shown to take up combined chlorine");
  return freeMgL * newWaterL * ASCORBIC_ACID_MG_PER_MG;
}

/** Combined chlorine, the chloramines: total less free, as there is no test of its own. */
export function combinedChlorineMgL(totalMgL: number, freeMgL: number): Figure {
  const problem = negative("total chlorine", totalMgL, "mg/L") ?? negative("free chlorine", freeMgL, "mg/L");
  if (problem !== undefined) return problem;
  if (freeMgL > totalMgL) return outside(`free chlorine ${freeMgL} mg/L is more than the total ${totalMgL}`);
  return totalMgL - freeMgL;
}

/** mg of nitrogen for a mg of combined chlorine, were it all monochloramine, NH2Cl: 0.1975. */
export const AMMONIA_N_PER_COMBINED = (molarMass("N") as number) / CL2;

/**
 * Total ammonia as N that neutralised chloramine leaves in the tank, in mg/L. Ammonia that the tap holds besides
 * comes on top; what of it is NH3 follows from pH and temperature. Dichloramine would leave half.
 * @param fraction of the tank that is new water, 0 to 1
 */
export function ammoniaReleasedMgLN(combinedMgL: number, fraction = 1): Figure {
  const problem = negative("combined chlorine", combinedMgL, "mg/L") ?? negative("fraction", fraction);
  if (problem !== undefined) return problem;
  if (fraction > 1) return outside(`fraction ${fraction} is more than the whole tank`);
  return combinedMgL * fraction * AMMONIA_N_PER_COMBINED;
}

/**
 * Criteria for total residual chlorine in fresh water, mg/L: EPA 1985, Ambient Water Quality Criteria for Chlorine
 * 1984, EPA 440/5-84-030. Acute, an hour's mean: 0.019 (read in a later permit comment that cites it). Chronic, a
 * mean of four days: 0.011 (recalled). Both lie below what a colour test shows, so that a test of none tells
 * nothing about them (*common practice, no source*).
 */
export const TOTAL_CHLORINE_CRITERIA_MG_L = { acute: 0.019, chronic: 0.011 } as const;

/** Which of the two criteria a measured total chlorine exceeds. None is no verdict on the animals of one tank. */
export function criteriaExceeded(
  totalMgL: number,
): readonly (keyof typeof TOTAL_CHLORINE_CRITERIA_MG_L)[] | Outside {
  const problem = negative("total chlorine", totalMgL, "mg/L");
  if (problem !== undefined) return problem;
  return (["acute", "chronic"] as const).filter((name) => totalMgL > TOTAL_CHLORINE_CRITERIA_MG_L[name]);
}
