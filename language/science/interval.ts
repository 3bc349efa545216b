/** Intervals: their ends, their sides, their confidence. */
import { normalQuantile } from "./normal.ts";
import { type Outside, outside } from "./result.ts";

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/** An interval bounds on both sides; one-sided, each of its ends is a bound by itself. */
export type Sides = 1 | 2;

/** z of a confidence, 1.959964 for 0.95 on two sides, 1.644854 on one. */
export function zOf(confidence: number, sides: Sides): number {
  return normalQuantile(1 - (1 - confidence) / sides);
}

/** A reason unless a confidence is a share between 0 and 1. */
export function noConfidence(confidence: number): Outside | undefined {
  if (confidence > 0 && confidence < 1) return undefined;
  return outside(`a confidence of ${confidence} is not between 0 and 1`);
}
