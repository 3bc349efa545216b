/** Statistics of counts, losses and control charts, each with its source. */
import { mean } from "simple-statistics";
import { gammaPInverse } from "./gamma.ts";
import { twoSidedZ } from "./normal.ts";
import { type Figure, outside } from "./result.ts";

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** Interval of a proportion: Wilson 1927, J. Am. Stat. Assoc. 22:209-212. */
export function wilson(count: number, outOf: number, confidence = 0.95): Limits {
  const z = twoSidedZ(confidence);
  const p = count / outOf;
  const middle = p + z ** 2 / (2 * outOf);
  const half = z * Math.sqrt((p * (1 - p)) / outOf + z ** 2 / (4 * outOf ** 2));
  const scale = 1 + z ** 2 / outOf;
  return { low: Math.max(0, (middle - half) / scale), high: Math.min(1, (middle + half) / scale) };
}

/**
 * Exact interval of a rate from a count: Garwood 1936, Biometrika 28:437-442; chi-squared quantiles as gamma
 * quantiles.
 * @param exposure what the count is per: animal-days, consignments
 */
export function poissonExact(count: number, exposure = 1, confidence = 0.95): Limits {
  const tail = (1 - confidence) / 2;
  return {
    low: count === 0 ? 0 : gammaPInverse(count, tail) / exposure,
    high: gammaPInverse(count + 1, 1 - tail) / exposure,
  };
}

/**
 * Score interval of a Poisson count: x + z^2/2 +/- z sqrt(x + z^2/4) (Rao 1948). Shorter than the exact one.
 */
export function poissonScore(count: number, exposure = 1, confidence = 0.95): Limits {
  const z = twoSidedZ(confidence);
  const middle = count + z ** 2 / 2;
  const half = z * Math.sqrt(count + z ** 2 / 4);
  return { low: Math.max(0, middle - half) / exposure, high: (middle + half) / exposure };
}

/** Cases per hundred exposed. */
export function attackRatePercent(cases: number, exposed: number): Figure {
  return exposed > 0 ? (cases / exposed) * 100 : outside("nobody was exposed");
}

/** Cases per animal and day at risk. */
export function incidenceRate(cases: number, animalDays: number): Figure {
  return animalDays > 0 ? cases / animalDays : outside("no animal was at risk");
}

export interface Survival {
  readonly survival: number;
  /** Greenwood 1926. */
  readonly standardError: number;
}

/**
 * Survival at a time: Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457-481, with Greenwood's standard error.
 * An animal that left (sold, moved) at a time was still at risk at it.
 * @param died whether the time is that of a death; false: last seen alive
 */
export function kaplanMeier(times: readonly number[], died: readonly boolean[], at: number): Survival {
  let survival = 1;
  let sum = 0;
  const deathTimes = [...new Set(times.filter((time, i) => died[i] === true && time <= at))].sort(
    (a, b) => a - b,
  );
  for (const time of deathTimes) {
    const atRisk = times.filter((each) => each >= time).length;
    const deaths = times.filter((each, i) => each === time && died[i] === true).length;
    survival *= 1 - deaths / atRisk;
    if (deaths < atRisk) sum += deaths / (atRisk * (atRisk - deaths));
  }
  return { survival, standardError: survival * Math.sqrt(sum) };
}

/** Exponentially weighted moving average after each value: Roberts 1959, Technometrics 1:239-250. */
export function ewma(values: readonly number[], weight: number, start: number): number[] {
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
): Limits {
  const start = 1 - (1 - weight) ** (2 * after);
  const half = width * deviation * Math.sqrt((weight / (2 - weight)) * start);
  return { low: centre - half, high: centre + half };
}

/** d2 of a moving range of two (Shewhart; NIST/SEMATECH e-Handbook 6.3.2.2). */
const D2 = 1.128;

/** Mean absolute difference of neighbours. */
export function meanMovingRange(values: readonly number[]): number {
  return mean(values.slice(1).map((value, i) => Math.abs(value - values[i]!)));
}

/** Limits of a chart of individual values: mean +/- 3 MR/1.128. */
export function individualsLimits(centre: number, movingRange: number, d2 = D2): Limits {
  const half = (3 * movingRange) / d2;
  return { low: centre - half, high: centre + half };
}
