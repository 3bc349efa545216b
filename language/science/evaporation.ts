/**
 * Evaporation takes water and leaves what is dissolved; a top-up brings what its own water holds.
 * Mass balance, well mixed.
 */
import { type Figure, outside } from "./result.ts";

/** Concentration when evaporation has brought the water from one volume to another: C0 V0/V. */
export function afterEvaporation(levelMgL: number, beforeL: number, nowL: number): Figure {
  if (!(nowL > 0)) return outside("no water is left");
  return (levelMgL * beforeL) / nowL;
}

/** Concentration in the full tank after `count` top-ups, each of `fraction` of the volume: C0 + n e Ct. */
export function afterTopUps(levelMgL: number, fraction: number, count: number, topUpMgL: number): number {
  return levelMgL + count * fraction * topUpMgL;
}

/**
 * Steady state with top-ups and changes from the same source, in the full tank just before the change: the
 * top-ups' salt is the only rise, so Cs(1 + e/f).
 * @param topUpFraction topped up between two changes, as a fraction of the volume
 */
export function steadyWithTopUpMgL(sourceMgL: number, changeFraction: number, topUpFraction: number): Figure {
  if (!(changeFraction > 0)) return outside("without a change what is left behind only grows");
  return sourceMgL * (1 + topUpFraction / changeFraction);
}

/** How many times more concentrated a system runs than what fills it. */
export function cyclesOfConcentration(systemMgL: number, makeUpMgL: number): number {
  return systemMgL / makeUpMgL;
}

/** The water to be drained to hold so many cycles of concentration: evaporation/(cycles-1). */
export function drainToHold(evaporationL: number, cycles: number): Figure {
  if (!(cycles > 1)) return outside("a system cannot run more dilute than what fills it");
  return evaporationL / (cycles - 1);
}

/**
 * Evaporation of a cooling tower by its load: tons of refrigeration * range in F * a factor, US gal per hour.
 * The factor is the plant's own (0.18 in the published example); a rule of thumb of plant engineers, not of
 * fish rooms.
 */
export function towerEvaporationGalPerH(tons: number, rangeF: number, factor: number): number {
  return tons * rangeF * factor;
}
