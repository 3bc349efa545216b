/**
 * What changes of water do to what is dissolved, for water that is well mixed.
 *
 * Batch: C1 = C0(1-f) + Cs f, the mass balance of a tank drained by a fraction f and filled with source
 * water. Flow-through: C(t) = Cs + (C0-Cs) exp(-Qt/V); Steffensen 1989, Fish Physiol. Biochem. 6:49-59, eq.
 * 5; the same washout as CDC MMWR 1994;43(RR-13) Table S3-1. Names: `fraction` 0..1 of the volume,
 * `sourceMgL` what the new water itself holds.
 *
 * `afterChange`, `flowThroughFraction` and `afterDecay` are plain numbers, unchecked: ledgers ask them for
 * every row of a log, of figures checked as they were read. For figures that nobody checked there are
 * `afterChanges` with a count of 1, `flowThroughShare` and `levelAfterDecay`.
 */
import { negative, notPositive } from "./given.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";

/** Concentration after one batch change. Unchecked. */
export function afterChange(levelMgL: number, fraction: number, sourceMgL = 0): number {
  return levelMgL * (1 - fraction) + sourceMgL * fraction;
}

/** Concentration after `count` equal batch changes with nothing produced between: Cs + (C0-Cs)(1-f)^n. */
export function afterChanges(levelMgL: number, fraction: number, count: number, sourceMgL = 0): Figure {
  const refused = mixed(levelMgL, sourceMgL) ?? share(fraction) ?? negative("number of changes", count);
  if (refused !== undefined) return refused;
  if (!Number.isInteger(count)) return outside(`number of changes ${count} is not whole`);
  return sourceMgL + (levelMgL - sourceMgL) * (1 - fraction) ** count;
}

/** The share of the water that is new after several batch changes: 1 - product of (1-f). */
export function newWaterFraction(fractions: readonly number[]): Figure {
  const refused = fractions.map(share).find(isOutside);
  if (refused !== undefined) return refused;
  let old = 1;
  for (const fraction of fractions) old *= 1 - fraction;
  return 1 - old;
}

/** The share of the water replaced when a volume runs through a full tank: 1 - exp(-V/V0). Unchecked. */
export function flowThroughFraction(throughL: number, tankL: number): number {
  return -Math.expm1(-throughL / tankL);
}

/** The same of figures that nobody checked. */
export function flowThroughShare(throughL: number, tankL: number): Figure {
  return (
    negative("water run through", throughL, "L") ??
    notPositive("volume", tankL, "L") ??
    flowThroughFraction(throughL, tankL)
  );
}

/** The volume that must run through to replace a fraction: -V0 ln(1-f). */
export function flowThroughVolumeL(fraction: number, tankL: number): Figure {
  return notPositive("volume", tankL, "L") ?? washed(fraction) ?? -tankL * Math.log1p(-fraction);
}

/** Time until a fraction of what was there is washed out. @param exchangesPerHour Q/V */
export function washoutMin(fraction: number, exchangesPerHour: number): Figure {
  return (
    washed(fraction) ??
    notPositive("exchanges an hour", exchangesPerHour) ??
    (-Math.log1p(-fraction) / exchangesPerHour) * 60
  );
}

/** The flow that halves what is dissolved in a time: ln 2 * V/t. */
export function flowForHalfLifeLPerH(tankL: number, halfLifeH: number): Figure {
  return (
    notPositive("volume", tankL, "L") ??
    notPositive("half-life", halfLifeH, "h") ??
    (Math.LN2 * tankL) / halfLifeH
  );
}

/**
 * How many equal batch changes bring a level to a target, or beyond it: ceil(ln((Ct-Cs)/(C0-Cs)) / ln(1-f)).
 * 0 when it is there already; a reason when the source water cannot bring it there, or only a whole change.
 */
export function changesNeeded(levelMgL: number, targetMgL: number, fraction: number, sourceMgL = 0): Figure {
  const refused = share(fraction);
  const left = shareLeft(levelMgL, targetMgL, sourceMgL);
  if (refused !== undefined || typeof left !== "number") return refused ?? left;
  if (left >= 1) return 0;
  if (fraction === 0) return outside("no water is changed");
  if (fraction === 1) return 1;
  if (left === 0) return outside("only a whole change brings it to the source water itself");
  // A whole number of changes must not become one more by the last bit of a logarithm.
  const exact = Math.log(left) / Math.log1p(-fraction);
  return Math.max(1, Math.ceil(exact - 1e-9));
}

/** The single batch change that brings a level to a target: (C0-Ct)/(C0-Cs). */
export function fractionToReach(levelMgL: number, sourceMgL: number, targetMgL: number): Figure {
  const left = shareLeft(levelMgL, targetMgL, sourceMgL);
  return typeof left === "number" ? Math.max(0, 1 - left) : left;
}

/**
 * The share of the difference to the source water that may be left at the target; over 1 when already there.
 */
