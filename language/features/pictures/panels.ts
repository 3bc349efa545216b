import { isoOf } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { SparkPoint } from "./spark.ts";

/**
 * Small charts side by side on one picture, with their axes: for paper. Dark on white whatever the theme, told apart by shape and not by
 * colour: readings are dots (what a reading leaves open is a bar from end to end), what is computed is a line, limits are dashed, counts
 * are filled columns, and a day that is named is dotted.
 */

export interface Panel {
  readonly title: string;
  /** In days, as the ledgers have them. */
  readonly from: number;
  readonly to: number;
  readonly points: readonly SparkPoint[];
  readonly course: readonly { readonly time: number; readonly value: number }[];
  /** One a day. */
  readonly columns: readonly { readonly day: number; readonly value: number }[];
  readonly limits: readonly number[];
  readonly marks: readonly { readonly time: number; readonly text: string }[];
}

export const noPanel: Omit<Panel, "title" | "from" | "to"> = {
  points: [],
  course: [],
  columns: [],
  limits: [],
  marks: [],
};

const width = 340;
const height = 128;
const left = 40;
const right = 8;
const top = 20;
const bottom = 18;
const ink = "#111";
const faint = "#767676";

/** The SVG text, two panels side by side; empty without panels. @param legend a line below them, folded where it is long */
export function panels(all: readonly Panel[], legend = ""): string {
  if (all.length === 0) return "";
  const across = Math.min(2, all.length);
  const below = folded(legend, across * lettersPerPanel);
  const charts = Math.ceil(all.length / across) * height;
  const [w, h] = [across * width, charts + below.length * lineHeight + (below.length > 0 ? 4 : 0)];
  const drawn = all.map(
    (each, at) =>
      `<g transform="translate(${(at % across) * width} ${Math.floor(at / across) * height})">${panel(each)}</g>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}" height="${h}" viewBox="0 0 ${w} ${h}" font-family="sans-serif" font-size="10" fill="none">`,
    `<rect width="${w}" height="${h}" fill="#fff"/>`,
    ...drawn,
    ...below.map((line, at) => word("4", charts + (at + 1) * lineHeight, line, "start", faint)),
    "</svg>",
  ].join("");
}

const word = (at: string, on: number, text: string, anchor: string, fill = ink): string =>
  `<text x="${at}" y="${on}" text-anchor="${anchor}" fill="${fill}">${escaped(text)}</text>`;

const lineHeight = 13;
/** So many letters of a legend fit below a panel. */
const lettersPerPanel = 66;

function folded(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const each of text.split(" ").filter((part) => part !== "")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + each.length <= letters)
      lines[lines.length - 1] = `${last} ${each}`;
    else lines.push(each);
  }
  return lines;
}

function panel({ title, from, to, points, course, columns, limits, marks }: Panel): string {
  const within = <T extends { readonly time: number }>(items: readonly T[]): T[] =>
    items.filter(({ time }) => time >= from && time <= to);
  const [seen, line] = [within(points), within(course)];
  const values = [
    ...seen.flatMap(({ low, high }) => (high === null ? [low] : [low, high])),
    ...line.map(({ value }) => value),
    ...limits,
    ...columns.flatMap(({ value }) => [0, value]),
  ];
  const ticks = ticksOf(values, columns.length > 0);
  const [least, most] = [ticks[0]!, ticks.at(-1)!];
  const x = (time: number): string =>
    place(left + ((time - from) / (to - from || 1)) * (width - left - right));
  const y = (value: number): string =>
    place(height - bottom - ((value - least) / (most - least || 1)) * (height - top - bottom));
  const base = height - bottom;
  const columnWidth = Math.max(1, (width - left - right) / (to - from) - 1);
  return [
    word("4", 11, title, "start"),
    ...ticks.map(
      (tick) =>
        `<path d="M${left} ${y(tick)}H${width - right}" stroke="#ddd"/>${word(String(left - 4), Number(y(tick)) + 3, formatNumber(tick), "end", faint)}`,
    ),
    ...dayTicks(from, to).map(
      ({ day, text, anchor }) =>
        `<path d="M${x(day)} ${base}v3" stroke="${faint}"/>${word(x(day), height - 4, text, anchor, faint)}`,
    ),
    `<path d="M${left} ${top}V${base}H${width - right}" stroke="${faint}"/>`,
    ...limits.map(
      (limit) => `<path d="M${left} ${y(limit)}H${width - right}" stroke="${ink}" stroke-dasharray="5 3"/>`,
    ),
    ...within(marks).map(
      ({ time, text }) =>
        `<path d="M${x(time)} ${top}V${base}" stroke="${ink}" stroke-dasharray="1 3"/>${word(place(Number(x(time)) - 3), top + 8, text, "end", faint)}`,
    ),
    ...columns
      .filter(({ day, value }) => day >= from && day < to && value > 0)
      .map(
        ({ day, value }) =>
          `<rect x="${x(day)}" y="${y(value)}" width="${place(columnWidth)}" height="${place(base - Number(y(value)))}" fill="${ink}"/>`,
      ),
    line.length === 0
      ? ""
      : `<path d="${line.map(({ time, value }, at) => `${at === 0 ? "M" : "L"}${x(time)} ${y(value)}`).join("")}" stroke="${faint}" stroke-width="1.2"/>`,
    ...seen.map(({ time, low, high }) =>
      high === low
        ? `<circle cx="${x(time)}" cy="${y(low)}" r="2" fill="${ink}"/>`
        : `<path d="M${x(time)} ${y(low)}V${high === null ? top : y(high)}" stroke="${ink}" stroke-width="2"/>`,
    ),
  ].join("");
}

/** Round figures that hold all values, three to six of them. */
export function ticksOf(values: readonly number[], areCounts: boolean): number[] {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  if (!Number.isFinite(least) || !Number.isFinite(most)) return [0, 1];
  // What never varies stands in the middle of a fifth of itself.
  const around = least === most ? Math.abs(most) / 10 || 0.5 : 0;
  const [low, high] = [least - around, most + around];
  const span = high - low;
  const power = 10 ** Math.floor(Math.log10(span / 3));
  const step = [1, 2, 5, 10].map((each) => each * power).find((each) => span / each <= 4)!;
  const fine = areCounts ? Math.max(1, Math.round(step)) : step;
  const first = Math.floor(low / fine + 1e-9);
  const last = Math.max(first + 1, Math.ceil(high / fine - 1e-9));
  return Array.from({ length: last - first + 1 }, (_, at) => Number(((first + at) * fine).toPrecision(12)));
}

const months = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/** The first, the last and some days between. */
function dayTicks(from: number, to: number): { day: number; text: string; anchor: string }[] {
  const count = 3;
  const last = to - 1;
  return Array.from({ length: count + 1 }, (_, at) => {
    const day = Math.round(from + ((last - from) * at) / count);
    const [, month, date] = isoOf(day).split("-");
    const anchor = at === 0 ? "start" : at === count ? "end" : "middle";
    return { day, text: `${Number(date)} ${months[Number(month) - 1]}`, anchor };
  });
}

const place = (value: number): string => String(Math.round(value * 10) / 10);

const escaped = (text: string): string =>
  text.replace(/\p{Cc}+/gu, " ").replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
