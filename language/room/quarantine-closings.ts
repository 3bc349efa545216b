import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, minuteOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { type Block, rowOfId } from "../book/source.ts";
import { casesUntil } from "./cases.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Moment } from "./observer.ts";
import { settledTime } from "./water.ts";

/** When signs of disease are over because their case is closed, in whatever tank that is written. */

export interface Closing {
  /** The end of the case that a row of `health` belongs to; Infinity while it is open, NaN for a row without a case. */
  readonly time: number;
  readonly at: Moment | undefined;
}

/** When the case of each entry of the sick is closed, by its place in `health`. */
export function closingsOf(logbook: Logbook, { health }: Ledger): Closing[] {
  if (health.length === 0) return [];
  const closes = closesOf(logbook);
  return Array.from({ length: health.length }, (_, index): Closing => {
    const block = health.block[index]!;
    const id = health.row[index]!;
    const name = caseOfRow(block, id);
    if (health.tag[index] !== Kind.sick || name === "") return { time: Number.NaN, at: undefined };
    const close = closes.get(block)?.get(id);
    return close === undefined
      ? { time: Number.POSITIVE_INFINITY, at: undefined }
      : // What is written after it in the same minute does not come before it.
        { time: Math.max(close.time, settledTime(health, index) + afterDays), at: close };
  });
}

/** Less than from a row to the next, as `settledTime` has it. */
const afterDays = 1e-9;

/** The entry that closes the case of each row of the sick, by block and row. */
function closesOf(logbook: Logbook): ReadonlyMap<Block, ReadonlyMap<number, Moment>> {
  return keptFor(logbook, "closes of the sick", () => {
    const closes = new Map<Block, Map<number, Moment>>();
    for (const each of casesUntil(logbook, Number.POSITIVE_INFINITY)) {
      const last = each.entries.at(-1);
      if (Number.isNaN(each.closed) || last?.kind !== Kind.close) continue;
      const row = rowOfId(last.block, last.row);
      const time = last.day + (row < 0 ? 0 : minuteOfRow(last.block.facts, row) / 1440);
      const close = { time, block: last.block, row: last.row };
      for (const entry of each.entries) {
        const rows = closes.get(entry.block) ?? new Map<number, Moment>();
        closes.set(entry.block, rows.set(entry.row, close));
      }
    }
    return closes;
  });
}

/** The case or the remedy that a row names; empty where it names none. */
export function caseOfRow(block: Block, id: number): string {
  const row = rowOfId(block, id);
  return row < 0 ? "" : wordOf(block.facts.ints[row * intsPerRow + Col.object]!);
}
