import { type Figure, isOutside, type Outside } from "../../language/science/result.ts";
import type { Inputs } from "./inputs.ts";

/** From a row's inputs to its figure, and the unit it comes in; a row may ask for any other of its dimension. */
export interface Calculation {
  readonly unit: string;
  compute(given: Inputs): Figure;
}
export type Calculations = Readonly<Record<string, Calculation>>;

export function gives(unit: string, compute: (given: Inputs) => Figure): Calculation {
  return { unit, compute };
}

/** The same calculation under other names. */
export function named(names: readonly string[], calculation: Calculation): Calculations {
  return Object.fromEntries(names.map((name) => [name, calculation]));
}

/** Goes on with what a calculation answered; a reason passes through. */
export function chain<T>(answer: T | Outside, next: (value: T) => Figure): Figure {
  return isOutside(answer) ? answer : next(answer);
}
