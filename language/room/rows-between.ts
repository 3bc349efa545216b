import { type Facts, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { idOfRow } from "../book/source.ts";
import { eachRow, firstFrom } from "./days.ts";
import type { Logbook } from "./logbook.ts";
import type { LogRow } from "./rare-rows.ts";

/** All rows of some kinds from the beginning of a day to the end of another, in order of time: looks at each row of these days. */
export function rowsBetween(
  { dayGroups }: Logbook,
  fromDay: number,
  untilDay: number,
  kinds: ReadonlySet<number>,
): LogRow[] {
  const found: LogRow[] = [];
  for (let at = firstFrom(dayGroups, fromDay); at < dayGroups.length; at++) {
    const group = dayGroups[at]!;
    if (group.day > untilDay) break;
    const { day } = group;
    eachRow(group, (block, facts: Facts, row) => {
      const kind = kindOfRow(facts, row);
      if (!kinds.has(kind)) return;
      const time = day + minuteOfRow(facts, row) / 1440;
      found.push({ day, time, block, facts, row, id: idOfRow(block, row), kind });
    });
  }
  return found;
}
