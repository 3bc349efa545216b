/**
 * What a change of water does to free ammonia. A change dilutes the total; but new water of a higher pH turns
 * more of what is left into NH3, so a change can make things worse. Mass balance (`dilution.ts`) with the
 * share of `ammonia-salinity.ts`.
 */
import { ammoniaShare } from "./ammonia-salinity.ts";
import { afterChange, changesNeeded, fractionToReach } from "./dilution.ts";
import { negative } from "./given.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";

export interface AmmoniaWater {
  readonly totalMgLN: number;
  readonly pH: number;
  readonly temperatureC: number;
  readonly salinityGPerKg: number;
}

/** The total at which free ammonia stands at a limit, in water like this. */
export function totalAtFreeLimitMgLN(freeLimitMgLN: number, water: Omit<AmmoniaWater, "totalMgLN">): Figure {
  const share = ammoniaShare(water.pH, water.temperatureC, water.salinityGPerKg);
  if (isOutside(share)) return share;
  return negative("limit of free ammonia", freeLimitMgLN, "mg/L N") ?? freeLimitMgLN / share.share;
}

/**
 * The single change (0..1 of the volume) that brings free ammonia down to a limit while pH and temperature
 * stay; 0 when it is there. `freeAfterChange` tells what the new water's own pH does to that.
 */
export function changeToFreeLimit(tank: AmmoniaWater, freeLimitMgLN: number, sourceMgLN = 0): Figure {
  return toTarget(tank, freeLimitMgLN, sourceMgLN, (target) =>
    fractionToReach(tank.totalMgLN, sourceMgLN, target),
  );
}

/** How many equal changes of `fraction` do that, pH and temperature staying. */
export function changesToFreeLimit(
  tank: AmmoniaWater,
  freeLimitMgLN: number,
  fraction: number,
  sourceMgLN = 0,
): Figure {
  return (
    beyond("share of the water changed", fraction, 0, 1) ??
    toTarget(tank, freeLimitMgLN, sourceMgLN, (target) =>
      changesNeeded(tank.totalMgLN, target, fraction, sourceMgLN),
    )
  );
}

function toTarget(
  tank: AmmoniaWater,
  freeLimitMgLN: number,
  sourceMgLN: number,
  reach: (targetMgLN: number) => Figure,
): Figure {
  const target = totalAtFreeLimitMgLN(freeLimitMgLN, tank);
  if (isOutside(target)) return target;
  const refused =
    negative("total ammonia", tank.totalMgLN, "mg/L N") ??
    negative("total ammonia of the new water", sourceMgLN, "mg/L N");
  if (refused !== undefined) return refused;
  if (tank.totalMgLN <= target) return 0;
  // Also where the new water holds more than the tank: then every change leads away from the target.
  if (sourceMgLN > target) {
    const most = Number(target.toPrecision(3));
    return outside(
      `no change reaches it: the new water itself holds ${sourceMgLN} mg/L N, and the limit stands at ${most}`,
    );
  }
  return reach(target);
}

export interface FreeAfterChange {
  readonly totalMgLN: number;
  readonly temperatureC: number;
  /** Free ammonia as N were the pH to stay the tank's. */
  readonly freeIfPHStaysMgLN: number;
  /** Free ammonia as N were the pH to become the new water's. */
  readonly freeIfPHOfSourceMgLN: number;
  /** The larger of the two is more than was free before. */
  readonly mayRise: boolean;
}

/**
 * Free ammonia after a change of `fraction`, between its two bounds. As mixed and closed to the air, the pH of
 * two carbonate waters lies between theirs (total carbonate and alkalinity mix in proportion, and the waters
 * of one pH lie on a straight line of the two). Water that then gives off carbon dioxide rises beyond both.
 */
export function freeAfterChange(
  tank: AmmoniaWater,
  source: AmmoniaWater,
  fraction: number,
): FreeAfterChange | Outside {
  const refused =
    beyond("share of the water changed", fraction, 0, 1) ??
    negative("total ammonia", tank.totalMgLN, "mg/L N") ??
    negative("total ammonia of the new water", source.totalMgLN, "mg/L N");
  if (refused !== undefined) return refused;
  const totalMgLN = afterChange(tank.totalMgLN, fraction, source.totalMgLN);
  const temperatureC = afterChange(tank.temperatureC, fraction, source.temperatureC);
  const salinity = afterChange(tank.salinityGPerKg, fraction, source.salinityGPerKg);
  const before = freeIn(tank.totalMgLN, tank.pH, tank.temperatureC, tank.salinityGPerKg);
  const stays = freeIn(totalMgLN, tank.pH, temperatureC, salinity);
  const becomes = freeIn(totalMgLN, source.pH, temperatureC, salinity);
  if (isOutside(before)) return before;
  if (isOutside(stays)) return stays;
  if (isOutside(becomes)) return becomes;
  return {
    totalMgLN,
    temperatureC,
    freeIfPHStaysMgLN: stays,
    freeIfPHOfSourceMgLN: becomes,
    mayRise: Math.max(stays, becomes) > before,
  };
}

function freeIn(totalMgLN: number, pH: number, temperatureC: number, salinityGPerKg: number): Figure {
  const share = ammoniaShare(pH, temperatureC, salinityGPerKg);
  return isOutside(share) ? share : share.share * totalMgLN;
}
