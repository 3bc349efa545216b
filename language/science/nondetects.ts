/**
 * Summary of readings of which some lie below what the test can tell, by Kaplan & Meier with the axis turned about: Helsel
 * 2005, Nondetects and Data Analysis, ch. 6 (recalled), after Nelson 1972 (as the R package STAND tells it). Nothing is put in for a `<5`, no half of
 * the limit either.
 */
import type { Reading } from "./censored.ts";
import { type Figure, isOutside, type Outside, outside } from "./result.ts";

export interface Summary {
  readonly readings: number;
  /** How many are below their limit. */
  readonly below: number;
  /**
   * The mean where what is left below the lowest figure is at the lowest limit (Efron 1967), and where it is 0: the truth
   * lies between. The same twice where nothing is left there.
   */
  readonly mean: { readonly least: number; readonly most: number };
  /** Or why there is none: it lies below the lowest limit. */
  readonly median: Figure;
}

/** @param readings figures and `<` ones of what is never below 0 */
export function belowDetection(readings: readonly Reading[]): Summary | Outside {
  const steps = cumulative(readings);
  if (isOutside(steps)) return steps;
  const limits = readings.filter(({ is }) => is === "below").map(({ high }) => high);
  const inFigures = steps.reduce((sum, { value, upTo, under }) => sum + value * (upTo - under), 0);
  const rest = steps.at(-1)!.under;
  // What is left below the lowest figure is somewhere under the lowest limit, as far as the readings tell.
  const lowest = rest === 0 ? 0 : Math.min(...limits);
  return {
    readings: readings.length,
    below: limits.length,
    mean: { least: inFigures, most: inFigures + rest * lowest },
    median: median(steps),
  };
}

/** The share of all up to a figure, and under it. */
interface Step {
  readonly value: number;
  readonly upTo: number;
  readonly under: number;
}

/** From the highest figure down. A `<5` counts among those of 5 or less; of those above 5 it says nothing. */
function cumulative(readings: readonly Reading[]): readonly Step[] | Outside {
  const wrong = readings.find(
    ({ low, high, is }) => (is !== "figure" && is !== "below") || !(low >= 0 && high < Infinity),
  );
  if (wrong !== undefined) return outside("the values may be figures of 0 or more and < readings only");
  const figures = readings.filter(({ is }) => is === "figure").map(({ low }) => low);
  if (figures.length === 0) return outside("no reading is above its limit: there is nothing to sum up");
  const steps: Step[] = [];
  let upTo = 1;
  for (const value of [...new Set(figures)].sort((one, other) => other - one)) {
    const atMost = readings.filter(({ high }) => high <= value).length;
    const here = figures.filter((each) => each === value).length;
    // The last animal of a set leaves nothing, not the last bit of a product.
    const under = here === atMost ? 0 : upTo * (1 - here / atMost);
    steps.push({ value, upTo, under });
    upTo = under;
  }
  return steps;
}

/** The value with half of all below; where the curve is flat at a half, the middle of the two figures it lies between. */
function median(steps: readonly Step[]): Figure {
  const half = 0.5;
  const rounding = 1e-12;
  for (const [at, { value, under }] of steps.entries()) {
    if (under > half + rounding) continue;
    if (under < half - rounding) return value;
    const next = steps[at + 1];
    return next === undefined ? outside(tooLow) : (value + next.value) / 2;
  }
  return outside(tooLow);
}

const tooLow = "half or more of all lie under the lowest figure";
