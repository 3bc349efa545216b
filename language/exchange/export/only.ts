import { dayOf } from "../../book/dates.ts";
import type { LogItem } from "./log-items.ts";

/** What of a log is asked for. Days are whole numbers (`book/dates.ts`). */
export interface Only {
  readonly fromDay: number;
  readonly untilDay: number;
  /** A tank, or a target as written; undefined for all. */
  readonly at: string | undefined;
}

/** The items that are asked for: definitions all, of the days those between, of their entries those of the tank. */
export function* only(items: Iterable<LogItem>, { fromDay, untilDay, at }: Only): Generator<LogItem> {
  let isIn = true;
  for (const item of items) {
    if (item.is === "file" || item.is === "definition") isIn = true;
    if (item.is === "day") {
      const day = dayOf(item.date);
      isIn = !(day < fromDay || day > untilDay);
    }
    if (!isIn) continue;
    const isTold = item.is === "entry" || item.is === "row";
    if (isTold && at !== undefined && item.at !== at && !item.tanks.includes(at)) continue;
    yield item;
  }
}
