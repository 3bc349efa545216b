import { isoOf } from "../../../../language/book/dates.ts";

/** From figures to places on a chart, and the round figures beside it. */

export type Scale = (value: number) => number;

export function scale(from: number, to: number, start: number, end: number): Scale {
  const factor = to === from ? 0 : (end - start) / (to - from);
  return (value) => start + (value - from) * factor;
}

/** Round figures from `low` to `high`, about `count` of them: steps of 1, 2 or 5 times a power of ten. */
export function ticks(low: number, high: number, count: number): number[] {
  const span = high - low;
  if (!(span > 0) || count < 1) return [low];
  const step = roundStep(span / count);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  // Whole steps times the step, so that no sum of errors shows.
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, at) => tidy((first + at) * step, step));
}

export function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  const lead = rough / power;
  return (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10) * power;
}

/** A round figure in as few digits as its step needs. */
export function tickText(value: number, step: number): string {
  return value.toFixed(places(step));
}

function tidy(value: number, step: number): number {
  return Number(value.toFixed(places(step)));
}

function places(step: number): number {
  return Math.min(20, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}

/** What a chart's height spans: all its figures, with a tenth of air above, from zero where zero is near. */
export function span(values: readonly number[]): readonly [low: number, high: number] {
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return [0, 1];
  const least = Math.min(...finite);
  const most = Math.max(...finite);
  const room = most - least;
  if (room === 0)
    return least === 0 ? [0, 1] : [least - 0.1 * Math.abs(least), least + 0.1 * Math.abs(least)];
  // Zero belongs on the chart if it costs less than what the figures themselves take.
  const low = least >= 0 && least <= room ? 0 : least - 0.08 * room;
  return [low, most + 0.1 * (most - low)];
}

const monthNames = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

export interface DayTick {
  readonly day: number;
  readonly text: string;
  /** The first of a month. */
  readonly isMonth: boolean;
}

/** Days to mark on an axis, at most `most`: single days, Mondays, the first of each month, or of some months. */
export function dayTicks(from: number, to: number, most: number): DayTick[] {
  const days = to - from;
  const marks =
    days <= most ? everyDay(from, to) : days / 7 <= most ? mondays(from, to) : months(from, to, most);
  return marks.map((day) => ({ day, text: dayText(day, days), isMonth: dateOf(day) === 1 }));
}

function everyDay(from: number, to: number): number[] {
  const first = Math.ceil(from);
  return Array.from({ length: Math.max(0, Math.floor(to) - first + 1) }, (_, at) => first + at);
}

/** 1970-01-01 was a Thursday. */
const isMonday = (day: number): boolean => (day + 3) % 7 === 0;

const mondays = (from: number, to: number): number[] => everyDay(from, to).filter(isMonday);

/** The first of each month, or of some months: no more than `most`, or each January. */
export function months(from: number, to: number, most: number): number[] {
  const firsts = everyDay(from, to).filter((day) => dateOf(day) === 1);
  const every = [1, 2, 3, 6, 12].find((step) => firsts.length / step <= most) ?? 12;
  return firsts.filter((day) => (monthOf(day) - 1) % every === 0);
}

const monthOf = (day: number): number => Number(isoOf(day).slice(5, 7));
const dateOf = (day: number): number => Number(isoOf(day).slice(8, 10));

function dayText(day: number, days: number): string {
  const month = monthNames[monthOf(day) - 1]!;
  if (days > 100) return month === "Jan" ? isoOf(day).slice(0, 4) : month;
  return `${dateOf(day)} ${month}`;
}
