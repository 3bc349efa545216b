/**
 * Un-ionised ammonia in fresh water: Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can.
 * 32:2379-2383: pKa = 0.09018 + 2729.92/T, fraction = 1/(1 + 10^(pKa - pH)), T in kelvin, 0 to 50 C, dilute
 * water.
 *
 * A widely copied manual prints 2727.92, which reads about 1.5 % high; it is not used here. The printed table
 * of 1975 follows 273.2 as the zero; 273.15 differs from it by 0.4 %, less than its rounding.
 */
import { negative } from "./given.ts";
import { beyond, type Figure, map, outside } from "./result.ts";

const KELVIN = 273.15;
/** The salinity above which water is not the dilute water of 1975 (*common practice, no source*). */
export const DILUTE_G_PER_KG = 1;

/** pKa of ammonium in fresh water. @returns outside 0 to 50 C: a reason */
export function ammoniumPKa(temperatureC: number): Figure {
  return beyond("temperature", temperatureC, 0, 50, "C") ?? 0.09018 + 2729.92 / (temperatureC + KELVIN);
}

/**
 * The share of total ammonia that is NH3, 0..1.
 * @param salinityGPerKg fresh water only; for brackish and sea water `ammoniaShare` picks a formula
 */
export function unionisedFraction(pH: number, temperatureC: number, salinityGPerKg = 0): Figure {
  if (salinityGPerKg > DILUTE_G_PER_KG) return outside("the formula of 1975 is for fresh water");
  const refused = negative("salinity", salinityGPerKg, "g/kg") ?? beyond("pH", pH, 0, 14);
  if (refused !== undefined) return refused;
  return map(ammoniumPKa(temperatureC), (pKa) => 1 / (1 + 10 ** (pKa - pH)));
}

/** Un-ionised ammonia as N, from total ammonia as N. */
export function freeAmmoniaMgLN(totalMgLN: number, pH: number, temperatureC: number): Figure {
  return (
    negative("total ammonia", totalMgLN, "mg/L N") ??
    map(unionisedFraction(pH, temperatureC), (fraction) => fraction * totalMgLN)
  );
}

/** The total ammonia (as N) at which the un-ionised part reaches a limit, at this pH and temperature. */
export function totalForFreeMgLN(freeMgLN: number, pH: number, temperatureC: number): Figure {
  return (
    negative("free ammonia", freeMgLN, "mg/L N") ??
    map(unionisedFraction(pH, temperatureC), (fraction) => freeMgLN / fraction)
  );
}

/**
 * The share of total ammonia that is NH3 in sea water, NBS-type pH: pKa = 10.0423 - 0.0315536 T + 0.003071 S
 * (Bell, Johnson, Jickells & Liss 2007, Environ. Chem. 4:183-186, corrected 2008, 5:258; coefficients as
 * public ocean models carry them), within 2 % of the table of Bower & Bidwell 1978 (J. Fish. Res. Board Can.
 * 35:1012-1016), whose 0 to 25 C and salinity 32 to 40 (recalled) bound it here.
 */
export function unionisedFractionSeawater(pHNbs: number, temperatureC: number, salinity: number): Figure {
  return (
    beyond("temperature", temperatureC, 0, 25, "C") ??
    beyond("salinity", salinity, 32, 40) ??
    beyond("pH", pHNbs, 7, 9) ??
    1 / (1 + 10 ** (10.0423 - 0.0315536 * temperatureC + 0.003071 * salinity - pHNbs))
  );
}
