/**
 * Aquatic life criteria for ammonia in fresh water: EPA 822-R-13-001 (2013), mg/L total ammonia as N, pH 6.5
 * to 9.0 and 0 to 30 C. Criteria protect a water body's fauna; they are no target for a tank and no promise
 * for one animal.
 */
import { beyond, type Figure } from "./result.ts";

/** 1/(1 + 10^(knee - pH)) and its complement, weighed: the shape of all three formulas. */
function byPH(pH: number, knee: number, below: number, above: number): number {
  return below / (1 + 10 ** (knee - pH)) + above / (1 + 10 ** (pH - knee));
}

function range(pH: number, temperatureC: number) {
  return beyond("pH", pH, 6.5, 9) ?? beyond("temperature", temperatureC, 0, 30, "C");
}

/** Acute criterion (one-hour average). @param salmonids whether trout and salmon (Oncorhynchus) live there */
export function acuteAmmoniaMgLN(pH: number, temperatureC: number, salmonids: boolean): Figure {
  const refused = range(pH, temperatureC);
  if (refused !== undefined) return refused;
  const shape = 0.7249 * byPH(pH, 7.204, 0.0114, 1.6181);
  const byWarmth = 23.12 * 10 ** (0.036 * (20 - temperatureC));
  if (salmonids) return Math.min(byPH(pH, 7.204, 0.275, 39), shape * byWarmth);
  return shape * Math.min(51.93, byWarmth);
}

/** Chronic criterion (thirty-day average). */
export function chronicAmmoniaMgLN(pH: number, temperatureC: number): Figure {
  return (
    range(pH, temperatureC) ??
    0.8876 * byPH(pH, 7.688, 0.0278, 1.1994) * 2.126 * 10 ** (0.028 * (20 - Math.max(temperatureC, 7)))
  );
}

/** Highest four-day mean allowed within the thirty days: 2.5 times the chronic criterion. */
export function chronicFourDayMgLN(chronicMgLN: number): number {
  return 2.5 * chronicMgLN;
}

/** As criteria are reported: rounded to significant figures. */
export function toSignificant(value: number, digits: number): number {
  return Number(value.toPrecision(digits));
}
