/** Readings by what is known of them: a figure, `<5`, `>100`, or what lies between two figures. */
import { type Outside, outside } from "./result.ts";

export interface Reading {
  readonly low: number;
  /** The same twice for a figure; Infinity where there is no upper end. */
  readonly high: number;
  /** `<5` is 5 at no time, `>5` neither: that end is left out. Of a figure and of a range both ends are in. */
  readonly is: "figure" | "below" | "above" | "between";
}

export function figure(value: number): Reading {
  return { low: value, high: value, is: "figure" };
}

/** `<5` of what is never under a floor: 0 of a concentration. */
export function below(limit: number, floor = 0): Reading {
  return { low: floor, high: limit, is: "below" };
}

/** `>100`. */
export function above(limit: number): Reading {
  return { low: limit, high: Infinity, is: "above" };
}

/**
 * 1: the second is surely more, -1: surely less; 0: the same, or nobody can tell. `<1` to 10 rises, `<1` to 0.5 and `<1`
 * to `<5` are ties (Helsel 2005, Nondetects and Data Analysis, as the documentation of the R package NADA tells it).
 */
export function order(first: Reading, second: Reading): -1 | 0 | 1 {
  if (isUnder(first, second)) return 1;
  return isUnder(second, first) ? -1 : 0;
}

function isUnder(first: Reading, second: Reading): boolean {
  return (
    first.high < second.low || (first.high === second.low && (first.is === "below" || second.is === "above"))
  );
}

/** A reason unless each reading has ends in order and one of them is finite. */
export function notReadings(readings: readonly Reading[]): Outside | undefined {
  const wrong = readings.find(({ low, high }) => !(low <= high) || (low === high && !Number.isFinite(low)));
  if (wrong === undefined) return undefined;
  return outside(
    `${wrong.low === wrong.high || Number.isNaN(wrong.low) ? wrong.low : wrong.high} is no reading`,
  );
}
