import { Kind } from "../book/entries/registry.ts";
import { Col, type Facts, intsPerRow, isFurther, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { type Block, idOfRow } from "../book/source.ts";
import { firstFrom, sortDay } from "./days.ts";
import { keptPerBlock } from "./kept-per-block.ts";
import type { Logbook } from "./logbook.ts";
import { rowWatch } from "./row-watch.ts";

/**
 * Entries about food and what is on hand, over any days. Which rows of a block they are is kept until the block is edited, so that a look
 * at some weeks costs those weeks.
 */

const kinds: ReadonlySet<number> = new Set([
  Kind.feed,
  Kind.start,
  Kind.harvest,
  Kind.buy,
  Kind.left,
  Kind.dose,
  Kind.clean,
]);

export interface SupplyRow {
  readonly day: number;
  /** In days; of an entry without a time of day the time it counts at. */
  readonly time: number;
  readonly block: Block;
  readonly facts: Facts;
  /** Its place in the facts, and the number by which it is referred to. */
  readonly row: number;
  readonly id: number;
  readonly kind: number;
  /** The name of the target; of a group its complement. */
  readonly target: number;
  readonly subject: number;
  /** The place of the first row of its entry: the items of a list share it. */
  readonly entry: number;
}

/**
 * Rows of some kinds from the beginning of a day to the end of another, in order of time.
 * @param onlySubject the number of a name: rows about nothing else
 */
export function supplyRows(
  logbook: Logbook,
  wanted: ReadonlySet<number>,
  fromDay: number,
  untilDay: number,
  onlySubject?: number,
): SupplyRow[] {
  const { dayGroups } = logbook;
  const found: SupplyRow[] = [];
  for (let at = firstFrom(dayGroups, fromDay); at < dayGroups.length; at++) {
    const group = dayGroups[at]!;
    if (group.day > untilDay) break;
    const from = found.length;
    for (const block of group.blocks)
      for (const place of placesIn(block)) {
        const { row } = place;
        const kind = kindOfRow(block.facts, row);
        const subject = block.facts.ints[row * intsPerRow + Col.subject]!;
        if (!wanted.has(kind) || (onlySubject !== undefined && subject !== onlySubject)) continue;
        found.push(rowAt(block, place));
      }
    sortDay(found, from, group);
  }
  return found;
}

/** A number that stays the same while these rows are what they were. */
export const suppliesSeen = rowWatch((facts, row) => kinds.has(kindOfRow(facts, row)));

/** A row as it stands in the order of time: one above another of the same time is before it. */
export type RowMoment = Pick<SupplyRow, "time" | "block" | "row">;

/** Whether a row stands at an earlier time, or above in the same block. */
export function isBefore(a: RowMoment, b: RowMoment): boolean {
  return a.time < b.time || (a.time === b.time && (a.block !== b.block || a.row < b.row));
}

/** All of them in a block, as they are written. */
export const supplyRowsIn = (block: Block): SupplyRow[] =>
  placesIn(block).map((place) => rowAt(block, place));

function rowAt(block: Block, { row, entry }: RowPlace): SupplyRow {
  const { facts, day } = block;
  return {
    day,
    time: day + minuteOfRow(facts, row) / 1440,
    block,
    facts,
    row,
    id: idOfRow(block, row),
    kind: kindOfRow(facts, row),
    target: facts.ints[row * intsPerRow + Col.target]!,
    subject: facts.ints[row * intsPerRow + Col.subject]!,
    entry,
  };
}

interface RowPlace {
  readonly row: number;
  readonly entry: number;
}

const placesIn = keptPerBlock((facts): readonly RowPlace[] => {
  const places: RowPlace[] = [];
  let entry = 0;
  for (let row = 0; row < facts.count; row++) {
    if (!isFurther(facts, row)) entry = row;
    if (kinds.has(kindOfRow(facts, row))) places.push({ row, entry });
  }
  return places;
});