function shareLeft(levelMgL: number, targetMgL: number, sourceMgL: number): Figure {
  const refused = mixed(levelMgL, sourceMgL) ?? negative("target", targetMgL, "mg/L");
  if (refused !== undefined) return refused;
  const left = (targetMgL - sourceMgL) / (levelMgL - sourceMgL);
  // Lowering and raising are one case each: what counts is on which side of the source the level lies.
  if (levelMgL === targetMgL) return 1;
  if (levelMgL === sourceMgL) return outside("the source water is no different from the tank");
  if (left < 0) return outside("the target lies beyond what the source water itself holds");
  return left;
}

/**
 * Steady state of a rise of `riseMgL` per period with one batch change a period, just before the change: Cs +
 * L/f. A fall is a rise below 0; where it takes more than the changes bring, there is none.
 */
export function steadyBeforeChangeMgL(riseMgL: number, fraction: number, sourceMgL = 0): Figure {
  return periodic(riseMgL, fraction, sourceMgL) ?? held(sourceMgL + riseMgL / fraction);
}

/** The same just after the change: Cs + L(1-f)/f. */
export function steadyAfterChangeMgL(riseMgL: number, fraction: number, sourceMgL = 0): Figure {
  return periodic(riseMgL, fraction, sourceMgL) ?? held(sourceMgL + (riseMgL * (1 - fraction)) / fraction);
}

/** Steady state of a continuous load with a continuous flow: Cs + P/Q. */
export function steadyFlowMgL(loadMgPerH: number, flowLPerH: number, sourceMgL = 0): Figure {
  if (flowLPerH === 0) return outside("without a flow there is no steady state");
  return (
    negative("load", loadMgPerH, "mg/h") ??
    notPositive("flow", flowLPerH, "L/h") ??
    negative("source water", sourceMgL, "mg/L") ??
    sourceMgL + loadMgPerH / flowLPerH
  );
}

/** What is left of a substance that breaks down by halves: C0 * 2^(-t/h). First-order decay. Unchecked. */
export function afterDecay(levelMgL: number, days: number, halfLifeDays: number): number {
  return levelMgL * 2 ** (-days / halfLifeDays);
}

/** The same of figures that nobody checked. */
export function levelAfterDecay(levelMgL: number, days: number, halfLifeDays: number): Figure {
  return (
    negative("level", levelMgL, "mg/L") ??
    negative("time", days, "days") ??
    notPositive("half-life", halfLifeDays, "days") ??
    afterDecay(levelMgL, days, halfLifeDays)
  );
}

/** How long until decay brings a level down to a target; 0 when it is there. It never comes to nothing. */
export function daysOfDecay(levelMgL: number, targetMgL: number, halfLifeDays: number): Figure {
  const refused =
    negative("level", levelMgL, "mg/L") ??
    negative("target", targetMgL, "mg/L") ??
    notPositive("half-life", halfLifeDays, "days");
  if (refused !== undefined) return refused;
  if (levelMgL <= targetMgL) return 0;
  if (targetMgL === 0) return outside("by halves it never comes to nothing");
  return halfLifeDays * Math.log2(levelMgL / targetMgL);
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
export function afterHours(levelMgL: number, hours: number, stream: Stream): Figure {
  const { volumeL, loadMgPerH = 0, flowLPerH = 0, sourceMgL = 0, halfLifeH } = stream;
  const refused =
    mixed(levelMgL, sourceMgL) ??
    negative("time", hours, "h") ??
    notPositive("volume", volumeL, "L") ??
    negative("load", loadMgPerH, "mg/h") ??
    negative("flow", flowLPerH, "L/h") ??
    (halfLifeH === undefined ? undefined : notPositive("half-life", halfLifeH, "h"));
  if (refused !== undefined) return refused;
  const lossPerH = flowLPerH / volumeL + (halfLifeH === undefined ? 0 : Math.LN2 / halfLifeH);
  const gainMgLPerH = (loadMgPerH + flowLPerH * sourceMgL) / volumeL;
  // (1 - exp(-rt))/r tends to t: written so, it holds for a closed tank too.
  const reach = lossPerH === 0 ? hours : -Math.expm1(-lossPerH * hours) / lossPerH;
  return levelMgL * Math.exp(-lossPerH * hours) + gainMgLPerH * reach;
}

function mixed(levelMgL: number, sourceMgL: number): Outside | undefined {
  return negative("level", levelMgL, "mg/L") ?? negative("source water", sourceMgL, "mg/L");
}

function share(fraction: number): Outside | undefined {
  return beyond("share of the water changed", fraction, 0, 1);
}

/** Old water is only ever thinned by a flow: all of it would take a flow without end. */
function washed(fraction: number): Outside | undefined {
  if (fraction === 1) return outside("a flow never replaces all of the water");
  return beyond("share of the water replaced", fraction, 0, 1);
}

function periodic(riseMgL: number, fraction: number, sourceMgL: number): Outside | undefined {
  if (fraction === 0) return outside("without a change there is no steady state");
  if (!Number.isFinite(riseMgL)) return outside(`rise ${riseMgL} mg/L is no figure`);
  return share(fraction) ?? negative("source water", sourceMgL, "mg/L");
}

function held(steadyMgL: number): Figure {
  return steadyMgL >= 0 ? steadyMgL : outside("more is used up than the changes bring");
}
