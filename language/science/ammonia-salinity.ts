/**
 * The share of total ammonia that is NH3 from fresh to sea water, with the formula that gave it.
 *
 * Up to 1 g/kg: Emerson and others 1975 (`ammonia.ts`). Above, to 40: the model of Clegg & Whitfield 1995,
 * Geochim. Cosmochim. Acta 59:2403-2421, for estuarine and sea water, salinity 0 to 40, -2 to 40 C, which its
 * authors put within 5 % in Ka (abstract, read). The coefficients of their fit were read in two public models
 * of sea water that cite it, not in the paper: the one used here, and one on the total hydrogen ion scale that the
 * tests compare. They differ by log10(1 + [SO4]/K(HSO4)), as free and total scale must, so this one is on the
 * free scale.
 *
 * At 1 g/kg the two formulas differ by less than 0.002 in pKa, half a percent of the share (0 to 40 C). A
 * meter set on the usual buffers reads the NBS scale. In sea water that is near the free scale: beside
 * Bower & Bidwell's NBS constants (`unionisedFractionSeawater`) this one differs by at most 0.05 in pKa, 11
 * % in the share, and from 5 to 25 C by 0.03, 7 %. For brackish water no published comparison of the
 * two scales was found; 0.1 in pH is a quarter of the share.
 */
import { ammoniumPKa, DILUTE_G_PER_KG } from "./ammonia.ts";
import { beyond, isOutside, type Outside } from "./result.ts";

const KELVIN = 273.15;

export interface AmmoniaShare {
  /** NH3 over total ammonia, 0..1. */
  readonly share: number;
  readonly pKa: number;
  /** The formula in words that can be checked by hand, or its name where it is long. */
  readonly formula: string;
  readonly source: string;
  /** What the pH is taken to be. */
  readonly pHScale: string;
}

const FRESH = {
  formula: "pKa = 0.09018 + 2729.92 / T",
  source: "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383",
  pHScale: "as a meter reads it in dilute water",
};
const SALTY = {
  formula: "pKa by temperature and salinity, fit of a model of sea water with ammonia",
  source: "Clegg & Whitfield 1995, Geochim. Cosmochim. Acta 59:2403-2421",
  pHScale: "free hydrogen ion; in sea water near what a meter set on NBS buffers reads",
};

/** The share, by the formula for this salinity. */
export function ammoniaShare(
  pH: number,
  temperatureC: number,
  salinityGPerKg: number,
): AmmoniaShare | Outside {
  const refused = beyond("pH", pH, 0, 14) ?? beyond("salinity", salinityGPerKg, 0, 40, "g/kg");
  if (refused !== undefined) return refused;
  const dilute = salinityGPerKg <= DILUTE_G_PER_KG;
  const pKa = dilute ? ammoniumPKa(temperatureC) : saltyPKa(temperatureC, salinityGPerKg);
  if (isOutside(pKa)) return pKa;
  return { share: 1 / (1 + 10 ** (pKa - pH)), pKa, ...(dilute ? FRESH : SALTY) };
}

function saltyPKa(temperatureC: number, S: number): number | Outside {
  const refused = beyond("temperature", temperatureC, 0, 40, "C");
  if (refused !== undefined) return refused;
  const T = temperatureC + KELVIN;
  return (
    9.244605 -
    2729.33 * (1 / 298.15 - 1 / T) +
    (0.0500616 - 9.412696 / T - 2.029559e-7 * T ** 2) * Math.sqrt(S) +
    (-0.0142372 + 1.46041e-5 * T + 3.730005 / T) * S +
    (7.14045e-5 - 0.0229021 / T) * S ** 2 +
    (-5.521278e-7 + 1.95413e-4 / T) * S ** 3
  );
}
