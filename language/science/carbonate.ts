/**
 * Carbonate equilibria of fresh water: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040, 0 to
 * 90 C, each log K = A + B T + C/T + D log10 T + E/T^2; and of sea water on the total pH scale: Dickson,
 * Sabine & Christian 2007 (Weiss 1974; Lueker et al. 2000), salinity 19 to 43, 2 to 35 C. pH scales must not
 * be mixed.
 */
import { ionActivity } from "./activity.ts";
import { negative } from "./given.ts";
import { MEQ_PER_DEGREE } from "./hardness.ts";
import { beyond, type Figure, isOutside, map } from "./result.ts";

const KELVIN = 273.15;
/** CO2, CIAAW 2021. */
export const CO2_G_PER_MOL = 12.011 + 2 * 15.999;

type Coefficients = readonly [number, number, number, number, number];
const K1: Coefficients = [-356.3094, -0.06091964, 21834.37, 126.8339, -1684915.0];
const K2: Coefficients = [-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9];
const KH: Coefficients = [108.3865, 0.01985076, -6919.53, -40.45154, 669365.0];
const KW: Coefficients = [-283.971, -0.05069842, 13323.0, 102.24447, -1119669.0];

function logK([a, b, c, d, e]: Coefficients, temperatureC: number): Figure {
  const T = temperatureC + KELVIN;
  return (
    beyond("temperature", temperatureC, 0, 90, "C") ?? a + b * T + c / T + d * Math.log10(T) + e / T ** 2
  );
}

/** First dissociation of carbonic acid. */
export const logK1 = (temperatureC: number): Figure => logK(K1, temperatureC);
/** Second dissociation. */
export const logK2 = (temperatureC: number): Figure => logK(K2, temperatureC);
/** Henry's constant of CO2, mol/(kg atm). */
export const logKHenry = (temperatureC: number): Figure => logK(KH, temperatureC);
/** Ion product of water. */
export const logKw = (temperatureC: number): Figure => logK(KW, temperatureC);

/**
 * pK1 by Harned & Davis 1943, J. Am. Chem. Soc. 65:2030-2037 (recalled), 0 to 50 C: within 0.003 of the above
 * to 40 C.
 */
export function pK1HarnedDavis(temperatureC: number): Figure {
  const T = temperatureC + KELVIN;
  return beyond("temperature", temperatureC, 0, 50, "C") ?? 3404.71 / T + 0.032786 * T - 14.8435;
}

/**
 * Dissolved CO2 from alkalinity: meq/L * 44.009 * 10^(pK1 - pH) * g1. All alkalinity is taken as bicarbonate;
 * phosphate, borate and humic buffers make it read high. From pH 8.3 carbonate counts, below 4.5 there is no
 * alkalinity.
 * @param ionicStrengthMolL 0 takes the activity g1 as 1, which reads 4 % high in soft and 12 % high in hard tap
 * water (0.001 and 0.015 mol/L); `ionicStrengthOf` (activity.ts) estimates it
 */
export function co2MgL(
  alkalinityMeqL: number,
  pH: number,
  temperatureC: number,
  ionicStrengthMolL = 0,
): Figure {
  const activity = ionActivity(ionicStrengthMolL);
  const log = logK1(temperatureC);
  if (isOutside(activity) || isOutside(log)) return isOutside(activity) ? activity : log;
  return (
    beyond("pH", pH, 4.5, 8.3) ??
    negative("alkalinity", alkalinityMeqL, "meq/L") ??
    alkalinityMeqL * CO2_G_PER_MOL * 10 ** (-log - pH) * activity
  );
}

/**
 * The common rule 3 * KH * 10^(7 - pH). *Common practice, no source*; it implies a pK1 of 6.281 and reads 15
 * % low at 25 C and 21 % low at 20 C beside the equilibrium.
 */
export function co2RuleMgL(carbonateHardnessDKH: number, pH: number): number {
  return 3 * carbonateHardnessDKH * 10 ** (7 - pH);
}

/** What the common rule says over what the equilibrium (activities 1) has, at any pH and hardness. */
export function co2RuleShare(temperatureC: number): Figure {
  return map(logK1(temperatureC), (log) => co2RuleMgL(1, 7) / (co2PerDKHMgL() * 10 ** (-log - 7)));
}

/**
 * CO2 of one degree of carbonate hardness at pH = pK1: what the equilibrium has where the common rule has its
 * 3.
 */
export function co2PerDKHMgL(): number {
  return MEQ_PER_DEGREE * CO2_G_PER_MOL;
}

function seaRange(salinity: number, temperatureC: number) {
  return beyond("salinity", salinity, 19, 43) ?? beyond("temperature", temperatureC, 2, 35, "C");
}

/** Solubility of CO2 in sea water, ln of mol/(kg atm): Weiss 1974, Mar. Chem. 2:203-215. */
export function lnK0Seawater(salinity: number, temperatureC: number): Figure {
  const T = temperatureC + KELVIN;
  const salt = salinity * (0.023517 - 0.00023656 * T + 0.0047036e-4 * T ** 2);
  return seaRange(salinity, temperatureC) ?? 9345.17 / T - 60.2409 + 23.3585 * Math.log(T / 100) + salt;
}

/** First dissociation in sea water, total scale: Lueker, Dickson & Keeling 2000, Mar. Chem. 70:105-119. */
export function logK1Seawater(salinity: number, temperatureC: number): Figure {
  const T = temperatureC + KELVIN;
  const salt = 0.011555 * salinity - 0.0001152 * salinity ** 2;
  return seaRange(salinity, temperatureC) ?? -3633.86 / T + 61.2172 - 9.6777 * Math.log(T) + salt;
}

/** Second dissociation in sea water, same source. */
export function logK2Seawater(salinity: number, temperatureC: number): Figure {
  const T = temperatureC + KELVIN;
  const salt = 0.01781 * salinity - 0.0001122 * salinity ** 2;
  return seaRange(salinity, temperatureC) ?? -471.78 / T - 25.929 + 3.16967 * Math.log(T) + salt;
}
