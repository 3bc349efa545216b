import { spokenDay } from "../../book/dates.ts";
import type { WaterCard } from "../../features/cards.ts";
import { formatNumber } from "../../quantity/format.ts";
import { padEnd, padStart, widthOf } from "../text.ts";
import { Canvas } from "./canvas.ts";

/** A parameter over time: its readings, the course between them, its limits, and where it goes. */

export interface ChartForm {
  readonly day: number;
  readonly columns: number;
  readonly hasSigns: boolean;
}

/** So far back and ahead. */
const backDays = 56;
const forwardDays = 28;
const rows = 8;

const signs = {
  reading: "●",
  below: "▽",
  above: "△",
  limit: "╌",
  today: "┊",
  axis: "│",
  tick: "┤",
  corner: "└",
  floor: "─",
};
const ascii: typeof signs = {
  reading: "o",
  below: "v",
  above: "^",
  limit: "-",
  today: ":",
  axis: "|",
  tick: "|",
  corner: "+",
  floor: "-",
};

/** Whether there is enough to draw. */
export function isDrawn({ readings, limit }: WaterCard, day: number): boolean {
  return limit !== null && readings.filter(({ time }) => time > day - backDays).length >= 2;
}

/** The lines of a chart, its figures at the left and its days below. */
export function chartOf(card: WaterCard, form: ChartForm): string[] {
  const { day, hasSigns } = form;
  const letters = hasSigns ? signs : ascii;
  const from = day + 1 - backDays;
  const to = day + 1 + (card.ahead.length > 0 ? forwardDays : 0);
  const readings = card.readings.filter(({ time }) => time >= from);
  const course = card.course.filter(({ time }) => time >= from);
  const ahead = card.ahead.filter(({ time }) => time <= to);
  const scale = scaleOf([
    ...readings.flatMap(({ low, high }) => [low, high ?? low]),
    ...course.map(({ value }) => value),
    ...ahead.map(({ best }) => best),
    ...[card.limit?.low, card.limit?.high].filter((bound) => bound !== null && bound !== undefined),
  ]);
  const figures = ticksOf(scale, card);
  const left = Math.max(...figures.map(({ text }) => widthOf(text))) + 2;
  const canvas = new Canvas(Math.max(12, form.columns - left), rows, hasSigns);
  const x = (time: number): number => ((time - from) / (to - from)) * (canvas.columns * canvas.across - 1);
  const y = (value: number): number =>
    ((scale.high - value) / (scale.high - scale.low)) * (canvas.rows * canvas.down - 1);
  const columnOf = (time: number): number => Math.round(x(time) / canvas.across - 0.25);
  const rowOf = (value: number): number => Math.floor(Math.round(y(value)) / canvas.down);

  drawn(
    course.map(({ time, value }) => [x(time), y(value)] as const),
    1,
  );
  drawn(
    ahead.map(({ time, best }) => [x(time), y(best)] as const),
    hasSigns ? 3 : 2,
  );
  for (const { time, low, high } of readings) {
    const isBelow = low === 0 && high !== null && high > 0;
    const letter = isBelow ? letters.below : high === null ? letters.above : letters.reading;
    canvas.put(columnOf(time), rowOf(isBelow ? high : high === null ? low : (low + high) / 2), letter);
  }
  for (const bound of [card.limit?.low, card.limit?.high])
    if (bound !== null && bound !== undefined)
      for (let column = 0; column < canvas.columns; column++)
        canvas.put(column, rowOf(bound), letters.limit, true);
  if (to > day + 1)
    for (let row = 0; row < rows; row++) canvas.put(columnOf(day + 1), row, letters.today, true);

  const lines = canvas.lines().map((line, row) => {
    const figure = figures.find(({ value }) => rowOf(value) === row);
    return `${padStart(figure?.text ?? "", left - 2)} ${figure === undefined ? letters.axis : letters.tick}${line.trimEnd()}`;
  });
  const floor = `${" ".repeat(left - 1)}${letters.corner}${letters.floor.repeat(canvas.columns)}`;
  return [...lines, floor, " ".repeat(left) + daysBelow(from, day, to, canvas.columns, columnOf)];

  function drawn(points: readonly (readonly [number, number])[], every: number): void {
    points.forEach(([toX, toY], at) => {
      const [fromX, fromY] = points[at - 1] ?? [toX, toY];
      canvas.line(Math.round(fromX), Math.round(fromY), Math.round(toX), Math.round(toY), every);
    });
  }
}

interface Scale {
  readonly low: number;
  readonly high: number;
}

/** From a round figure below the least to one above the most; from 0 where that is near. */
function scaleOf(values: readonly number[]): Scale {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const low = least >= 0 && least < 0.5 * most ? 0 : least;
  const step = roundStep((most - low || Math.abs(most) || 1) / 4);
  // A value on the edge would be cut in half.
  const below = low === 0 ? 0 : (Math.ceil(low / step - 1e-9) - 1) * step;
  return { low: below, high: (Math.floor(most / step + 1e-9) + 1) * step };
}

/** The next of 1, 2, 5, 10 times a power of ten. */
function roundStep(wanted: number): number {
  const power = 10 ** Math.floor(Math.log10(wanted));
  return power * ([1, 2, 5].find((each) => each * power >= wanted - 1e-12) ?? 10);
}

/** Figures beside the axis: the limits, and the ends where they are not in the way. */
function ticksOf(scale: Scale, { limit }: WaterCard): { value: number; text: string }[] {
  const bounds = [limit?.low, limit?.high].filter((bound) => bound !== null && bound !== undefined);
  const apart = (value: number): boolean =>
    bounds.every((bound) => Math.abs(value - bound) > (scale.high - scale.low) * 0.2);
  const ends = [scale.high, scale.low].filter(apart);
  return [...bounds, ...ends].map((value) => ({ value, text: formatNumber(value, 3) }));
}

/** The first day, today, and the last below their columns. */
function daysBelow(
  from: number,
  day: number,
  to: number,
  columns: number,
  columnOf: (time: number) => number,
): string {
  const short = (at: number): string => spokenDay(at).replace(/^(\d+ ...).*$/, "$1");
  const todayAt = Math.min(columns - 5, columnOf(day + 1) - 2);
  const parts: [number, string][] = [[0, short(from)]];
  if (todayAt > 7) parts.push([todayAt, "today"]);
  if (to > day + 1 && columns - 6 > todayAt + 6) parts.push([columns - 6, short(to - 1)]);
  let made = "";
  for (const [at, text] of parts) made = padEnd(made, at) + text;
  return made;
}
