/** Control charts: whether a reading is beyond what the readings before it would have let expect. */
import { mean } from "simple-statistics";
import { negative, notFinite, notPositive } from "./given.ts";
import type { Limits } from "./interval.ts";
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

/** Exponentially weighted moving average after each value: Roberts 1959, Technometrics 1:239-250. */
export function ewma(values: readonly number[], weight: number, start: number): readonly number[] | Outside {
  const refused = noWeight(weight) ?? notFinite("start", start);
  if (refused !== undefined) return refused;
  const wrong = values.map((value) => notFinite("value", value)).find(isOutside);
  if (wrong !== undefined) return wrong;
  let level = start;
  return values.map((value) => (level = weight * value + (1 - weight) * level));
}

/**
 * Control limits of the average: centre +/- k s sqrt(w/(2-w) (1-(1-w)^(2i))), NIST/SEMATECH e-Handbook
 * 6.3.2.4.
 * @param after how many values; omitted: the limits it tends to
 */
export function ewmaLimits(
  centre: number,
  deviation: number,
  weight: number,
  width = 3,
  after = Infinity,
): Limits | Outside {
  const refused =
    notFinite("centre", centre) ??
    negative("standard deviation", deviation) ??
    noWeight(weight) ??
    negative("width", width);
  if (refused !== undefined) return refused;
  if (!(after >= 1)) return outside(`limits after ${after} values are none`);
  const start = 1 - (1 - weight) ** (2 * after);
  const half = width * deviation * Math.sqrt((weight / (2 - weight)) * start);
  return { low: centre - half, high: centre + half };
}

/** d2 of a moving range of two (Shewhart; NIST/SEMATECH e-Handbook 6.3.2.2). */
const D2 = 1.128;

/** Mean absolute difference of neighbours. */
export function meanMovingRange(values: readonly number[]): Figure {
  if (values.length < 2) return outside("a moving range needs two values at least");
  const range = mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!)));
  return notFinite("a value", range) ?? range;
}

/** Limits of a chart of individual values: mean +/- 3 MR/1.128. */
export function individualsLimits(centre: number, movingRange: number, d2 = D2): Limits | Outside {
  const refused =
    notFinite("centre", centre) ?? negative("moving range", movingRange) ?? notPositive("d2", d2);
  if (refused !== undefined) return refused;
  const half = (3 * movingRange) / d2;
  return { low: centre - half, high: centre + half };
}

function noWeight(weight: number): Outside | undefined {
  if (weight > 0 && weight <= 1) return undefined;
  return outside(`a weight of ${weight} is not more than 0 and at most 1`);
}
