/**
 * How many animals to examine so that a disease that so many of them have is found: Cannon & Roe 1982, Livestock Disease
 * Surveys; with an imperfect test Cannon 2001, Prev. Vet. Med. 49:141-163. Animals are drawn at random, and a test of a
 * healthy one is never positive.
 */
import { gammaln } from "simple-statistics";
import { notCounted } from "./given.ts";
import { noConfidence } from "./interval.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";

/**
 * The chance that at least one of the diseased animals is examined and found (Cannon 2001, eq. 4.1: one less the sum of
 * hypergeometric chances of k diseased in the sample, each times (1 - a)^k).
 * @param sensitivity a, the share of diseased animals that the test finds
 */
export function chanceToFind(animals: number, diseased: number, examined: number, sensitivity = 1): Figure {
  const refused =
    notCounted("number of animals", animals) ??
    notCounted("number of diseased", diseased) ??
    notCounted("number examined", examined) ??
    noSensitivity(sensitivity);
  if (refused !== undefined) return refused;
  if (diseased > animals) return outside(`${diseased} of ${animals} are more than all`);
  if (examined > animals) return outside(`${examined} of ${animals} cannot be examined`);
  return 1 - chanceToMiss(animals, diseased, examined, sensitivity);
}

/** The same of a group without end: 1 - (1 - a p)^n. */
export function chanceToFindInMany(prevalence: number, examined: number, sensitivity = 1): Figure {
  return (
    noPrevalence(prevalence) ??
    notCounted("number examined", examined) ??
    noSensitivity(sensitivity) ??
    1 - (1 - sensitivity * prevalence) ** examined
  );
}

/** The fewest diseased animals that are a prevalence or more of a group. */
export function diseasedAtLeast(animals: number, prevalence: number): Figure {
  const refused = notCounted("number of animals", animals) ?? noPrevalence(prevalence);
  // A whole number must not become one more by the last bit of a product.
  return refused ?? Math.max(1, Math.ceil(animals * prevalence - 1e-9));
}

/**
 * The fewest animals to examine for a confidence of finding at least one.
 * @returns a reason where the test would miss them too often even with all examined
 */
export function animalsToExamine(
  animals: number,
  diseased: number,
  confidence = 0.95,
  sensitivity = 1,
): Figure {
  const all = chanceToFind(animals, diseased, animals, sensitivity);
  if (isOutside(all)) return all;
  const refused = noConfidence(confidence);
  if (refused !== undefined) return refused;
  if (diseased === 0) return outside("where none is diseased none can be found");
  if (all < confidence)
    return outside(
      `even with all ${animals} examined a test that finds ${percent(sensitivity)} of them finds one with ${percent(all)} only`,
    );
  let [tooFew, enough] = [0, animals];
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    if (chanceToMiss(animals, diseased, middle, sensitivity) <= 1 - confidence) enough = middle;
    else tooFew = middle;
  }
  return enough;
}

/** The same of a group without end: ln(1 - confidence)/ln(1 - a p) (Cannon 2001, eq. 4.6). */
export function animalsToExamineInMany(prevalence: number, confidence = 0.95, sensitivity = 1): Figure {
  const refused = noPrevalence(prevalence) ?? noConfidence(confidence) ?? noSensitivity(sensitivity);
  if (refused !== undefined) return refused;
  return Math.max(1, Math.ceil(Math.log1p(-confidence) / Math.log1p(-sensitivity * prevalence) - 1e-9));
}

function chanceToMiss(animals: number, diseased: number, examined: number, sensitivity: number): number {
  const least = Math.max(0, examined - (animals - diseased));
  const most = sensitivity === 1 ? 0 : Math.min(examined, diseased);
  let sum = 0;
  for (let k = least; k <= most; k++) {
    const logShare =
      logChoose(diseased, k) +
      logChoose(animals - diseased, examined - k) -
      logChoose(animals, examined) +
      (k === 0 ? 0 : k * Math.log1p(-sensitivity));
    sum += Math.exp(logShare);
  }
  return Math.min(1, sum);
}

function logChoose(all: number, some: number): number {
  return gammaln(all + 1) - gammaln(some + 1) - gammaln(all - some + 1);
}

function noPrevalence(prevalence: number): Outside | undefined {
  return prevalence > 0
    ? beyond("prevalence", prevalence, 0, 1)
    : outside(`a prevalence of ${prevalence} is none`);
}

function noSensitivity(sensitivity: number): Outside | undefined {
  return sensitivity > 0
    ? beyond("sensitivity", sensitivity, 0, 1)
    : outside(`a test with a sensitivity of ${sensitivity} finds nothing`);
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}
