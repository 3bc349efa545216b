import { dayOf, isoOf } from "../../book/dates.ts";
import type { Period } from "../../room/stock-book.ts";

/** Weeks and months of the calendar, in whole days. */

/** Day 0 is a Thursday. */
const daysSinceMonday = (day: number): number => (((day + 3) % 7) + 7) % 7;

/** The last week from Monday to Sunday that ended before a day (ISO 8601). */
export function lastWeek(day: number): Period {
  const monday = day - daysSinceMonday(day);
  return { from: monday - 7, to: monday - 1 };
}

const firstOfMonth = (day: number): number => dayOf(`${isoOf(day).slice(0, -2)}01`);

/** The last month of the calendar that ended before a day. */
export function lastMonth(day: number): Period {
  const to = firstOfMonth(day) - 1;
  return { from: firstOfMonth(to), to };
}

/** A month that ends on a day: from the day after the same date of the month before, or its last where it is shorter. */
export function monthUpTo(to: number): Period {
  const isWhole = isoOf(to + 1).endsWith("-01");
  if (isWhole) return { from: firstOfMonth(to), to };
  const before = firstOfMonth(to) - 1;
  const date = Number(isoOf(to).slice(-2));
  const shorter = Number(isoOf(before).slice(-2));
  return { from: firstOfMonth(before) + Math.min(date, shorter), to };
}
