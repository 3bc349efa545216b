import { dayOf } from "../book/dates.ts";
import type { Span } from "./view.ts";

/** Dates that are written in prose, `see 2026-03-01`, and lead to their day. */

export interface DateInText extends Span {
  readonly iso: string;
}

const dates = /(?<![\d-])\d{4}-\d{2}-\d{2}(?![\d-])/g;

/** The dates in a text that are days of the calendar. */
export function datesIn(text: string, from = 0): DateInText[] {
  return [...text.matchAll(dates)]
    .filter(([iso]) => !Number.isNaN(dayOf(iso)))
    .map((match) => ({ iso: match[0], start: from + match.index, end: from + match.index + 10 }));
}

/** The date at an offset of a text. */
export function dateAt(text: string, offset: number): DateInText | undefined {
  const from = Math.max(0, offset - 11);
  return datesIn(text.slice(from, offset + 11), from).find(
    (date) => offset >= date.start && offset <= date.end,
  );
}
