import { months, type Scale, scale, span, ticks, tickText } from "./scale.ts";

/**
 * What a chart shows, and where on the paper it comes to stand. Pure: from figures to shapes; `draw.ts` makes them visible.
 *
 * Our own SVG and no chart library, on purpose: a series here has tens of points, at most some hundreds, so that drawing all of it
 * anew costs a few milliseconds; a censored reading, an interval ahead and a limit's far side are shapes that no library has; and SVG
 * prints, scales to any zoom without blur, takes its colours from the theme by style sheet alone and needs no inline style, which a
 * strict content security policy forbids.
 */
export interface Plot {
  /** The stretch of time, in days; what lies outside is left out. */
  readonly from: number;
  readonly to: number;
  /** The end of the day that is today. */
  readonly now: number;
  /** Places side by side instead of time: what each is called; a `time` is then its number, from 0. */
  readonly names?: readonly string[];
  readonly readings: readonly PlottedReading[];
  readonly limit: { readonly low: number | null; readonly high: number | null } | null;
  /** The band to reach, of a remedy. */
  readonly target: { readonly low: number; readonly high: number } | null;
  readonly course: readonly { readonly time: number; readonly value: number }[];
  readonly ahead: readonly {
    readonly time: number;
    readonly best: number;
    readonly low: number;
    readonly high: number;
  }[];
  readonly changes: readonly {
    readonly time: number;
    readonly fraction: number;
    /** Whether it is still to come. */
    readonly isPlanned?: boolean;
  }[];
  readonly doses: readonly {
    readonly time: number;
    readonly after: number | null;
    readonly isPlanned?: boolean;
  }[];
  /** What is in sight whatever the figures are: the ends of a scale. */
  readonly within?: { readonly low: number; readonly high: number };
  /** Counts of whole days, as columns from zero up. */
  readonly columns?: readonly { readonly day: number; readonly value: number }[];
}

export interface PlottedReading {
  readonly time: number;
  /** Null: nobody can say how low. */
  readonly low: number | null;
  /** Null: nobody can say how high. */
  readonly high: number | null;
  readonly isOutside: boolean;
  /** Of places side by side its own limit. */
  readonly limit?: NonNullable<Plot["limit"]>;
}

/** A line or an area, or a word; `look` is its class in the style sheet. */
export type Shape =
  | { readonly look: string; readonly d: string }
  | { readonly look: string; readonly text: string; readonly x: number; readonly y: number };

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly x: Scale;
  readonly y: Scale;
  readonly shapes: readonly Shape[];
}

/** Room for the figures at the left and a little air around, in px. */
export const margin = { left: 38, right: 8, top: 7, bottom: 7 } as const;

export function layOut(plot: Plot, width: number, height: number): Layout {
  const shown = cut(plot);
  const x = scale(plot.from, plot.to, margin.left, width - margin.right);
  const [low, high] = heightOf(shown);
  const y = scale(low, high, height - margin.bottom, margin.top);
  const paper: Paper = { x, y, low, high, left: margin.left, right: width - margin.right };
  const shapes = [
    ...limitShapes(shown, paper),
    ...targetShapes(shown, paper),
    ...tickShapes(shown, paper, height),
    ...monthShapes(plot, paper),
    ...changeShapes(shown, paper),
    ...nowShapes(shown, paper),
    ...columnShapes(shown, paper),
    ...joinedShapes(shown, paper),
    ...aheadShapes(shown, paper),
    ...courseShapes(shown, paper),
    ...shown.doses.flatMap((dose) => doseShapes(dose, paper)),
    ...shown.readings.flatMap((reading) => readingShapes(reading, paper)),
  ];
  return { width, height, x, y, shapes };
}

interface Paper {
  readonly x: Scale;
  readonly y: Scale;
  /** Figures at the lower and upper edge. */
  readonly low: number;
  readonly high: number;
  readonly left: number;
  readonly right: number;
}

