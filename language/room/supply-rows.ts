import { Kind } from "../book/entries/registry.ts";
import { Col, type Facts, intsPerRow, isFurther, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { type Block, idOfRow } from "../book/source.ts";
import type { Logbook } from "./logbook.ts";

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
    const { day, blocks, order } = dayGroups[at]!;
    if (day > untilDay) break;
    const from = found.length;
    for (const block of blocks)
      for (const place of placesIn(block)) {
        const { row } = place;
        const kind = kindOfRow(block.facts, row);
        const subject = block.facts.ints[row * intsPerRow + Col.subject]!;
        if (!wanted.has(kind) || (onlySubject !== undefined && subject !== onlySubject)) continue;
        found.push(rowAt(block, place));
      }
    // The order in which they are written is that of time, unless the day says otherwise; the sort keeps what is equal in place.
    if (order !== undefined && found.length > from + 1)
      found.push(...found.splice(from).sort((a, b) => a.time - b.time));
  }
  return found;
}

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

const kept = new WeakMap<Block, { readonly facts: Facts; readonly places: readonly RowPlace[] }>();

function placesIn(block: Block): readonly RowPlace[] {
  const { facts } = block;
  const known = kept.get(block);
  if (known?.facts === facts) return known.places;
  const places: RowPlace[] = [];
  let entry = 0;
  for (let row = 0; row < facts.count; row++) {
    if (!isFurther(facts, row)) entry = row;
    if (kinds.has(kindOfRow(facts, row))) places.push({ row, entry });
  }
  kept.set(block, { facts, places });
  return places;
}

/** The index of the first group on or after a day. */
export function firstFrom(groups: Logbook["dayGroups"], day: number): number {
  let low = 0;
  let high = groups.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (groups[middle]!.day < day) low = middle + 1;
    else high = middle;
  }
  return low;
}
