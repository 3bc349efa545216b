import { Kind } from "../book/entries/registry.ts";
import { type Facts, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { type Block, idOfRow } from "../book/source.ts";
import { sortDay } from "./days.ts";
import { keptFor } from "./kept-for-logbook.ts";
import { keptPerBlock } from "./kept-per-block.ts";
import type { Logbook } from "./logbook.ts";

/**
 * Entries of which a log has few: what comes and goes, and what is sick. They are found without walking the log: which rows of a block
 * they are is kept until the block is edited, so that a look at ten years is a look at its days.
 */
const rareKinds: ReadonlySet<number> = new Set([
  Kind.arrive,
  Kind.lose,
  Kind.sell,
  Kind.ship,
  Kind.doa,
  Kind.sick,
  Kind.sample,
  Kind.result,
  Kind.close,
]);

/** A row of the log with its day. */
export interface LogRow {
  readonly day: number;
  /** In days, as the ledgers have it. */
  readonly time: number;
  readonly block: Block;
  readonly facts: Facts;
  /** Its place in the facts, and the number by which it is referred to. */
  readonly row: number;
  readonly id: number;
  readonly kind: number;
}

const findRare = rowFinder((facts, row) => rareKinds.has(kindOfRow(facts, row)));

/** Rows of some of the rare kinds up to the end of a day, in order of time. Throws a RangeError for a kind that is not rare. */
export function rareRows(logbook: Logbook, kinds: ReadonlySet<number>, until: number): LogRow[] {
  for (const kind of kinds)
    if (!rareKinds.has(kind)) throw new RangeError(`kind ${kind} is not one of the rare`);
  // Looked for once, whatever is asked of them; what names no station makes no ledger anew, and is nobody's entry.
  const all = keptFor(logbook, "rare rows", () => findRare(logbook, Number.POSITIVE_INFINITY));
  return all.filter(({ kind, day }) => kinds.has(kind) && day <= until);
}

/** Finds rows up to the end of a day, in order of time, of the kinds that are meant. */
export type RowFinder = (logbook: Logbook, until: number, isMeant?: (kind: number) => boolean) => LogRow[];

/** A finder of rows of which a log has few. @param isWanted hangs on the facts alone: what it says is kept until the block is edited */
export function rowFinder(isWanted: (facts: Facts, row: number) => boolean): RowFinder {
  const rowsIn = keptPerBlock((facts): readonly number[] => {
    const rows: number[] = [];
    for (let row = 0; row < facts.count; row++) if (isWanted(facts, row)) rows.push(row);
    return rows;
  });
  return (logbook, until, isMeant = () => true) => rowsUntil(logbook, until, rowsIn, isMeant);
}

function rowsUntil(
  logbook: Logbook,
  until: number,
  rowsIn: (block: Block) => readonly number[],
  isMeant: (kind: number) => boolean,
): LogRow[] {
  const found: LogRow[] = [];
  for (const group of logbook.dayGroups) {
    const { day, blocks } = group;
    if (day > until) break;
    const from = found.length;
    for (const block of blocks) {
      const { facts } = block;
      for (const row of rowsIn(block)) {
        const kind = kindOfRow(facts, row);
        if (!isMeant(kind)) continue;
        const time = day + minuteOfRow(facts, row) / 1440;
        found.push({ day, time, block, facts, row, id: idOfRow(block, row), kind });
      }
    }
    sortDay(found, from, group);
  }
  return found;
}
