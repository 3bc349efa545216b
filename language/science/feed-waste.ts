/** What a day's food puts into the water in the end: nitrogen, nitrate, and the oxygen that all of it takes. */
import { ammoniaFromFeedGN } from "./feeding.ts";
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure } from "./result.ts";

const N_G_PER_MOL = 14.007;
const NO3_PER_N = (N_G_PER_MOL + 3 * 15.999) / N_G_PER_MOL;
/** Protein holds 16 % of nitrogen (Kjeldahl factor 6.25; convention of feed analysis). */
const PROTEIN_PER_N = 6.25;
/** g O2 per g: C to CO2, and NH4 to NO3 by two moles of oxygen. */
const O2_PER_C = (2 * 15.999) / 12.011;
const O2_PER_N = (4 * 15.999) / N_G_PER_MOL;

/**
 * Rise of nitrate a day when all ammonia made of the food ends as nitrate and none is taken up: the planning
 * figure of `ammoniaFromFeedGN` as NO3 over the volume.
 */
export function nitrateRiseMgLPerDay(feedGPerDay: number, proteinFraction: number, volumeL: number): Figure {
  return (
    negative("food", feedGPerDay, "g") ??
    beyond("share of protein", proteinFraction, 0, 1) ??
    notPositive("volume", volumeL, "L") ??
    (ammoniaFromFeedGN(feedGPerDay, proteinFraction) * NO3_PER_N * 1000) / volumeL
  );
}

/**
 * Oxygen that a food takes in all, by the fish and by what lives on their waste: carbon that the fish does not
 * keep to CO2, nitrogen to nitrate. C. E. Boyd (Oxygen demand of aquaculture feed, Global Aquaculture
 * Advocate; read in part) has 2.67 g O2 per g of carbon, fish keep 8 to 12 % of the carbon and 20 to 30 % of
 * the nitrogen, food holds about 40 % of carbon as weighed, and takes 1.25 kg of oxygen per kg for general use.
 * @param kept shares that grow into fish, 0..1; 0 for fish that do not grow
 */
export function feedOxygenG(
  feedG: number,
  proteinFraction: number,
  kept: { readonly carbon: number; readonly nitrogen: number },
  carbonFraction = 0.4,
): Figure {
  return (
    negative("food", feedG, "g") ??
    beyond("share of protein", proteinFraction, 0, 1) ??
    beyond("share of carbon", carbonFraction, 0, 0.8) ??
    beyond("carbon kept", kept.carbon, 0, 1) ??
    beyond("nitrogen kept", kept.nitrogen, 0, 1) ??
    feedG *
      (carbonFraction * (1 - kept.carbon) * O2_PER_C +
        (proteinFraction / PROTEIN_PER_N) * (1 - kept.nitrogen) * O2_PER_N)
  );
}
