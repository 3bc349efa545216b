/**
 * Conductivity at another temperature, and salinity from a conductivity that a meter has carried to 25 C.
 *
 * Natural fresh water: the factors of ISO 7888:1985 (the same as EN 27888), 0 to 35 C, as printed in an
 * instrument's manual, one row a degree; between the rows they are taken as straight, which is 0.001 at most.
 * Recommended there from 60 to 1000 uS/cm. Other water: a linear coefficient, which the keeper's meter states;
 * 1.88 %/C for table salt, 1.9 to 2.0 for potassium chloride and 1.91 as the setting of many meters
 * (manufacturers' tables).
 */
import { negative } from "./given.ts";
import { beyond, type Figure, map } from "./result.ts";
import { conductivityMSPerCm, salinityFromConductivity, t68FromC } from "./seawater.ts";

/** ISO 7888, f25 at 0, 1, ... 35 C. */
const NATURAL_FACTORS = [
  1.918, 1.857, 1.8, 1.745, 1.693, 1.643, 1.596, 1.551, 1.508, 1.467, 1.428, 1.39, 1.354, 1.32, 1.287, 1.256,
  1.225, 1.196, 1.168, 1.141, 1.116, 1.091, 1.067, 1.044, 1.021, 1.0, 0.979, 0.959, 0.94, 0.921, 0.903, 0.886,
  0.869, 0.853, 0.837, 0.822,
];

/** What a conductivity of natural fresh water is multiplied by to stand at 25 C. */
export function naturalFactor(temperatureC: number): Figure {
  const refused = beyond("temperature", temperatureC, 0, NATURAL_FACTORS.length - 1, "C");
  if (refused !== undefined) return refused;
  const row = Math.min(Math.floor(temperatureC), NATURAL_FACTORS.length - 2);
  const [low, high] = [NATURAL_FACTORS[row]!, NATURAL_FACTORS[row + 1]!];
  return low + (high - low) * (temperatureC - row);
}

/** Conductivity at 25 C of natural fresh water measured at its own temperature. */
export function naturalAt25USPerCm(measuredUSPerCm: number, temperatureC: number): Figure {
  return (
    beyond("conductivity", measuredUSPerCm, 60, 1000, "uS/cm") ??
    map(naturalFactor(temperatureC), (factor) => measuredUSPerCm * factor)
  );
}

/**
 * Conductivity at 25 C by a linear coefficient: measured/(1 + a (t - 25)).
 * @param percentPerC of the conductivity at 25 C; 1 to 3 are known of salts in water
 */
export function linearAt25(measured: number, temperatureC: number, percentPerC: number): Figure {
  return (
    negative("conductivity", measured) ??
    map(linearShare(temperatureC, percentPerC), (share) => measured / share)
  );
}

/** What a meter without compensation shows at a temperature: the inverse. */
export function linearFrom25(at25: number, temperatureC: number, percentPerC: number): Figure {
  return (
    negative("conductivity", at25) ?? map(linearShare(temperatureC, percentPerC), (share) => at25 * share)
  );
}

function linearShare(temperatureC: number, percentPerC: number): Figure {
  return (
    beyond("temperature", temperatureC, 0, 50, "C") ??
    beyond("temperature coefficient", percentPerC, 1, 3, "%/C") ??
    1 + (percentPerC / 100) * (temperatureC - 25)
  );
}

/** Salinity (PSS-78, below 2 by Hill and others 1986) from a conductivity at 25 C. */
export function salinityFrom25(at25MSPerCm: number): Figure {
  return salinityFromConductivity(at25MSPerCm, t68FromC(25));
}

/** Conductivity at 25 C of a salinity of 0.05 to 42. */
export function conductivity25MSPerCm(salinity: number): Figure {
  return conductivityMSPerCm(salinity, t68FromC(25));
}

/**
 * Dissolved solids from conductivity by a factor, which is the meter's. Natural waters have 0.55 to 0.75 (Hem
 * 1985, USGS Water-Supply Paper 2254; recalled, and repeated by water agencies); meters multiply by 0.5 to
 * 0.7, *common practice, no source*. Without the factor two meters cannot be compared.
 */
export function dissolvedSolidsMgL(at25USPerCm: number, factor: number): Figure {
  return (
    negative("conductivity", at25USPerCm, "uS/cm") ?? beyond("factor", factor, 0.4, 1) ?? at25USPerCm * factor
  );
}

/** The conductivity that a meter for dissolved solids has read. */
export function conductivityFromSolidsUSPerCm(solidsMgL: number, factor: number): Figure {
  return (
    negative("dissolved solids", solidsMgL, "mg/L") ?? beyond("factor", factor, 0.4, 1) ?? solidsMgL / factor
  );
}