/** Only what lies in the stretch of time; a course goes on to the edges. */
function cut(plot: Plot): Plot {
  const isIn = ({ time }: { readonly time: number }): boolean => time >= plot.from && time <= plot.to;
  const before = plot.course.findLastIndex((point) => point.time < plot.from);
  const entry = plot.course[before];
  const next = plot.course[before + 1];
  const atEdge =
    entry === undefined || next === undefined
      ? []
      : [{ time: plot.from, value: between(entry, next, plot.from) }];
  return {
    ...plot,
    readings: plot.readings.filter(isIn),
    course: [...atEdge, ...plot.course.filter(isIn)],
    ahead: [...plot.ahead.filter(isIn), ...aheadEdge(plot)],
    changes: plot.changes.filter(isIn),
    ...(plot.columns === undefined
      ? {}
      : { columns: plot.columns.filter(({ day }) => day >= plot.from && day < plot.to) }),
    doses: plot.doses.filter(isIn),
  };
}

/** The course ahead where it leaves the stretch. */
function aheadEdge({ ahead, to }: Plot): Plot["ahead"][number][] {
  const at = ahead.findIndex(({ time }) => time > to);
  const [last, next] = [ahead[at - 1], ahead[at]];
  if (last === undefined || next === undefined) return [];
  const edge = (of: "best" | "low" | "high"): number =>
    between({ time: last.time, value: last[of] }, { time: next.time, value: next[of] }, to);
  return [{ time: to, best: edge("best"), low: edge("low"), high: edge("high") }];
}

type Point = Plot["course"][number];

function between(a: Point, b: Point, time: number): number {
  return a.value + ((b.value - a.value) * (time - a.time)) / (b.time - a.time || 1);
}

function figuresOf({ readings, course, ahead, doses, columns, within }: Plot): number[] {
  return [
    ...(within === undefined ? [] : [within.low, within.high]),
    ...readings.flatMap(({ low, high }) => [low, high].filter((end) => end !== null)),
    ...course.map(({ value }) => value),
    ...ahead.flatMap(({ low, high }) => [low, high]),
    ...doses.flatMap(({ after }) => (after === null ? [] : [after])),
    ...(columns === undefined ? [] : [0, 1, ...columns.map(({ value }) => value)]),
  ];
}

function boundsOf({ limit, target }: Plot): number[] {
  return finite([limit?.low, limit?.high, target?.low, target?.high]);
}

const finite = (values: readonly (number | null | undefined)[]): number[] =>
  values.filter((each): each is number => typeof each === "number");

/** Bounds are always in sight: how far the figures are from them is what a chart is looked at for. */
const heightOf = (plot: Plot): readonly [number, number] =>
  span([
    ...figuresOf(plot),
    ...boundsOf(plot),
    ...finite(plot.readings.flatMap(({ limit }) => [limit?.low, limit?.high])),
  ]);

function limitShapes({ limit }: Plot, paper: Paper): Shape[] {
  if (limit === null) return [];
  const { low, high } = paper;
  return [
    ...(limit.high !== null && limit.high < high ? [beyond(limit.high, high, paper)] : []),
    ...(limit.low !== null && limit.low > low ? [beyond(limit.low, low, paper)] : []),
    ...[limit.low, limit.high].flatMap((bound) => (bound === null ? [] : rule("limit", bound, paper))),
  ];
}

function targetShapes({ target }: Plot, paper: Paper): Shape[] {
  if (target === null) return [];
  const { y, left, right } = paper;
  return [
    { look: "target", d: box(left, y(target.high), right, y(target.low)) },
    ...[target.low, target.high].flatMap((bound) => rule("target-edge", bound, paper)),
  ];
}

