/**
 * pH of fresh water by its alkalinity and free CO2, and where air brings both. Constants of Plummer & Busenberg
 * 1982 (`carbonate.ts`).
 */
import { ionActivity } from "./activity.ts";
import { CO2_G_PER_MOL, logK1, logK2, logKHenry, logKw } from "./carbonate.ts";
import { negative, notPositive } from "./given.ts";
import { rootByHalving } from "./halving.ts";
import { type Figure, isOutside, map, type Outside } from "./result.ts";

/**
 * CO2 of water that stands in equilibrium with air: Henry's law. The 1 to 4 % by which vapour thins the air at
 * the water's face, and height above the sea, are left out.
 * @param co2InAirPpm of the room's air: about 420 outdoors, often 600 to 1200 in a closed room
 */
export function co2AtAirMgL(temperatureC: number, co2InAirPpm: number): Figure {
  return (
    notPositive("CO2 of the air", co2InAirPpm, "ppm") ??
    map(logKHenry(temperatureC), (log) => 10 ** log * co2InAirPpm * 1e-6 * CO2_G_PER_MOL * 1000)
  );
}

/** pH of water aerated until it stands in equilibrium with air. */
export function aeratedPH(alkalinityMeqL: number, temperatureC: number, co2InAirPpm: number): Figure {
  const dissolved = co2AtAirMgL(temperatureC, co2InAirPpm);
  return isOutside(dissolved) ? dissolved : pHFromCO2(alkalinityMeqL, dissolved, temperatureC);
}

/**
 * pH of fresh water that holds an alkalinity and an amount of free CO2: the root of
 * alkalinity = [HCO3] + 2 [CO3] + [OH] - [H], each from the constants above, by halving. Without alkalinity it
 * is the pH of rain. Other buffers than carbonate are not in it.
 */
export function pHFromCO2(
  alkalinityMeqL: number,
  co2MgL: number,
  temperatureC: number,
  ionicStrengthMolL = 0,
): Figure {
  const constants = concentrationConstants(temperatureC, ionicStrengthMolL);
  if (isOutside(constants)) return constants;
  const refused = negative("alkalinity", alkalinityMeqL, "meq/L") ?? notPositive("CO2", co2MgL, "mg/L");
  if (refused !== undefined) return refused;
  const { k1, k2, kw, activity } = constants;
  const co2 = co2MgL / CO2_G_PER_MOL / 1000;
  return rootByHalving(0, 14, (pH) => {
    const H = 10 ** -pH;
    const bicarbonate = (k1 * co2) / H;
    return bicarbonate * (1 + (2 * k2) / H) + kw / H - H / activity - alkalinityMeqL / 1000;
  });
}

/** The constants for hydrogen as activity, as a meter reads it, and the other ions as concentrations. */
function concentrationConstants(temperatureC: number, ionicStrengthMolL: number) {
  const [one, two, water] = [logK1(temperatureC), logK2(temperatureC), logKw(temperatureC)];
  const activity = ionActivity(ionicStrengthMolL);
  if (isOutside(one) || isOutside(two) || isOutside(water)) return one as Outside;
  if (isOutside(activity)) return activity;
  // By Davies an ion of two charges has the fourth power of one's activity.
  return {
    k1: 10 ** one / activity,
    k2: 10 ** two / activity ** 3,
    kw: 10 ** water / activity,
    activity,
  };
}
