/** Growth and rations from lengths and weights; what of a food is food. */

import { weightG } from "./feeding.ts";
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure } from "./result.ts";

/** Specific growth rate, percent a day: 100 ln(W2/W1)/days (aquaculture texts; Ricker 1975, recalled). */
export function growthPercentPerDay(fromG: number, toG: number, days: number): Figure {
  return (
    notPositive("first weight", fromG, "g") ??
    notPositive("second weight", toG, "g") ??
    notPositive("time", days, "days") ??
    (100 * Math.log(toG / fromG)) / days
  );
}

/** Weight after some days at a specific growth rate: the inverse. */
export function weightAfterG(fromG: number, percentPerDay: number, days: number): Figure {
  return (
    notPositive("weight", fromG, "g") ??
    beyond("growth", percentPerDay, -50, 100, "%/day") ??
    negative("time", days, "days") ??
    fromG * Math.exp((percentPerDay / 100) * days)
  );
}

/** Food conversion: food given over weight gained, both as weighed. Below 1 it may be: food is dry. */
export function foodConversion(foodG: number, gainG: number): Figure {
  return negative("food", foodG, "g") ?? notPositive("gain", gainG, "g") ?? foodG / gainG;
}

/**
 * Condition factor 100 W/L^3 with W in g and L in cm, near 1 for many fish (Fulton 1904; Ricker 1975; both
 * recalled). It compares fish of one kind and one way of measuring the length.
 */
export function conditionFactor(massG: number, lengthMm: number): Figure {
  return (
    notPositive("weight", massG, "g") ??
    notPositive("length", lengthMm, "mm") ??
    (1e5 * massG) / lengthMm ** 3
  );
}

/**
 * A day's food for a group by its mean length: count * a L^b * percent of body weight.
 * @param a g and mm, of this kind of fish; `b` near 3
 */
export function groupRationG(
  count: number,
  lengthMm: number,
  a: number,
  b: number,
  percentPerDay: number,
): Figure {
  return (
    negative("number of fish", count) ??
    notPositive("length", lengthMm, "mm") ??
    notPositive("a of the weight", a) ??
    beyond("b of the weight", b, 2, 4) ??
    beyond("percent of body weight a day", percentPerDay, 0, 300, "%") ??
    (count * weightG(lengthMm, a, b) * percentPerDay) / 100
  );
}

/** What of a food is not water. Flakes and pellets hold about 8 % of water, frozen food 88 % (recalled). */
export function dryMatterG(foodG: number, waterFraction: number): Figure {
  return (
    negative("food", foodG, "g") ??
    beyond("share of water", waterFraction, 0, 1) ??
    foodG * (1 - waterFraction)
  );
}

/** How much of one food has the dry matter of another. */
export function sameDryMatterG(foodG: number, waterFraction: number, otherWaterFraction: number): Figure {
  return (
    negative("food", foodG, "g") ??
    beyond("share of water", waterFraction, 0, 1) ??
    beyond("share of water", otherWaterFraction, 0, 0.999) ??
    (foodG * (1 - waterFraction)) / (1 - otherWaterFraction)
  );
}
