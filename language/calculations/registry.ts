import { didYouMean, nearest } from "../quantity/nearest.ts";
import { freeAmmonia } from "./ammonia/free-ammonia.ts";
import type { Calculation } from "./calculation.ts";

/** Every calculation, by groups in the order a list shows them. */
export const calculations: readonly Calculation[] = [freeAmmonia];

const byName = new Map(calculations.map((each) => [each.name, each]));

export function calculationOf(name: string): Calculation | undefined {
  return byName.get(name);
}

/** Says that there is no calculation of that name, with the nearest. */
export function noCalculation(name: string): string {
  const near = didYouMean(nearest(name, byName.keys()));
  return `there is no calculation “${name}”${near}`;
}
