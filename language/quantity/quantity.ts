/**
 * A figure with its unit, kept in the canonical unit of its dimension, with what is known of it: exact, a
 * range, below or above what the test can tell. What is censored stays censored in every comparison.
 */
import { keepsUnit, LEAST } from "./dimension.ts";
import { type Basis, UNITS, type Unit } from "./unit-table.ts";

export interface Quantity {
  /** Canonical value; the bound of a censored reading; the lower end of a range. */
  readonly value: number;
  /** The unit it was written in. */
  readonly unit: Unit;
  readonly censor: "none" | "below" | "above";
  /** Upper end of a range, canonical. */
  readonly high?: number;
  /** Written with `~`: about. */
  readonly approximate?: boolean;
}

const factors = Float64Array.from(UNITS, (unit) => unit.factor);
const offsets = Float64Array.from(UNITS, (unit) => unit.offset);

/** A value in the unit with this id, as canonical value. */
export function toCanonical(value: number, unitId: number): number {
  return value * factors[unitId]! + offsets[unitId]!;
}

/** A canonical value in the unit with this id. */
export function fromCanonical(canonical: number, unitId: number): number {
  return (canonical - offsets[unitId]!) / factors[unitId]!;
}

/**
 * Whether a figure in one unit can be said in the other: same dimension, and one portion or price only as
 * itself.
 */
export function convertible(from: Unit, to: Unit): boolean {
  if (from === to) return true;
  if (from.dimension !== to.dimension || keepsUnit(from.dimension)) return false;
  return from.dimension !== "concentration" || rebase(1, from.basis, to.basis) !== undefined;
}

/** The value in another unit; undefined when the two do not convert into each other. */
export function convert(value: number, from: Unit, to: Unit): number | undefined {
  if (from === to) return value;
  if (!convertible(from, to)) return undefined;
  const canonical = toCanonical(value, from.id);
  const rebased = from.dimension === "concentration" ? rebase(canonical, from.basis, to.basis) : canonical;
  return rebased === undefined ? undefined : fromCanonical(rebased, to.id);
}

/**
 * Formula mass per atom of the element counted, CIAAW 2021 abridged: N 14.007, O 15.999, H 1.0080, P
 * 30.973761998.
 */
const PER_ATOM: Readonly<Partial<Record<Basis, readonly [element: "N" | "P", gramsPerMole: number]>>> = {
  N: ["N", 14.007],
  NO3: ["N", 14.007 + 3 * 15.999],
  NO2: ["N", 14.007 + 2 * 15.999],
  NH3: ["N", 14.007 + 3 * 1.008],
  NH4: ["N", 14.007 + 4 * 1.008],
  P: ["P", 30.973761998],
  PO4: ["P", 30.973761998 + 4 * 15.999],
};

/**
 * mg/L counted as one thing (as N) said as another (as NO3).
 * @returns undefined when the two are not of one element, or one of them is not stated and the other is
 */
export function rebase(mgL: number, from: Basis | undefined, to: Basis | undefined): number | undefined {
  if (from === to) return mgL;
  const was = from === undefined ? undefined : PER_ATOM[from];
  const will = to === undefined ? undefined : PER_ATOM[to];
  if (was === undefined || will === undefined || was[0] !== will[0]) return undefined;
  return (mgL * will[1]) / was[1];
}

/** From `low` to `high` canonical; an open end is not itself included. */
export interface Interval {
  readonly low: number;
  readonly high: number;
  readonly lowOpen: boolean;
  readonly highOpen: boolean;
}

/**
 * All values the quantity may have: `<5` is [0, 5), `>100` is (100, inf), `3..4` is [3, 4].
 * @param resolution canonical step of the instrument: a plain reading then stands for half a step to each
 * side
 */
export function intervalOf(quantity: Quantity, resolution = 0): Interval {
  const { value, censor, unit } = quantity;
  const least = LEAST[unit.dimension];
  if (censor === "below") return { low: Math.min(least, value), high: value, lowOpen: false, highOpen: true };
  if (censor === "above") return { low: value, high: Infinity, lowOpen: true, highOpen: true };
  const half = resolution / 2;
  const low = half === 0 ? value : Math.max(value - half, Math.min(least, value));
  return { low, high: (quantity.high ?? value) + half, lowOpen: false, highOpen: false };
}

/** What a value should be, canonical; a missing end is no limit; `<` and `>` limits are open. */
export interface Bounds {
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  readonly lowOpen?: boolean | undefined;
  readonly highOpen?: boolean | undefined;
}

/** `cannot tell`: part of what the reading may be lies within the bounds and part without. */
export type Verdict = "inside" | "outside" | "cannot tell";

/** Compares a quantity (or its interval) with bounds in the same canonical unit. */
export function compare(reading: Quantity | Interval, bounds: Bounds): Verdict {
  const { low, high, lowOpen, highOpen } = "unit" in reading ? intervalOf(reading) : reading;
  const { low: floor = -Infinity, high: ceiling = Infinity } = bounds;
  const atFloor = same(low, floor);
  const atCeiling = same(high, ceiling);
  const aboveFloor = (atFloor && (lowOpen || !bounds.lowOpen)) || (!atFloor && low > floor);
  const belowCeiling = (atCeiling && (highOpen || !bounds.highOpen)) || (!atCeiling && high < ceiling);
  if (aboveFloor && belowCeiling) return "inside";
  if (wholly(low, lowOpen, ceiling, bounds.highOpen) || wholly(floor, bounds.lowOpen, high, highOpen)) {
    return "outside";
  }
  return "cannot tell";
}

/** Whether what begins at `start` lies wholly after what ends at `end`. */
function wholly(
  start: number,
  startOpen: boolean | undefined,
  end: number,
  endOpen: boolean | undefined,
): boolean {
  if (same(start, end)) return Boolean(startOpen) || Boolean(endOpen);
  return start > end;
}

/** Equal but for the last bits: 77 F and 25 C are one temperature, whichever way it was computed. */
function same(a: number, b: number): boolean {
  if (a === b) return true;
  const apart = Math.abs(a - b);
  return apart < Infinity && apart <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));
}
