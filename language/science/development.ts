/** Time that development takes at a temperature. */
import { negative } from "./given.ts";
import { beyond, type Figure, outside } from "./result.ts";

/**
 * Hours to a stage of the zebrafish (Danio rerio) that takes `hoursAt28_5` at 28.5 C: h/(0.055 T - 0.57), 25
 * to 33 C. Kimmel et al. 1995, Dev. Dyn. 203:253-310. Of other species only a hint of the shape.
 */
export function zebrafishHours(hoursAt28_5: number, temperatureC: number): Figure {
  return (
    negative("time", hoursAt28_5, "h") ??
    beyond("temperature", temperatureC, 25, 33, "C") ??
    hoursAt28_5 / (0.055 * temperatureC - 0.57)
  );
}

/**
 * Hours at 28.5 C at which some stages of the zebrafish begin: Kimmel et al. 1995, table 2, as read. Eggs of one
 * clutch come to them at slightly different times (same source).
 */
export const ZEBRAFISH_STAGES = {
  "2-cell": 3 / 4,
  "64-cell": 2,
  "1k-cell": 3,
  sphere: 4,
  shield: 6,
  bud: 10,
  "5-somite": 11 + 2 / 3,
  "14-somite": 16,
  "20-somite": 19,
  "26-somite": 22,
  "prim-5": 24,
  "prim-15": 30,
  "prim-25": 36,
  "high-pec": 42,
  "long-pec": 48,
  "pec-fin": 60,
  "protruding-mouth": 72,
} as const;

/** Degree-days: the sum of daily means above a base; a day below it counts nothing. */
export function degreeDays(dailyMeans: readonly number[], base = 0): Figure {
  const wrong = [...dailyMeans, base].find((mean) => !Number.isFinite(mean));
  if (wrong !== undefined) return outside(`a temperature of ${wrong} is no figure`);
  return dailyMeans.reduce((sum, mean) => sum + Math.max(0, mean - base), 0);
}

/** Days at a constant temperature to reach a sum of degree-days. */
export function daysToDegreeDays(target: number, temperatureC: number, baseC = 0): Figure {
  const refused = negative("sum of degree-days", target);
  if (refused !== undefined) return refused;
  if (!(temperatureC > baseC)) return outside("at or below the base temperature nothing develops");
  return target / (temperatureC - baseC);
}
