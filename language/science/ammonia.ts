/**
 * Un-ionised ammonia in fresh water: Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383:
 * pKa = 0.09018 + 2729.92/T, fraction = 1/(1 + 10^(pKa - pH)), T in kelvin, 0 to 50 C, dilute water.
 *
 * A widely copied manual prints 2727.92, which reads about 1.5 % high; it is not used here. The printed table of 1975
 * follows 273.2 as the zero; 273.15 differs from it by 0.4 %, less than its rounding.
 */
import { beyond, type Figure, map, outside } from "./result.ts";

const KELVIN = 273.15;
/** The salinity above which water is not the dilute water of 1975 (common practice, no source). */
const DILUTE_G_PER_KG = 1;

/** pKa of ammonium in fresh water. @returns outside 0 to 50 C: a reason */
export function ammoniumPKa(temperatureC: number): Figure {
  return beyond("temperature", temperatureC, 0, 50, "C") ?? 0.09018 + 2729.92 / (temperatureC + KELVIN);
}

/**
 * The share of total ammonia that is NH3, 0..1.
 * @param salinityGPerKg fresh water only; brackish and sea water give a reason
 */
export function unionisedFraction(pH: number, temperatureC: number, salinityGPerKg = 0): Figure {
  if (salinityGPerKg > DILUTE_G_PER_KG) return outside("the formula of 1975 is for fresh water");
  const wrongPH = beyond("pH", pH, 0, 14);
  if (wrongPH !== undefined) return wrongPH;
  return map(ammoniumPKa(temperatureC), (pKa) => 1 / (1 + 10 ** (pKa - pH)));
}

/** Un-ionised ammonia as N, from total ammonia as N. */
export function freeAmmoniaMgLN(totalMgLN: number, pH: number, temperatureC: number): Figure {
  return map(unionisedFraction(pH, temperatureC), (fraction) => fraction * totalMgLN);
}

/** The total ammonia (as N) at which the un-ionised part reaches a limit, at this pH and temperature. */
export function totalForFreeMgLN(freeMgLN: number, pH: number, temperatureC: number): Figure {
  return map(unionisedFraction(pH, temperatureC), (fraction) => freeMgLN / fraction);
}
