/**
 * Oxygen that fish use, and what they give off for it.
 *
 * Resting rate: Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905, 138 studies of 69 species of bony fish past
 * the larva: for 50 g, ln R = 15.7 - 5.02 * 1000/T in mmol O2/h, mass exponent 0.79 (SE 0.11 between species),
 * all from the abstract, as read; their mean Q10 of 1.83 is given for 0 to 30 C, which bounds it here. The
 * exponent carries it to the size of an aquarium fish; which sizes the data hold was not re-read, so 0.1 g to
 * 5 kg is this tool's own bound. Species differ by a factor of two and more (*common practice, no source*),
 * and a fish that swims, digests or is afraid uses more than one at rest: the keeper states how many times.
 *
 * Shrimp are not here: the published equations found are of cold-water and marine species.
 */
import { CO2_G_PER_MOL } from "./carbonate.ts";
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure, map } from "./result.ts";

const KELVIN = 273.15;
const O2_G_PER_MOL = 2 * 15.999;
const N_G_PER_MOL = 14.007;

/**
 * Moles of nitrogen given off per mole of oxygen. Juvenile trout at rest: 0.08, a sixth of it urea (J. Exp.
 * Biol. 1998, 201:3123, abstract). With protein as the only fuel: 0.27 (Lauff & Wood 1996, J. Comp. Physiol. B
 * 166:501-509; recalled). A fed fish lies between.
 */
export const NITROGEN_PER_OXYGEN = { resting: 0.08, proteinOnly: 0.27 } as const;

/** Moles of CO2 per mole of oxygen: the same trout, 0.85. Fat alone gives 0.7, sugar alone 1.0. */
export const CO2_PER_OXYGEN = 0.85;

/** Oxygen that one fish at rest uses. */
export function restingOxygenMgPerH(massG: number, temperatureC: number): Figure {
  const refused =
    beyond("mass of a fish", massG, 0.1, 5000, "g") ?? beyond("temperature", temperatureC, 0, 30, "C");
  if (refused !== undefined) return refused;
  const mmolPerH = Math.exp(15.7 - 5020 / (temperatureC + KELVIN)) * (massG / 50) ** 0.79;
  return mmolPerH * O2_G_PER_MOL;
}

/** Oxygen that a group uses. @param activity how many times the resting rate, 1 or more */
export function groupOxygenMgPerH(
  count: number,
  massG: number,
  temperatureC: number,
  activity: number,
): Figure {
  return (
    negative("number of fish", count) ??
    beyond("times the resting rate", activity, 1, 10) ??
    map(restingOxygenMgPerH(massG, temperatureC), (each) => each * count * activity)
  );
}

/**
 * A rate that is known at one temperature, at another: times q10^((to - from)/10). Fish of one kind that have
 * got used to either: 2.4, median of 14 studies (Clarke & Johnston 1999); an extension leaflet has it double
 * for each 10 C (18 F; University of Missouri MX392).
 */
export function rateAtTemperature(rate: number, fromC: number, toC: number, q10 = 2): Figure {
  return (
    negative("rate", rate) ??
    beyond("temperature", fromC, 0, 40, "C") ??
    beyond("temperature", toC, 0, 40, "C") ??
    beyond("Q10", q10, 1, 5) ??
    rate * q10 ** ((toC - fromC) / 10)
  );
}

/** Total ammonia as N given off with an amount of oxygen. */
export function ammoniaMgN(oxygenMg: number, nitrogenPerOxygen: number): Figure {
  return (
    negative("oxygen", oxygenMg, "mg") ??
    beyond("nitrogen per oxygen", nitrogenPerOxygen, 0, 0.4) ??
    (oxygenMg / O2_G_PER_MOL) * nitrogenPerOxygen * N_G_PER_MOL
  );
}

/** CO2 given off with an amount of oxygen. */
export function co2Mg(oxygenMg: number, co2PerOxygen: number): Figure {
  return (
    negative("oxygen", oxygenMg, "mg") ??
    beyond("CO2 per oxygen", co2PerOxygen, 0.5, 1.5) ??
    (oxygenMg / O2_G_PER_MOL) * co2PerOxygen * CO2_G_PER_MOL
  );
}

/** Fish to a litre of water, by mass: how packers state a load. */
export function loadGPerL(count: number, massG: number, waterL: number): Figure {
  return (
    negative("number of fish", count) ??
    notPositive("mass of a fish", massG, "g") ??
    notPositive("water", waterL, "L") ??
    (count * massG) / waterL
  );
}
