/**
 * Ammonia in the forms in which tests and limits state it: as nitrogen, as NH3, as NH4+. Factors are molar
 * masses over that of nitrogen (CIAAW 2021, `elements.ts`): NH3 1.216, NH4 1.288.
 */
import { molarMass } from "./elements.ts";
import { negative } from "./given.ts";
import { beyond, type Figure, type Outside } from "./result.ts";

export type AmmoniaForm = "N" | "NH3" | "NH4";

const N = molarMass("N") as number;
const PER_N: Readonly<Record<AmmoniaForm, number>> = {
  N: 1,
  NH3: (molarMass("NH3") as number) / N,
  NH4: (molarMass("NH4") as number) / N,
};

/** The same ammonia stated in another form. It says nothing of how much of it is which. */
export function ammoniaAs(mgL: number, from: AmmoniaForm, to: AmmoniaForm): Figure {
  return negative("ammonia", mgL, "mg/L") ?? (mgL / PER_N[from]) * PER_N[to];
}

export interface SplitAmmonia {
  readonly nh3MgLN: number;
  readonly nh4MgLN: number;
  readonly nh3MgL: number;
  readonly nh4MgL: number;
}

/** Total ammonia as N in its two parts. @param share NH3 over the total, 0..1 */
export function splitAmmonia(totalMgLN: number, share: number): SplitAmmonia | Outside {
  const refused = negative("total ammonia", totalMgLN, "mg/L N") ?? beyond("share of NH3", share, 0, 1);
  if (refused !== undefined) return refused;
  const nh3MgLN = totalMgLN * share;
  const nh4MgLN = totalMgLN * (1 - share);
  return { nh3MgLN, nh4MgLN, nh3MgL: nh3MgLN * PER_N.NH3, nh4MgL: nh4MgLN * PER_N.NH4 };
}
