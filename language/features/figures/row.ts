import type { Book } from "../../book/book.ts";
import type { DayLine } from "../../book/entry.ts";
import { Col, type Facts, intsPerRow, kindOfRow, minuteOfRow } from "../../book/facts.ts";
import { wordOf } from "../../book/interner.ts";
import { type Block, idOfRow } from "../../book/source.ts";
import type { Station, Tank } from "../../book/stations.ts";
import type { CheckedLogbook } from "../../checks/check.ts";
import type { Ledger } from "../../room/ledger.ts";
import type { Why } from "../../room/why.ts";

/** Kinds of figures that are shown at the end of a line; each can be switched off. */
export const figureKinds = [
  "change",
  "test",
  "dose",
  "count",
  "move",
  "arrive",
  "feed",
  "brood",
  "case",
] as const;
export type FigureKind = (typeof figureKinds)[number];

/** What follows from an entry, in a few words, and why. */
export interface LineFigure {
  readonly kind: FigureKind;
  /** `93 L · nitrate 35 → 28 mg/L`. */
  readonly label: string;
  readonly why: () => Why;
}

/** A row of facts with what it is about. */
export interface Row {
  readonly checked: CheckedLogbook;
  readonly block: Block;
  readonly facts: Facts;
  /** Where it stands in the block. */
  readonly start: number;
  readonly end: number;
  /** Its place in the columns, and the number by which it is referred to. */
  readonly at: number;
  readonly id: number;
  readonly kind: number;
  /** As the ledgers have it. */
  readonly time: number;
  /** What it names: one station, or the tanks of a group. */
  readonly stations: readonly Station[];
  /** The word of its subject: a species, a remedy, a food. */
  readonly subject: string;
  readonly object: string;
}

/** The rows of a line, in order. */
export function rowsOf(
  checked: CheckedLogbook,
  block: Block,
  { start, end }: Pick<DayLine, "start" | "end">,
): Row[] {
  const { facts } = block;
  const rows: Row[] = [];
  for (let at = 0; at < facts.count; at++) {
    const begin = facts.ints[at * intsPerRow + Col.start]!;
    if (begin >= start && begin <= end) rows.push(rowAt(checked, block, at));
  }
  return rows;
}

function rowAt(checked: CheckedLogbook, block: Block, at: number): Row {
  const { facts } = block;
  const column = (which: number): number => facts.ints[at * intsPerRow + which]!;
  return {
    checked,
    block,
    facts,
    start: column(Col.start),
    end: column(Col.end),
    at,
    id: idOfRow(block, at),
    kind: kindOfRow(facts, at),
    time: block.day + minuteOfRow(facts, at) / 1440,
    stations: stationsOf(checked.book, column(Col.target)),
    subject: wordOf(column(Col.subject)),
    object: wordOf(column(Col.object)),
  };
}

/** What a target names: a station, or the tanks of a group. */
export function stationsOf(book: Book, target: number): readonly Station[] {
  if (target < 0) return book.groupTanks(~target) ?? [];
  const station = book.station(target);
  return station === undefined ? [] : [station];
}

/** The ledgers of the water that a row is about, each once. */
export function ledgersOf({ checked, stations }: Row): Ledger[] {
  const ledgers = new Set<Ledger>();
  for (const station of stations) if (station.body >= 0) ledgers.add(checked.logbook.ledgerOf(station));
  return [...ledgers];
}

/** Whether water is of more than one tank, or has a sump. */
export const isShared = ({ body }: Ledger): boolean => body?.system !== undefined;

/** The tank whose limits hold for a row: its own, or in shared water the first. */
export function tankOf({ stations }: Row, ledger: Ledger): Tank | undefined {
  const own = stations.find((station) => station.kind === "tank" && station.body === ledger.body?.id);
  return (own as Tank | undefined) ?? ledger.body?.tanks[0];
}
