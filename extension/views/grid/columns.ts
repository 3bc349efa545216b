import type { Face, GridColumn, Layout } from "./messages.ts";

/** How wide columns are, which are shown, and what they are called. */

const widths: Readonly<Record<string, number>> = {
  date: 96,
  time: 64,
  tank: 104,
  what: 96,
  values: 300,
  note: 280,
  comment: 240,
  name: 120,
  title: 200,
  members: 220,
};
export const leastWidth = 40;
export const mostWidth = 900;
/** The numbers of the rows. */
export const gutterWidth = 58;

export function widthOf({ id, title, unit, isFigure, isComputed }: GridColumn, layout: Layout): number {
  const chosen = layout.widths[id];
  if (chosen !== undefined) return Math.max(leastWidth, Math.min(mostWidth, chosen));
  // What is reckoned stands with its unit, or as a date.
  const own = widths[id] ?? (isFigure && !isComputed ? 84 : 150);
  return Math.max(own, Math.min(240, 34 + 7 * (title.length + (unit === "" ? 0 : unit.length + 1))));
}

/** By what a layout is kept: faces with the same columns share one. */
export function layoutKey(face: Face): string {
  switch (face.is) {
    case "entries":
      return face.kind === undefined ? "entries" : `entries ${face.kind}`;
    case "rounds":
      return `rounds ${face.of}`;
    case "definitions":
      return `definitions ${face.of}`;
  }
}

export const noLayout: Layout = { columns: null, widths: {}, frozen: 0 };

export const isSameFace = (a: Face, b: Face): boolean => JSON.stringify(a) === JSON.stringify(b);
