/**
 * Brackish and sea water at atmospheric pressure. Density: EOS-80 (Millero & Poisson 1981; UNESCO Technical
 * Papers in Marine Science 44, Fofonoff & Millard 1983), salinity 0 to 42, -2 to 40 C. Salinity and
 * conductivity: PSS-78 (same paper), 2 to 42, and below 2 its extension by Hill, Dauphinee & Woods 1986, IEEE
 * J. Oceanic Eng. OE-11:109-112. Temperatures are IPTS-68: `t68C`; `t68FromC` makes one of a thermometer of
 * today. Salinity is PSS-78, close to g/kg; it speaks of diluted sea water, and hard or soft tap water of the
 * same conductivity holds another mass of salts.
 */
import { negative } from "./given.ts";
import { rootByHalving } from "./halving.ts";
import { beyond, type Figure, isOutside, map, outside } from "./result.ts";

/** C(35, 15, 0) in mS/cm (recalled; Culkin & Smith 1980). */
const CONDUCTIVITY_35_15 = 42.914;

/** IPTS-68 from ITS-90: T68 = 1.00024 T90 (Saunders 1990). */
export function t68FromC(temperatureC: number): number {
  return 1.00024 * temperatureC;
}

/** Density of pure water, kg/m3 (SMOW, Bigg 1967). */
function pureDensity(t: number): number {
  return (
    999.842594 +
    t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))))
  );
}

function saltyDensity(S: number, t: number): number {
  return (
    pureDensity(t) +
    S * (8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)))) +
    S ** 1.5 * (-5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6)) +
    4.8314e-4 * S ** 2
  );
}

/** Density in kg/m3. */
export function densityKgPerM3(salinity: number, t68C: number): Figure {
  return (
    beyond("salinity", salinity, 0, 42) ??
    beyond("temperature", t68C, -2, 40, "C") ??
    saltyDensity(salinity, t68C)
  );
}

/** Specific volume anomaly at the surface, 1e-8 m3/kg: 1/rho(S, t) - 1/rho(35, 0). */
export function volumeAnomaly(salinity: number, t68C: number): Figure {
  return map(densityKgPerM3(salinity, t68C), (density) => (1 / density - 1 / saltyDensity(35, 0)) * 1e8);
}

/**
 * Specific gravity: density over that of pure water at the reference temperature of the instrument. State it:
 * the same water reads 1.0264 against 25 C and 1.0234 against 4 C.
 */
export function specificGravity(salinity: number, t68C: number, reference68C: number): Figure {
  return (
    beyond("reference temperature", reference68C, -2, 40, "C") ??
    map(densityKgPerM3(salinity, t68C), (density) => density / pureDensity(reference68C))
  );
}

/**
 * Salinity at which the specific gravity is the one read, same pair of temperatures. By halving; gravity
 * rises with salt.
 */
export function salinityFromGravity(gravity: number, t68C: number, reference68C: number): Figure {
  const least = specificGravity(0, t68C, reference68C);
  const most = specificGravity(42, t68C, reference68C);
  if (isOutside(least) || isOutside(most)) return isOutside(least) ? least : most;
  if (!(gravity >= least && gravity <= most)) {
    return outside(`a specific gravity of ${gravity} is not of salinity 0 to 42 at that temperature`);
  }
  return rootByHalving(
    0,
    42,
    (salinity) => saltyDensity(salinity, t68C) / pureDensity(reference68C) - gravity,
  );
}

const A = [0.008, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081];
const B = [0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144];

function halfPowers(coefficients: readonly number[], root: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * root + coefficient, 0);
}

function pssSalinity(Rt: number, t: number): number {
  const root = Math.sqrt(Rt);
  return halfPowers(A, root) + ((t - 15) / (1 + 0.0162 * (t - 15))) * halfPowers(B, root);
}

/**
 * The least salinity the scale is used for here, about 108 uS/cm at 25 C. Down to it, sea salt by the limiting
 * conductivities of its ions agrees within 1.1 %; at 0.02 the extension is 5 % off and near 0 it turns
 * negative.
 */
