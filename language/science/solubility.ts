/** How much of the slow salts dissolves at all. Both limits take ions at their full activity, so read low. */
import { logK1, logK2, logKHenry } from "./carbonate.ts";
import { molarMass } from "./elements.ts";
import { notPositive } from "./given.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";
import type { Water } from "./water.ts";

/**
 * mmol/L of gypsum in pure water at 25 C, the least of the published estimates: 0.0147 to 0.0182 mol/L, Lebedev
 * & Kosorukov 2017, Geochem. Int. 55:205-210 (abstract seen). As gypsum that is 2.53 g/L.
 */
export const GYPSUM_MMOL_L = 14.7;

/** A water without a temperature is taken to stand at 25 C, the reference state of the constants. */
const REFERENCE_C = 25;

/** How far a water is towards saturation with gypsum: 1 at the ion product of `GYPSUM_MMOL_L`. */
export function gypsumSaturation(water: Water): number {
  const calcium = (water.calciumMgL ?? 0) / (molarMass("Ca") as number);
  const sulfate = (water.sulfateMgL ?? 0) / (molarMass("SO4") as number);
  return Math.sqrt(calcium * sulfate) / GYPSUM_MMOL_L;
}

/**
 * Calcium carbonate that pure water in contact with air dissolves in the end: Ca (HCO3)^2 = K, with HCO3 = 2 Ca.
 * At 25 C in outdoor air about 47 mg/L; ion pairs and activities, left out, add a tenth to it.
 */
export function calciteMgL(temperatureC: number, co2InAirPpm: number): Figure {
  const product = calciteProduct(temperatureC, co2InAirPpm);
  if (isOutside(product)) return product;
  return Math.cbrt(product / 4) * 1000 * (molarMass("CaCO3") as number);
}

/**
 * Whether what is used dissolves: a reason where calcium sulfate cannot, remarks on what takes its time.
 * @param used formulas of salts
 */
export function dissolving(used: readonly string[], water: Water, co2InAirPpm: number): string[] | Outside {
  if (gypsumSaturation(water) > 1) {
    return outside(`calcium and sulfate are more than dissolves: ${GYPSUM_MMOL_L} mmol/L of each at 25 C`);
  }
  const of = (pattern: RegExp) => used.filter((formula) => pattern.test(formula));
  const remarks = of(/CaSO4/).map(
    (formula) => `${formula} dissolves slowly, up to ${GYPSUM_MMOL_L} mmol/L at 25 C (2.53 g/L of gypsum)`,
  );
  for (const formula of of(/^Mg|MgCO3|CaMg/).filter((one) => one.includes("CO3"))) {
    remarks.push(`how much of ${formula} dissolves is not known here: see that the water clears`);
  }
  const [lime] = of(/^CaCO3/);
  if (lime === undefined) return remarks;
  const temperatureC = water.temperatureC ?? REFERENCE_C;
  const filled = calciteSaturation(water, temperatureC, co2InAirPpm);
  const alone = calciteMgL(temperatureC, co2InAirPpm);
  if (isOutside(filled) || isOutside(alone)) return [filled, alone].find(isOutside)!;
  const limit = `pure water in air of ${co2InAirPpm} ppm CO2 takes about ${alone.toFixed(0)} mg/L at ${temperatureC} C`;
  remarks.push(
    filled > 1
      ? `${lime} does not dissolve in full without more CO2 than the air holds: ${limit}`
      : `${lime} dissolves only as it takes up CO2: ${limit}`,
  );
  return remarks;
}

/** How far a water in contact with air is towards saturation with calcite: 1 where Ca (HCO3)^2 is K. */
export function calciteSaturation(water: Water, temperatureC: number, co2InAirPpm: number): Figure {
  const product = calciteProduct(temperatureC, co2InAirPpm);
  if (isOutside(product)) return product;
  const calcium = (water.calciumMgL ?? 0) / (molarMass("Ca") as number) / 1000;
  return (calcium * ((water.alkalinityMeqL ?? 0) / 1000) ** 2) / product;
}

/**
 * Ca (HCO3)^2 at equilibrium, (mol/L)^3: KC K1 KH pCO2 / K2, where log KC = -171.9065 - 0.077993 T + 2839.319/T +
 * 71.595 log T, 0 to 90 C: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040 (abstract seen).
 */
function calciteProduct(temperatureC: number, co2InAirPpm: number): Figure {
  const problem =
    beyond("temperature", temperatureC, 0, 90, "C") ?? notPositive("CO2 in the air", co2InAirPpm, "ppm");
  const [one, two, henry] = [logK1(temperatureC), logK2(temperatureC), logKHenry(temperatureC)];
  if (problem !== undefined) return problem;
  if (isOutside(one) || isOutside(two) || isOutside(henry)) return [one, two, henry].find(isOutside)!;
  return 10 ** (logKCalcite(temperatureC) + one + henry - two) * co2InAirPpm * 1e-6;
}

function logKCalcite(temperatureC: number): number {
  const T = temperatureC + 273.15;
  return -171.9065 - 0.077993 * T + 2839.319 / T + 71.595 * Math.log10(T);
}