/** The far side of a limit, with slanted lines so that it shows without colour too. */
function beyond(bound: number, edge: number, { y, left, right }: Paper): Shape {
  const top = Math.min(y(bound), y(edge));
  const bottom = Math.max(y(bound), y(edge));
  const gap = 7;
  const tall = bottom - top;
  let d = "";
  for (let at = left - tall; at < right; at += gap) {
    // From the lower edge at `at` up to the right, cut at the sides.
    const startX = Math.max(at, left);
    const endX = Math.min(at + tall, right);
    if (endX > startX)
      d += `M${px(startX)} ${px(bottom - (startX - at))}L${px(endX)} ${px(bottom - (endX - at))}`;
  }
  return { look: "beyond", d };
}

function rule(look: string, bound: number, { y, left, right }: Paper): Shape[] {
  return [{ look, d: `M${left} ${px(y(bound))}H${px(right)}` }];
}

/** Figures at the left: those of the bounds, and round ones that keep clear of them. */
function tickShapes(plot: Plot, { y, low, high, left, right }: Paper, height: number): Shape[] {
  const clear = 13;
  const bounds = [...new Set(boundsOf(plot))];
  let round: number[] = [];
  for (let count = Math.max(2, height / 32); round.length < 2 && count < 20; count++)
    round = ticks(low, high, count);
  // Half an animal is none.
  if (plot.columns !== undefined) round = round.filter(Number.isInteger);
  const step = round.length > 1 ? round[1]! - round[0]! : high - low;
  const free = round.filter((tick) => bounds.every((bound) => Math.abs(y(bound) - y(tick)) >= clear));
  const word = (look: string, value: number, text: string): Shape => ({
    look,
    text,
    x: left - 5,
    y: y(value),
  });
  return [
    ...free.map((tick): Shape => ({ look: "tick", d: `M${left} ${px(y(tick))}H${px(right)}` })),
    ...free.map((tick) => word("tick-text", tick, tickText(tick, step))),
    ...bounds.map((bound) => word("bound-text", bound, String(Number(bound.toPrecision(4))))),
  ];
}

function changeShapes({ changes }: Plot, { x, y, low }: Paper): Shape[] {
  if (changes.length === 0) return [];
  const foot = y(low);
  // Its height says how much: a whole change would be 20 px.
  const strokes = (isWanted: boolean): string =>
    changes
      .filter(({ fraction, isPlanned = false }) => fraction > 0 && isPlanned === isWanted)
      .map(({ time, fraction }) => `M${px(x(time))} ${px(foot)}v${px(-Math.max(2, 20 * fraction))}`)
      .join("");
  const planned = strokes(true);
  return [
    { look: "change", d: strokes(false) },
    ...(planned === "" ? [] : [{ look: "change planned", d: planned }]),
  ];
}

/** The first of each month, over many years of some, to find a day by. */
function monthShapes({ from, to, names }: Plot, { x, y, low, high }: Paper): Shape[] {
  const firsts = names === undefined ? months(from, to, 40) : [];
  const d = firsts.map((day) => `M${px(x(day))} ${px(y(low))}V${px(y(high))}`).join("");
  return d === "" ? [] : [{ look: "month", d }];
}

/** From reading to reading, up to where a course begins. */
function joinedShapes({ readings, course, names }: Plot, { x, y }: Paper): Shape[] {
  if (names !== undefined) return [];
  const until = course[0]?.time ?? Number.POSITIVE_INFINITY;
  const points = readings
    .filter(({ time }) => time <= until)
    .map(({ time, low, high }): Pixel => [x(time), y(((low ?? high ?? 0) + (high ?? low ?? 0)) / 2)]);
  return points.length < 2 ? [] : [{ look: "joined", d: path(points) }];
}

function nowShapes({ now, to, names }: Plot, { x, y, low, high }: Paper): Shape[] {
  return now > to || names !== undefined
    ? []
    : [{ look: "now", d: `M${px(x(now))} ${px(y(low))}V${px(y(high))}` }];
}

/** Each as wide as its day, with a gap between two. */
function columnShapes({ columns = [] }: Plot, { x, y }: Paper): Shape[] {
  const foot = y(0);
  return columns
    .filter(({ value }) => value > 0)
    .map(({ day, value }): Shape => {
      const [left, right] = [x(day), x(day + 1)];
      const gap = Math.min(2, (right - left) / 5);
      return { look: "column", d: box(left + gap, y(value), right - gap, foot) };
    });
}

