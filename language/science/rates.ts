/** Rates of a count: so many in so many animal-days, consignments, litres. */
import { betaI, betaInverse } from "./beta.ts";
import { gammaPInverse } from "./gamma.ts";
import { negative, notCounted, notPositive } from "./given.ts";
import { type Limits, noConfidence, type Sides, zOf } from "./interval.ts";
import { type Figure, type Outside, outside } from "./result.ts";

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

/** Cases per animal and day at risk. */
export function incidenceRate(cases: number, animalDays: number): Figure {
  const refused = notCounted("cases", cases) ?? negative("days at risk", animalDays);
  return refused ?? (animalDays > 0 ? cases / animalDays : outside("no animal was at risk"));
}

export interface Rate {
  readonly count: number;
  /** What the count is per: animal-days, consignments. */
  readonly exposure: number;
}

export interface RateRatio {
  /** First rate over second; Infinity where the second has no case. */
  readonly ratio: number;
  /** The high end is Infinity where the second has no case. */
  readonly interval: Limits;
  /** The chance of as many cases in the first or more, were the ratio as supposed; of as many or fewer. */
  readonly asMany: number;
  readonly asFew: number;
  /** Twice the smaller of the two, at most 1: it is below 0.05 just where the interval of 95 % excludes the ratio. */
  readonly p: number;
}

/**
 * Two rates compared by the conditional exact test: Przyborowski & Wilenski 1940, Biometrika 31:313-323. Given all
 * the cases together, those in the first are binomial with the share rho t1/(rho t1 + t2). The interval is that of
 * Clopper & Pearson 1934, Biometrika 26:404-413, of the share, turned into a ratio; why p is twice the smaller tail:
 * Fay 2010, Biostatistics 11:373-374 (recalled).
 * @param supposed ratio that is tested
 */
export function compareRates(
  first: Rate,
  second: Rate,
  confidence = 0.95,
  supposed = 1,
): RateRatio | Outside {
  const refused =
    notARate(first.count, first.exposure, confidence) ??
    notARate(second.count, second.exposure, confidence) ??
    notPositive("ratio", supposed);
  if (refused !== undefined) return refused;
  const [x, y] = [first.count, second.count];
  if (x + y === 0) return outside("no case in either: there is nothing to compare");
  const exposures = second.exposure / first.exposure;
  const share = supposed / (supposed + exposures);
  const asMany = x === 0 ? 1 : betaI(share, x, y + 1);
  const asFew = y === 0 ? 1 : betaI(1 - share, y, x + 1);
  const tail = (1 - confidence) / 2;
  const least = x === 0 ? 0 : betaInverse(tail, x, y + 1);
  const mostOther = y === 0 ? 0 : betaInverse(tail, y, x + 1);
  return {
    ratio: (x / y) * exposures,
    interval: {
      low: (least / (1 - least)) * exposures,
      high: ((1 - mostOther) / mostOther) * exposures,
    },
    asMany,
    asFew,
    p: Math.min(1, 2 * Math.min(asMany, asFew)),
  };
}

function notARate(count: number, exposure: number, confidence: number): Outside | undefined {
  return notCounted("count", count) ?? notPositive("exposure", exposure) ?? noConfidence(confidence);
}
