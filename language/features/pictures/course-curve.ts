import { spokenDay } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { CourseCard } from "../course-cards.ts";
import { ticksOf } from "./panels.ts";

/**
 * The curve of a course for paper: what was in the water as a line, what is planned dashed, the target as a grey band, the ceiling as a
 * dashed line with its word, doses as triangles (those to come hollow), changes as strokes at the foot, as tall as they are large. Dark on
 * white whatever the theme; nothing is told by colour alone.
 */

const width = 640;
const height = 198;
const left = 48;
const right = 12;
const top = 30;
const bottom = 22;
const ink = "#111";
const faint = "#6b6b6b";
const band = "#e4e4e4";

/** The SVG text; empty where no level is known. */
export function courseCurve(card: CourseCard): string {
  const { course, ahead, target, ceiling, doses, changes, unit, day } = { ...card, day: dayOfCard(card) };
  const points = [...course, ...ahead];
  if (points.length < 2) return "";
  const from = Math.floor(points[0]!.time);
  const to = Math.max(from + 1, Math.ceil(points.at(-1)!.time - 1e-6));
  const bounds = [target?.low, target?.high, ceiling].filter((bound) => typeof bound === "number");
  const ticks = ticksOf([0, ...points.map(({ value }) => value), ...bounds], false);
  const most = ticks.at(-1)!;
  const [base, end] = [height - bottom, width - right];
  const x = (time: number): number => left + ((time - from) / (to - from)) * (end - left);
  const y = (value: number): number => base - (value / most) * (base - top);
  const stroke = (d: string, more: string): string => `<path d="${d}" ${more}/>`;
  const word = (at: number, on: number, text: string, anchor: string, fill = faint): string =>
    `<text x="${px(at)}" y="${px(on)}" text-anchor="${anchor}" fill="${fill}">${escaped(text)}</text>`;
  const path = (line: CourseCard["course"]): string =>
    line.map(({ time, value }, at) => `${at === 0 ? "M" : "L"}${px(x(time))} ${px(y(value))}`).join("");
  const triangle = (time: number, value: number): string => `M${px(x(time))} ${px(y(value))}l-4 -8h8Z`;
  const days = dayTicks(from, to);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="10" fill="none">`,
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    word(4, 12, `${card.remedy} in ${card.water}, ${unit}`, "start", ink),
    target === null
      ? ""
      : `<rect x="${left}" y="${px(y(target.high) - (target.low === target.high ? 1.5 : 0))}" width="${end - left}" height="${px(Math.max(3, y(target.low) - y(target.high)))}" fill="${band}"/>`,
    ...ticks.map(
      (tick) =>
        stroke(`M${left} ${px(y(tick))}H${end}`, `stroke="#ddd"`) +
        word(left - 5, y(tick) + 3, formatNumber(tick), "end"),
    ),
    ...days.map(
      ({ at, anchor }) =>
        stroke(`M${px(x(at))} ${base}v4`, `stroke="${faint}"`) +
        word(x(at), height - 6, spokenDay(at, to), anchor),
    ),
    stroke(`M${left} ${top}V${base}H${end}`, `stroke="${faint}"`),
    target === null ? "" : word(end - 2, y(target.high) - 3, `target ${target.text}`, "end"),
    ceiling === null
      ? ""
      : stroke(`M${left} ${px(y(ceiling))}H${end}`, `stroke="${ink}" stroke-dasharray="7 4"`) +
        word(end - 2, y(ceiling) - 3, `ceiling ${card.ceilingText}`, "end", ink),
    ...changes.map(({ time, fraction, isPlanned }) =>
      stroke(
        `M${px(x(time))} ${base}v${px(-Math.max(3, 26 * fraction))}`,
        `stroke="${faint}" stroke-width="3"${isPlanned ? ' stroke-dasharray="2 2"' : ""}`,
      ),
    ),
    day === undefined
      ? ""
      : stroke(`M${px(x(day))} ${top}V${base}`, `stroke="${faint}" stroke-dasharray="1 3"`),
    stroke(path(course), `stroke="${ink}" stroke-width="1.6"`),
    ahead.length < 2 ? "" : stroke(path(ahead), `stroke="${ink}" stroke-width="1.4" stroke-dasharray="4 3"`),
    ...doses.flatMap(({ time, after, isPlanned }) =>
      after === null || time > to
        ? []
        : [stroke(triangle(time, after), isPlanned ? `stroke="${ink}" fill="#fff"` : `fill="${ink}"`)],
    ),
    "</svg>",
  ].join("");
}

/** What the picture shows, for who does not see it. */
export function courseCurveWords(card: CourseCard): string {
  const { remedy, water, target, ceilingText, doses, figures, ahead } = card;
  const given = doses.filter(({ isPlanned }) => !isPlanned).length;
  const planned = doses.length - given;
  return [
    `${remedy} in ${water}: ${given} ${given === 1 ? "dose" : "doses"} given${planned > 0 ? `, ${planned} to come, dashed` : ahead.length > 1 ? ", what is ahead dashed" : ""}`,
    target === null ? "" : `target ${target.text}`,
    ceilingText === "" ? "" : `ceiling ${ceilingText}`,
    figures.highestText === "" ? "" : `highest ${figures.highestText}`,
    figures.aboveText,
  ]
    .filter((part) => part !== "")
    .join("; ");
}

/** Where what is ahead begins. */
const dayOfCard = ({ ahead }: CourseCard): number | undefined => ahead[0]?.time;

/** The first, the last, and some days between, each named once. */
function dayTicks(from: number, to: number): { readonly at: number; readonly anchor: string }[] {
  const count = Math.min(5, to - from);
  const days = new Set(
    Array.from({ length: count + 1 }, (_, at) => Math.round(from + ((to - from) * at) / count)),
  );
  return [...days].map((at) => ({ at, anchor: at === from ? "start" : at === to ? "end" : "middle" }));
}

const px = (value: number): number => Math.round(value * 10) / 10;

const escaped = (text: string): string =>
  text.replace(/\p{Cc}+/gu, " ").replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