function courseShapes({ course }: Plot, { x, y }: Paper): Shape[] {
  return course.length < 2
    ? []
    : [{ look: "course", d: path(course.map(({ time, value }) => [x(time), y(value)])) }];
}

function aheadShapes({ ahead }: Plot, paper: Paper): Shape[] {
  if (ahead.length < 2) return [];
  const { x, y } = paper;
  const upper = ahead.map(({ time, high }): Pixel => [x(time), y(high)]);
  const lower = ahead.map(({ time, low }): Pixel => [x(time), y(low)]);
  return [
    { look: "ahead-span", d: `${path([...upper, ...lower.reverse()])}Z` },
    { look: "ahead", d: path(ahead.map(({ time, best }) => [x(time), y(best)])) },
  ];
}

/** A plain reading is a dot, and a diamond where it lies outside its limit. What is not known exactly is all that it may be. */
function readingShapes(reading: PlottedReading, paper: Paper): Shape[] {
  const { x, y, low: bottom, high: top } = paper;
  const { time, low, high, isOutside } = reading;
  const at = x(time);
  const look = isOutside ? "reading outside" : "reading";
  const own = ownLimitShapes(reading, paper);
  if (high !== null && high === low)
    return [...own, { look, d: isOutside ? diamond(at, y(low), 5) : dot(at, y(low), 3) }];
  const upper = high === null ? y(top) : y(high);
  const lower = low === null ? y(bottom) : y(low);
  const foot =
    low === null
      ? `M${px(at - 3)} ${px(lower - 4)}L${px(at)} ${px(lower)}L${px(at + 3)} ${px(lower - 4)}`
      : low > 0 || high === null
        ? cap(at, lower)
        : "";
  const head =
    high === null
      ? `M${px(at - 3)} ${px(upper + 4)}L${px(at)} ${px(upper)}L${px(at + 3)} ${px(upper + 4)}`
      : cap(at, upper);
  return [
    ...own,
    { look: `${look} may-be`, d: box(at - 2.5, upper, at + 2.5, lower) },
    { look: `${look} end`, d: head + foot },
  ];
}

/** The limit of one place among others, as wide as the place. */
function ownLimitShapes({ time, limit }: PlottedReading, { x, y }: Paper): Shape[] {
  const strokes = finite([limit?.low, limit?.high]).map(
    (bound) => `M${px(x(time - 0.4))} ${px(y(bound))}H${px(x(time + 0.4))}`,
  );
  return strokes.length === 0 ? [] : [{ look: "limit own", d: strokes.join("") }];
}

function doseShapes({ time, after, isPlanned }: Plot["doses"][number], { x, y, low }: Paper): Shape[] {
  const at = x(time);
  const tip = after === null ? y(low) - 8 : y(after);
  const look = after === null ? "dose unknown" : isPlanned === true ? "dose planned" : "dose";
  return [{ look, d: `M${px(at)} ${px(tip)}l-4 -7h8Z` }];
}

type Pixel = readonly [x: number, y: number];

function path(points: readonly Pixel[]): string {
  return points.map(([x, y], at) => `${at === 0 ? "M" : "L"}${px(x)} ${px(y)}`).join("");
}

const box = (left: number, top: number, right: number, bottom: number): string =>
  `M${px(left)} ${px(top)}H${px(right)}V${px(bottom)}H${px(left)}Z`;
const cap = (x: number, y: number): string => `M${px(x - 4)} ${px(y)}h8`;
const dot = (x: number, y: number, r: number): string =>
  `M${px(x - r)} ${px(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
const diamond = (x: number, y: number, r: number): string =>
  `M${px(x)} ${px(y - r)}l${r} ${r}l${-r} ${r}l${-r} ${-r}Z`;

/** Tenths of a pixel are enough. */
const px = (value: number): number => Math.round(value * 10) / 10;
