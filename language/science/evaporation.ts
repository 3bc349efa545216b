/**
 * Evaporation takes water and leaves what is dissolved; a top-up brings what its own water holds.
 * Mass balance, well mixed.
 */
import { negative, notPositive } from "./given.ts";
import { type Figure, map, outside } from "./result.ts";

/** Concentration when evaporation has brought the water from one volume to another: C0 V0/V. */
export function afterEvaporation(levelMgL: number, beforeL: number, nowL: number): Figure {
  const refused = negative("level", levelMgL, "mg/L") ?? notPositive("volume before", beforeL, "L");
  if (refused !== undefined) return refused;
  if (!(nowL > 0)) return outside("no water is left");
  if (nowL > beforeL) return outside(`evaporation makes no ${nowL} L of ${beforeL} L`);
  return (levelMgL * beforeL) / nowL;
}

/** Concentration in the full tank after `count` top-ups, each of `fraction` of the volume: C0 + n e Ct. */
export function afterTopUps(levelMgL: number, fraction: number, count: number, topUpMgL: number): Figure {
  return (
    negative("level", levelMgL, "mg/L") ??
    negative("level of the top-up", topUpMgL, "mg/L") ??
    negative("number of top-ups", count) ??
    noShare("the top-up", fraction) ??
    levelMgL + count * fraction * topUpMgL
  );
}

/**
 * Steady state with top-ups and changes, in the full tank just before the change: the top-ups' salt is the
 * only rise, so Cs + Ct e/f; Cs(1 + e/f) where both are of one source.
 * @param topUpFraction topped up between two changes, as a fraction of the volume
 * @param topUpMgL what the top-up holds; omitted: it is water of the source
 */
export function steadyWithTopUpMgL(
  sourceMgL: number,
  changeFraction: number,
  topUpFraction: number,
  topUpMgL = sourceMgL,
): Figure {
  const refused =
    negative("level of the source", sourceMgL, "mg/L") ??
    negative("level of the top-up", topUpMgL, "mg/L") ??
    noShare("the change", changeFraction) ??
    negative("topped-up fraction", topUpFraction);
  if (refused !== undefined) return refused;
  if (changeFraction === 0) return outside("without a change what is left behind only grows");
  return sourceMgL + (topUpMgL * topUpFraction) / changeFraction;
}

/** How many times more concentrated a system runs than what fills it. */
export function cyclesOfConcentration(systemMgL: number, makeUpMgL: number): Figure {
  const refused =
    negative("level of the system", systemMgL, "mg/L") ??
    notPositive("level of what fills it", makeUpMgL, "mg/L");
  return refused ?? systemMgL / makeUpMgL;
}

/** The water to be drained to hold so many cycles of concentration: evaporation/(cycles-1). */
export function drainToHold(evaporationL: number, cycles: number): Figure {
  const refused = negative("evaporation", evaporationL, "L");
  if (refused !== undefined) return refused;
  if (!(cycles > 1)) return outside("a system cannot run more dilute than what fills it");
  return evaporationL / (cycles - 1);
}

/** The water to be filled in to hold so many cycles: what evaporates and what is drained. */
export function fillToHold(evaporationL: number, cycles: number): Figure {
  return map(drainToHold(evaporationL, cycles), (drained) => evaporationL + drained);
}

/**
 * Evaporation of a cooling tower by its load: tons of refrigeration * range in F * a factor, US gal per hour.
 * The factor is the plant's own (0.18 in the published example); a rule of thumb of plant engineers, not of
 * fish rooms.
 */
export function towerEvaporationGalPerH(tons: number, rangeF: number, factor: number): Figure {
  return (
    negative("load", tons, "tons") ??
    negative("range", rangeF, "F") ??
    notPositive("factor", factor) ??
    tons * rangeF * factor
  );
}

function noShare(name: string, fraction: number) {
  if (fraction >= 0 && fraction <= 1) return undefined;
  return outside(`${name}, ${fraction} of the volume, is not within 0 to 1`);
}
