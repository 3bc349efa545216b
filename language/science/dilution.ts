/**
 * What changes of water do to what is dissolved, for water that is well mixed.
 *
 * Batch: C1 = C0(1-f) + Cs f, the mass balance of a tank drained by a fraction f and filled with source
 * water. Flow-through: C(t) = Cs + (C0-Cs) exp(-Qt/V); Steffensen 1989, Fish Physiol. Biochem. 6:49-59, eq.
 * 5; the same washout as CDC MMWR 1994;43(RR-13) Table S3-1. Names: `fraction` 0..1 of the volume,
 * `sourceMgL` what the new water itself holds.
 */
import { type Figure, outside } from "./result.ts";

/** Concentration after one batch change. */
export function afterChange(levelMgL: number, fraction: number, sourceMgL = 0): number {
  return levelMgL * (1 - fraction) + sourceMgL * fraction;
}

/** Concentration after `count` equal batch changes with nothing produced between: Cs + (C0-Cs)(1-f)^n. */
export function afterChanges(levelMgL: number, fraction: number, count: number, sourceMgL = 0): number {
  return sourceMgL + (levelMgL - sourceMgL) * (1 - fraction) ** count;
}

/** The share of the water that is new after several batch changes: 1 - product of (1-f). */
export function newWaterFraction(fractions: readonly number[]): number {
  let old = 1;
  for (const fraction of fractions) old *= 1 - fraction;
  return 1 - old;
}

/** The share of the water replaced when a volume runs through a full tank: 1 - exp(-V/V0). */
export function flowThroughFraction(throughL: number, tankL: number): number {
  return -Math.expm1(-throughL / tankL);
}

/** The volume that must run through to replace a fraction: -V0 ln(1-f). Infinite for all of it. */
export function flowThroughVolumeL(fraction: number, tankL: number): number {
  return -tankL * Math.log1p(-fraction);
}

/** Time until a fraction of what was there is washed out. @param exchangesPerHour Q/V */
export function washoutMin(fraction: number, exchangesPerHour: number): number {
  return (-Math.log1p(-fraction) / exchangesPerHour) * 60;
}

/** The flow that halves what is dissolved in a time: ln 2 * V/t. */
export function flowForHalfLifeLPerH(tankL: number, halfLifeH: number): number {
  return (Math.LN2 * tankL) / halfLifeH;
}

/**
 * How many equal batch changes bring a level to a target, or beyond it: ceil(ln((Ct-Cs)/(C0-Cs)) / ln(1-f)).
 * 0 when it is there already; a reason when the source water cannot bring it there.
 */
export function changesNeeded(levelMgL: number, targetMgL: number, fraction: number, sourceMgL = 0): Figure {
  const share = shareLeft(levelMgL, targetMgL, sourceMgL);
  if (typeof share !== "number") return share;
  if (share >= 1) return 0;
  if (!(fraction > 0)) return outside("no water is changed");
  if (fraction >= 1) return 1;
  // A whole number of changes must not become one more by the last bit of a logarithm.
  const exact = Math.log(share) / Math.log1p(-fraction);
  return Math.max(1, Math.ceil(exact - 1e-9));
}

/** The single batch change that brings a level to a target: (C0-Ct)/(C0-Cs). */
export function fractionToReach(levelMgL: number, sourceMgL: number, targetMgL: number): Figure {
  const share = shareLeft(levelMgL, targetMgL, sourceMgL);
  return typeof share === "number" ? Math.max(0, 1 - share) : share;
}

/**
 * The share of the difference to the source water that may be left at the target; over 1 when already there.
 */
function shareLeft(levelMgL: number, targetMgL: number, sourceMgL: number): Figure {
  const share = (targetMgL - sourceMgL) / (levelMgL - sourceMgL);
  // Lowering and raising are one case each: what counts is on which side of the source the level lies.
  if (levelMgL === targetMgL) return 1;
  if (levelMgL === sourceMgL) return outside("the source water is no different from the tank");
  if (share < 0 || (share === 0 && targetMgL !== sourceMgL)) {
    return outside("the target lies beyond what the source water itself holds");
  }
  return share;
}

/**
 * Steady state of a rise of `riseMgL` per period with one batch change a period, just before the change: Cs +
 * L/f.
 */
export function steadyBeforeChangeMgL(riseMgL: number, fraction: number, sourceMgL = 0): Figure {
  if (!(fraction > 0)) return outside("without a change there is no steady state");
  return sourceMgL + riseMgL / fraction;
}

/** The same just after the change: Cs + L(1-f)/f. */
export function steadyAfterChangeMgL(riseMgL: number, fraction: number, sourceMgL = 0): Figure {
  if (!(fraction > 0)) return outside("without a change there is no steady state");
  return sourceMgL + (riseMgL * (1 - fraction)) / fraction;
}

/** Steady state of a continuous load with a continuous flow: Cs + P/Q. */
export function steadyFlowMgL(loadMgPerH: number, flowLPerH: number, sourceMgL = 0): Figure {
  if (!(flowLPerH > 0)) return outside("without a flow there is no steady state");
  return sourceMgL + loadMgPerH / flowLPerH;
}

/** What is left of a substance that breaks down by halves: C0 * 2^(-t/h). First-order decay. */
export function afterDecay(levelMgL: number, days: number, halfLifeDays: number): number {
  return levelMgL * 2 ** (-days / halfLifeDays);
}

/** How long until decay brings a level down to a target; 0 when it is there. */
export function daysOfDecay(levelMgL: number, targetMgL: number, halfLifeDays: number): number {
  return levelMgL <= targetMgL ? 0 : halfLifeDays * Math.log2(levelMgL / targetMgL);
}

export interface Stream {
  readonly volumeL: number;
  /** Produced in the tank. */
  readonly loadMgPerH?: number;
  readonly flowLPerH?: number;
  readonly sourceMgL?: number;
  /** Broken down in the tank, first order; omitted: not at all. */
  readonly halfLifeH?: number;
}

/**
 * Exact level after some hours of load, flow and decay together: the solution of
 * C' = P/V + (Q/V)(Cs - C) - kC, which is C(t) = Cinf + (C0 - Cinf) exp(-(Q/V + k)t).
 */
export function afterHours(levelMgL: number, hours: number, stream: Stream): number {
  const { volumeL, loadMgPerH = 0, flowLPerH = 0, sourceMgL = 0, halfLifeH } = stream;
  const lossPerH = flowLPerH / volumeL + (halfLifeH === undefined ? 0 : Math.LN2 / halfLifeH);
  const gainMgLPerH = (loadMgPerH + flowLPerH * sourceMgL) / volumeL;
  // (1 - exp(-rt))/r tends to t: written so, it holds for a closed tank too.
  const reach = lossPerH === 0 ? hours : -Math.expm1(-lossPerH * hours) / lossPerH;
  return levelMgL * Math.exp(-lossPerH * hours) + gainMgLPerH * reach;
}