const LEAST = 0.05;

/**
 * Salinity by PSS-78, and below 2 with the two terms of Hill and others: a0/(1 + 1.5 x + x^2) and
 * b0 f(t)/(1 + y^0.5 + y + y^1.5), x = 400 Rt, y = 100 Rt. Their form was read in two open implementations, not
 * in the paper. At 2 the terms are 1e-5.
 */
function practicalSalinity(Rt: number, t: number): number {
  const salinity = pssSalinity(Rt, t);
  if (!(salinity < 2)) return salinity;
  const x = 400 * Rt;
  const y = 100 * Rt;
  const warmth = (t - 15) / (1 + 0.0162 * (t - 15));
  return (
    salinity -
    A[0]! / (1 + x * (1.5 + x)) -
    (B[0]! * warmth) / (1 + Math.sqrt(y) * (1 + Math.sqrt(y) * (1 + Math.sqrt(y))))
  );
}

/** Conductivity of salinity 35 at t over that at 15 C. */
function temperatureRatio(t: number): number {
  return 0.6766097 + t * (2.00564e-2 + t * (1.104259e-4 + t * (-6.9698e-7 + t * 1.0031e-9)));
}

function pressureRatio(R: number, t: number, p: number): number {
  const rise = p * (2.07e-5 + p * (-6.37e-10 + p * 3.989e-15));
  return 1 + rise / (1 + 3.426e-2 * t + 4.464e-4 * t ** 2 + (4.215e-1 - 3.107e-3 * t) * R);
}

/** Salinity from the conductivity ratio C(S, t, p)/C(35, 15, 0). */
export function salinityFromRatio(ratio: number, t68C: number, pressureDbar = 0): Figure {
  const refused =
    beyond("temperature", t68C, -2, 35, "C") ??
    negative("conductivity ratio", ratio) ??
    negative("pressure", pressureDbar, "dbar");
  if (refused !== undefined) return refused;
  const Rt = ratio / (pressureRatio(ratio, t68C, pressureDbar) * temperatureRatio(t68C));
  const salinity = practicalSalinity(Rt, t68C);
  return beyond("salinity", salinity, LEAST, 42) ?? salinity;
}

/**
 * Salinity from a conductivity as measured in the water. For one that the meter has carried to 25 C:
 * `salinityFrom25` (conductivity.ts).
 */
export function salinityFromConductivity(conductivityMSPerCm: number, t68C: number): Figure {
  return salinityFromRatio(conductivityMSPerCm / CONDUCTIVITY_35_15, t68C);
}

/** Conductivity ratio of a salinity at the surface: the inverse, by halving. */
export function ratioFromSalinity(salinity: number, t68C: number): Figure {
  const refused = beyond("salinity", salinity, LEAST, 42) ?? beyond("temperature", t68C, -2, 35, "C");
  if (refused !== undefined) return refused;
  const Rt = rootByHalving(0, 2, (ratio) => practicalSalinity(ratio, t68C) - salinity);
  return Rt * temperatureRatio(t68C);
}

/** Conductivity of a salinity at a temperature. */
export function conductivityMSPerCm(salinity: number, t68C: number): Figure {
  return map(ratioFromSalinity(salinity, t68C), (ratio) => ratio * CONDUCTIVITY_35_15);
}

/** Freezing point at the surface, C: UNESCO 44 (Millero 1978), salinity 4 to 40. */
export function freezingPointC(salinity: number): Figure {
  return (
    beyond("salinity", salinity, 4, 40) ??
    -0.0575 * salinity + 1.710523e-3 * salinity ** 1.5 - 2.154996e-4 * salinity ** 2
  );
}

/**
 * Ionic strength of sea water, mol/kg: 19.9273 S/(1000 - 1.005109 S) (Bower & Bidwell 1978; Dickson & Goyet
 * 1994).
 */
export function ionicStrength(salinity: number): Figure {
  return beyond("salinity", salinity, 0, 42) ?? (19.9273 * salinity) / (1000 - 1.005109 * salinity);
}
