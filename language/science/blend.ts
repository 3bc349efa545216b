/** Waters mixed by volume: what comes out, and the share of two that brings one quantity to a target. */
import { negative } from "./given.ts";
import { type Figure, type Outside, outside } from "./result.ts";
import { PART_KEYS, type Water, waterProblem } from "./water.ts";

/**
 * Waters mixed by volume. Temperature is known only when it is of all that take part.
 * @param fractions of the whole, each 0 or more, together 1
 */
export function mixed(waters: readonly Water[], fractions: readonly number[]): Water | Outside {
  if (waters.length !== fractions.length) return outside("there are not as many fractions as waters");
  const problem = [
    ...waters.map(waterProblem),
    ...fractions.map((fraction) => negative("fraction", fraction)),
  ].find((found) => found !== undefined);
  if (problem !== undefined) return problem;
  const whole = fractions.reduce((sum, fraction) => sum + fraction, 0);
  if (Math.abs(whole - 1) > 1e-9) return outside(`the fractions together are ${whole} and not 1`);
  const blend = (value: (water: Water) => number) =>
    waters.reduce((sum, water, i) => sum + fractions[i]! * value(water), 0);
  const parts = Object.fromEntries(PART_KEYS.map((part) => [part, blend((water) => water[part] ?? 0)]));
  const isWarm = waters.every((water, i) => fractions[i] === 0 || water.temperatureC !== undefined);
  return isWarm ? { ...parts, temperatureC: blend((water) => water.temperatureC ?? 0) } : parts;
}

/**
 * The share of the first of two waters that brings one quantity to a target, exactly: (t - b)/(a - b). For anything
 * that mixes by volume, in any one unit: hardness, alkalinity, nitrate, temperature.
 */
export function shareOfFirst(first: number, second: number, target: number): Figure {
  if (![first, second, target].every(Number.isFinite)) return outside("a figure is not a finite number");
  if (first === second) {
    return outside(`both waters hold ${first}: no blend of them differs`);
  }
  const share = (target - second) / (first - second);
  return share >= 0 && share <= 1
    ? share
    : outside(`${target} does not lie between the two waters, ${first} and ${second}`);
}
