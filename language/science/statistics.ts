/**
 * Statistics of counts, losses and control charts, each with its source. What is no count, no share or too
 * few values gives a reason.
 */
import { mean } from "simple-statistics";
import { gammaPInverse } from "./gamma.ts";
import { negative, notPositive } from "./given.ts";
import { normalQuantile } from "./normal.ts";
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** An interval bounds on both sides; one-sided, each of its ends is a bound by itself. */
export type Sides = 1 | 2;

/** Interval of a proportion: Wilson 1927, J. Am. Stat. Assoc. 22:209-212. */
export function wilson(count: number, outOf: number, confidence = 0.95, sides: Sides = 2): Limits | Outside {
  const refused =
    notCounted("count", count) ?? notCounted("number of all", outOf) ?? noConfidence(confidence);
  if (refused !== undefined) return refused;
  if (outOf === 0) return outside("a share of none is no share");
  if (count > outOf) return outside(`${count} of ${outOf} are more than all`);
  const z = zOf(confidence, sides);
  const p = count / outOf;
  const middle = p + z ** 2 / (2 * outOf);
  const half = z * Math.sqrt((p * (1 - p)) / outOf + z ** 2 / (4 * outOf ** 2));
  const scale = 1 + z ** 2 / outOf;
  // At none and at all the end is exact; there the last bit of the square root would miss it.
  return {
    low: count === 0 ? 0 : (middle - half) / scale,
    high: count === outOf ? 1 : (middle + half) / scale,
  };
}

/**
 * Exact interval of a rate from a count: Garwood 1936, Biometrika 28:437-442; chi-squared quantiles as gamma
 * quantiles.
 * @param exposure what the count is per: animal-days, consignments
 */
export function poissonExact(
  count: number,
  exposure = 1,
  confidence = 0.95,
  sides: Sides = 2,
): Limits | Outside {
  const refused = notARate(count, exposure, confidence);
  if (refused !== undefined) return refused;
  const tail = (1 - confidence) / sides;
  return {
    low: count === 0 ? 0 : gammaPInverse(count, tail) / exposure,
    high: gammaPInverse(count + 1, 1 - tail) / exposure,
  };
}

/**
 * Score interval of a Poisson count: x + z^2/2 +/- z sqrt(x + z^2/4) (Rao 1948). Shorter than the exact one.
 */
export function poissonScore(
  count: number,
  exposure = 1,
  confidence = 0.95,
  sides: Sides = 2,
): Limits | Outside {
  const refused = notARate(count, exposure, confidence);
  if (refused !== undefined) return refused;
  const z = zOf(confidence, sides);
  const middle = count + z ** 2 / 2;
  const half = z * Math.sqrt(count + z ** 2 / 4);
  return { low: count === 0 ? 0 : (middle - half) / exposure, high: (middle + half) / exposure };
}

/** Cases per hundred exposed. */
export function attackRatePercent(cases: number, exposed: number): Figure {
  const refused = notCounted("cases", cases) ?? notCounted("exposed", exposed);
  if (refused !== undefined) return refused;
  if (exposed === 0) return outside("nobody was exposed");
  return cases > exposed ? outside(`${cases} of ${exposed} are more than all`) : (cases / exposed) * 100;
}

/** Cases per animal and day at risk. */
export function incidenceRate(cases: number, animalDays: number): Figure {
  const refused = notCounted("cases", cases) ?? negative("days at risk", animalDays);
  return refused ?? (animalDays > 0 ? cases / animalDays : outside("no animal was at risk"));
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
 * @returns a reason past the last animal seen alive, where the curve is not known
 */
export function kaplanMeier(
  times: readonly number[],
  died: readonly boolean[],
  at: number,
): Survival | Outside {
  if (times.length === 0) return outside("no animal was followed");
  if (times.length !== died.length) return outside("each time needs to say whether it is that of a death");
  const wrong = [...times, at].find((time) => negative("time", time) !== undefined);
  if (wrong !== undefined) return outside(`a time of ${wrong} is none to follow an animal to`);
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
  const last = Math.max(...times);
  if (survival > 0 && at > last) return outside(`nobody was followed beyond ${last}`);
  return { survival, standardError: survival * Math.sqrt(sum) };
}

/**
 * The time by which half have died: the first at which survival is a half or less (Kaplan & Meier 1958).
 * @returns a reason where more than half lived on
 */
export function medianSurvival(times: readonly number[], died: readonly boolean[]): Figure {
  for (const time of [...times].sort((a, b) => a - b)) {
    const each = kaplanMeier(times, died, time);
    if (isOutside(each)) return each;
    // A half reached by a product of fractions may miss it by its last bit.
    if (each.survival <= 0.5 + 1e-12) return time;
  }
  return outside("more than half lived on when last seen");
}

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

/** z of a confidence, 1.959964 for 0.95 on two sides, 1.644854 on one. */
function zOf(confidence: number, sides: Sides): number {
  return normalQuantile(1 - (1 - confidence) / sides);
}

function notCounted(name: string, value: number): Outside | undefined {
  return Number.isInteger(value) && value >= 0 ? undefined : outside(`${name} ${value} is no count`);
}

function notARate(count: number, exposure: number, confidence: number): Outside | undefined {
  return notCounted("count", count) ?? notPositive("exposure", exposure) ?? noConfidence(confidence);
}

function notFinite(name: string, value: number): Outside | undefined {
  return Number.isFinite(value) ? undefined : outside(`${name} ${value} is no figure`);
}

function noConfidence(confidence: number): Outside | undefined {
  if (confidence > 0 && confidence < 1) return undefined;
  return outside(`a confidence of ${confidence} is not between 0 and 1`);
}

function noWeight(weight: number): Outside | undefined {
  if (weight > 0 && weight <= 1) return undefined;
  return outside(`a weight of ${weight} is not more than 0 and at most 1`);
}
