/**
 * What the keeper's tests make of a value. The steps are those of an invented colour card: between two fields the
 * eye takes the nearer, below the first it reads "less than". Errors are of the order drop tests are given (memory).
 */
import type { Stream } from "./random.ts";

const NITRATE_STEPS = [5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 80];
const NITRITE_STEPS = [0.1, 0.2, 0.3, 0.5, 0.8, 1, 1.5, 2];
const AMMONIA_STEPS = [0.1, 0.2, 0.3, 0.4, 0.6, 0.8, 1, 1.5, 2];

export const nitrate = (mgL: number, random: Stream): string =>
  onCard(mgL * (1 + 0.05 * random.noise()) + 0.4 * random.noise(), NITRATE_STEPS);

export const nitrite = (mgL: number, random: Stream): string =>
  onCard(mgL * (1 + 0.08 * random.noise()), NITRITE_STEPS);

export const ammonia = (mgLN: number, random: Stream): string =>
  onCard(mgLN * (1 + 0.08 * random.noise()), AMMONIA_STEPS);

/** A thermometer in tenths. */
export const temperature = (celsius: number, random: Stream): string =>
  (celsius + 0.12 * random.noise()).toFixed(1);

/** A meter in tenths. */
export const pH = (value: number, random: Stream): string => (value + 0.04 * random.noise()).toFixed(1);

/** Drops that count for a fifth of a milligram each. */
export const oxygen = (mgL: number, random: Stream): string =>
  (Math.round((mgL + 0.12 * random.noise()) * 5) / 5).toFixed(1);

/** Drops to the change of colour: whole degrees, as halves when the keeper fills the double volume. */
export const degrees = (value: number, random: Stream): string =>
  String(Math.max(0.5, Math.round((value + 0.15 * random.noise()) * 2) / 2));

function onCard(value: number, steps: readonly number[]): string {
  const lowest = steps[0]!;
  if (value < lowest * 0.75) return `<${lowest}`;
  const nearest = steps.reduce((best, step) =>
    Math.abs(step - value) < Math.abs(best - value) ? step : best,
  );
  return String(nearest);
}
