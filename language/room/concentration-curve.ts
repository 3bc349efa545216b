import { decayed } from "./past.ts";

/**
 * What is in the water over a course, as stretches between doses and changes: within one only time takes of it, by the half-life stated.
 * So what is asked of the curve is worked out exactly, and not read off points. In the remedy's unit; a level that is not known is NaN,
 * and so is what follows from it.
 */
export interface Stretch {
  /** In days. */
  readonly from: number;
  readonly to: number;
  /** At `from`. */
  readonly level: number;
  /** Whether it lies ahead. */
  readonly isPlanned: boolean;
}

/** What made the level jump: a dose, or new water. */
export interface CurveStep {
  readonly is: "dose" | "change";
  readonly time: number;
  readonly before: number;
  readonly after: number;
  /** Of a change the share of new water, of a dose what it added. */
  readonly amount: number;
  readonly isPlanned: boolean;
}

/** The stretches that steps in order of time make, up to a time. */
export function stretchesOf(steps: readonly CurveStep[], until: number): Stretch[] {
  return steps.flatMap(({ time, after, isPlanned }, at): Stretch[] => {
    const to = Math.min(until, steps[at + 1]?.time ?? until);
    return to > time ? [{ from: time, to, level: after, isPlanned }] : [];
  });
}

/** Parts a curve at a time: what lies behind it, and what is ahead. */
export function partedAt(stretches: readonly Stretch[], time: number, halfLifeDays: number): Stretch[] {
  return stretches.flatMap((stretch): Stretch[] => {
    const { from, to, level } = stretch;
    if (to <= time) return [{ ...stretch, isPlanned: false }];
    if (from >= time) return [{ ...stretch, isPlanned: true }];
    return [
      { from, to: time, level, isPlanned: false },
      { from: time, to, level: decayed(level, time - from, halfLifeDays), isPlanned: true },
    ];
  });
}

/** The level on a curve at a time; NaN outside it. */
export function levelOn(stretches: readonly Stretch[], time: number, halfLifeDays: number): number {
  const on = stretches.findLast(({ from, to }) => time >= from && time <= to);
  return on === undefined ? Number.NaN : decayed(on.level, time - on.from, halfLifeDays);
}

/**
 * The exposure: the area under the curve, in the remedy's unit times hours. Of one stretch C h / ln 2 (1 - 2^(-t/h)), the integral of
 * C 2^(-t/h); C t where no half-life is stated.
 */
export function exposureHours(stretches: readonly Stretch[], halfLifeDays: number): number {
  let area = 0;
  for (const { from, to, level } of stretches) {
    const days = to - from;
    area += Number.isNaN(halfLifeDays)
      ? level * days
      : (-level * halfLifeDays * Math.expm1((-days * Math.LN2) / halfLifeDays)) / Math.LN2;
  }
  return area * 24;
}

/** A time span in days. */
export interface Between {
  readonly from: number;
  readonly to: number;
}

/** When a curve was between two levels, both included; what touches is one. */
export function timesWithin(
  stretches: readonly Stretch[],
  halfLifeDays: number,
  low: number,
  high: number,
): Between[] {
  const times: { from: number; to: number }[] = [];
  for (const { from, to, level } of stretches) {
    const begin = level <= high ? from : from + fallDays(level, high, halfLifeDays);
    const end = level < low ? from : Math.min(to, from + fallDays(level, low, halfLifeDays));
    // A level that is not known is between nothing.
    if (!(end > begin)) continue;
    const last = times.at(-1);
    if (last !== undefined && last.to >= begin) last.to = end;
    else times.push({ from: begin, to: end });
  }
  return times;
}

/** When a curve was above a level. */
export const timesAbove = (stretches: readonly Stretch[], halfLifeDays: number, ceiling: number): Between[] =>
  timesWithin(
    stretches.filter(({ level }) => level > ceiling),
    halfLifeDays,
    ceiling,
    Number.POSITIVE_INFINITY,
  );

/** How long a level takes to fall to one that is not higher; Infinity where time takes nothing of it. */
function fallDays(level: number, to: number, halfLifeDays: number): number {
  return Number.isNaN(halfLifeDays) || to <= 0
    ? Number.POSITIVE_INFINITY
    : halfLifeDays * Math.log2(level / to);
}

export const lengthDays = (times: readonly Between[]): number =>
  times.reduce((sum, { from, to }) => sum + (to - from), 0);

/** The highest level of a curve and when it was reached; undefined where none is known. */
export function highestOn(
  stretches: readonly Stretch[],
): { readonly level: number; readonly time: number } | undefined {
  let most: { level: number; time: number } | undefined;
  for (const { level, from } of stretches)
    if (!Number.isNaN(level) && (most === undefined || level > most.level)) most = { level, time: from };
  return most;
}

/** A decay is drawn in pieces of at most this many days. */
const pieceDays = 0.25;
/** And a stretch in no more than so many. */
const mostPieces = 96;

/** A curve as points to draw, a jump as two of one time; what is not known is left out. */
export function pointsOf(
  stretches: readonly Stretch[],
  halfLifeDays: number,
): { readonly time: number; readonly value: number }[] {
  return stretches.flatMap(({ from, to, level }) => {
    if (Number.isNaN(level)) return [];
    const isBent = !Number.isNaN(halfLifeDays) && level > 0;
    const pieces = isBent ? Math.min(mostPieces, Math.max(1, Math.ceil((to - from) / pieceDays))) : 1;
    return Array.from({ length: pieces + 1 }, (_, at) => {
      const time = from + ((to - from) * at) / pieces;
      return { time, value: decayed(level, time - from, halfLifeDays) };
    });
  });
}
