/** A small picture of readings in time: for a hover, where there is no script and no style sheet. */

export interface SparkPoint {
  readonly time: number;
  readonly low: number;
  /** Equal to `low` for a plain reading; null for one that says only that it is above. */
  readonly high: number | null;
}

export interface Spark {
  readonly points: readonly SparkPoint[];
  /** The course that was computed between the readings. */
  readonly course: readonly { readonly time: number; readonly value: number }[];
  readonly limitLow: number | null;
  readonly limitHigh: number | null;
}

const sparkWidth = 260;
const sparkHeight = 64;
const margin = 6;

/**
 * Mid tones that stand out by at least 3 to 1 (WCAG 2.2, 1.4.11) from a white and from a near-black ground: the picture does not know
 * the theme. Limits are dashed and readings are dots, so that nothing is told by colour alone.
 */
const tones = { reading: "#3a87c8", course: "#7d7d7d", limit: "#cf4f4f" } as const;

/** The SVG text; empty if there is nothing to draw. */
export function spark({ points, course, limitLow, limitHigh }: Spark): string {
  if (points.length === 0) return "";
  const times = [...points, ...course].map(({ time }) => time);
  const [first, last] = [Math.min(...times), Math.max(...times)];
  const bounds = [limitLow, limitHigh].filter((bound) => bound !== null);
  const values = [
    ...points.flatMap(({ low, high }) => (high === null ? [low] : [low, high])),
    ...course.map(({ value }) => value),
    ...bounds,
  ];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const x = (time: number): string =>
    coordinate(margin + ((time - first) / (last - first || 1)) * (sparkWidth - 2 * margin));
  const y = (value: number): string =>
    coordinate(sparkHeight - margin - ((value - least) / (most - least || 1)) * (sparkHeight - 2 * margin));
  const lines = bounds.map(
    (bound) =>
      `<path d="M${margin} ${y(bound)}H${sparkWidth - margin}" stroke="${tones.limit}" stroke-dasharray="4 3"/>`,
  );
  const path = course.map(({ time, value }, at) => `${at === 0 ? "M" : "L"}${x(time)} ${y(value)}`).join("");
  const marks = points.map(({ time, low, high }) => {
    if (high !== low) {
      // What the reading leaves open, from end to end.
      const top = high === null ? coordinate(margin) : y(high);
      return `<path d="M${x(time)} ${y(low)}V${top}" stroke="${tones.reading}" stroke-width="2"/>`;
    }
    return `<circle cx="${x(time)}" cy="${y(low)}" r="2.2" fill="${tones.reading}"/>`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${sparkWidth}" height="${sparkHeight}" viewBox="0 0 ${sparkWidth} ${sparkHeight}" fill="none">`,
    ...lines,
    path === "" ? "" : `<path d="${path}" stroke="${tones.course}"/>`,
    ...marks,
    "</svg>",
  ].join("");
}

const coordinate = (value: number): string => String(Math.round(value * 10) / 10);
