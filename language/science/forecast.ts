/**
 * When a level reaches a limit, with and without a regular change, and the change that keeps it from there.
 * All follow from C' = g and C -> C(1-f) + Cs f (`mass-balance.ts`); no figure here is a promise.
 */
import { notFinite, notPositive } from "./given.ts";
import type { Span } from "./mass-balance.ts";
import { beyond, type Figure, type Outside, outside } from "./result.ts";

/** A regular change of water: the next after `firstInDays`, then one every `everyDays`. */
export interface Regular {
  readonly firstInDays: number;
  readonly everyDays: number;
  readonly fraction: number;
  readonly sourceMgL: number;
}

/** `ceiling`: not to rise above the limit; `floor`: not to fall below it. */
export type Side = "ceiling" | "floor";

export interface Forecast {
  /** Days from now; 0: beyond the limit already; Infinity: never at this rate and duty. */
  readonly days: number;
  /** The same with the ends of what is known of level and rate. */
  readonly earliestDays: number;
  readonly latestDays: number;
}

/** Days until a level reaches a limit, by what is known of level and rate. */
export function forecast(
  levelMgL: Span,
  rateMgLDay: Span,
  limitMgL: number,
  side: Side = "ceiling",
  duty?: Regular,
): Forecast {
  const near = side === "ceiling" ? "high" : "low";
  const far = side === "ceiling" ? "low" : "high";
  return {
    days: daysToLimit(levelMgL.best, rateMgLDay.best, limitMgL, side, duty),
    earliestDays: daysToLimit(levelMgL[near], rateMgLDay[near], limitMgL, side, duty),
    latestDays: daysToLimit(levelMgL[far], rateMgLDay[far], limitMgL, side, duty),
  };
}

/** Longer than this is never: ten years. */
const HORIZON_DAYS = 3653;

/** Days until the level goes beyond the limit; 0 when it is beyond now; Infinity when it stays within. */
export function daysToLimit(
  levelMgL: number,
  rateMgLDay: number,
  limitMgL: number,
  side: Side = "ceiling",
  duty?: Regular,
): number {
  // The model is linear: a floor is a ceiling with every sign turned.
  const sign = side === "ceiling" ? 1 : -1;
  const limit = sign * limitMgL;
  const rate = sign * rateMgLDay;
  let level = sign * levelMgL;
  if (level > limit) return 0;
  if (duty === undefined || duty.fraction <= 0) return within(rate > 0 ? (limit - level) / rate : Infinity);
  const { fraction, everyDays } = duty;
  const source = sign * duty.sourceMgL;
  let passed = 0;
  let untilChange = Math.max(0, duty.firstInDays);
  while (passed <= HORIZON_DAYS) {
    const before = level + rate * untilChange;
    if (before > limit) return within(passed + (limit - level) / rate);
    const after = before * (1 - fraction) + source * fraction;
    passed += untilChange;
    if (after > limit) return within(passed);
    // From one period to the next the level goes one way only, towards the steady state.
    if (everyDays <= 0 || (untilChange === everyDays && after <= level)) return Infinity;
    const steadyBefore = source + (rate * everyDays) / fraction;
    const steadyAfter = steadyBefore - rate * everyDays;
    if (untilChange === everyDays && Math.max(steadyBefore, steadyAfter) <= limit) return Infinity;
    level = after;
    untilChange = everyDays;
  }
  return Infinity;
}

function within(days: number): number {
  return days <= HORIZON_DAYS ? days : Infinity;
}

/** The level after some days of production and regular changes; at the time of a change: just after it. */
export function levelAfter(levelMgL: number, rateMgLDay: number, days: number, duty?: Regular): number {
  if (duty === undefined || days < duty.firstInDays || duty.fraction <= 0)
    return levelMgL + rateMgLDay * days;
  const { firstInDays, everyDays, fraction, sourceMgL } = duty;
  const further = everyDays > 0 ? Math.floor((days - firstInDays) / everyDays + 1e-9) : 0;
  const first = (levelMgL + rateMgLDay * firstInDays) * (1 - fraction) + sourceMgL * fraction;
  // Each further period maps the level after a change linearly onto the next: a geometric approach to the
  // steady one.
  const steady = sourceMgL + (rateMgLDay * everyDays * (1 - fraction)) / fraction;
  const last = steady + (first - steady) * (1 - fraction) ** further;
  return last + rateMgLDay * (days - firstInDays - further * everyDays);
}

/**
 * The regular change that holds a level at a limit just before each change: f = g d/(limit - Cs).
 * @returns 0 when nothing is produced; a reason when no change can: the source holds as much, or all of it
 * and more
 */
export function holdingFraction(
  rateMgLDay: number,
  everyDays: number,
  limitMgL: number,
  sourceMgL: number,
): Figure {
  const refused =
    notHeld(rateMgLDay, limitMgL, sourceMgL) ?? notPositive("time between changes", everyDays, "days");
  if (refused !== undefined) return refused;
  if (rateMgLDay <= 0) return 0;
  const fraction = (rateMgLDay * everyDays) / (limitMgL - sourceMgL);
  return fraction <= 1 ? fraction : outside("even a whole change at that interval does not hold the limit");
}

/**
 * The longest interval at which changes of a fraction hold the limit: (limit - Cs) f/g; Infinity when nothing
 * is made.
 */
export function holdingIntervalDays(
  rateMgLDay: number,
  fraction: number,
  limitMgL: number,
  sourceMgL: number,
): Figure {
  const refused =
    notHeld(rateMgLDay, limitMgL, sourceMgL) ?? beyond("share of the water changed", fraction, 0, 1);
  if (refused !== undefined) return refused;
  return rateMgLDay <= 0 ? Infinity : ((limitMgL - sourceMgL) * fraction) / rateMgLDay;
}

function notHeld(rateMgLDay: number, limitMgL: number, sourceMgL: number): Outside | undefined {
  const refused =
    notFinite("rate", rateMgLDay) ?? notFinite("limit", limitMgL) ?? notFinite("source water", sourceMgL);
  if (refused !== undefined) return refused;
  return limitMgL <= sourceMgL ? outside("the source water itself is at the limit") : undefined;
}
