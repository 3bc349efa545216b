import { isoOf } from "../book/dates.ts";
import { type EntryAt, entryOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import type { Place } from "../book/stations.ts";
import type { Moment } from "./observer.ts";

/** Why a figure is what it is: the entries and the formula behind it, as a tree. */
export interface Why {
  /** What it is: `nitrate now`, `change of 3 March`. */
  readonly what: string;
  /** Its value with its unit; empty where there is none. */
  readonly value: string;
  /** The formula, with its letters named. */
  readonly formula?: string;
  /** Author, year, title of what the formula is from. */
  readonly source?: string;
  readonly place?: Place;
  readonly from: readonly Why[];
}

/** The entry of a row as a leaf of the tree: its own words and its place. */
export function whyEntry(moment: Pick<Moment, "block" | "row">): Why {
  const { block, row } = moment;
  const entry = entryOf(block, row);
  if (entry === undefined) return { what: "an entry that is gone", value: "", from: [] };
  return {
    what: `${isoOf(block.day)} ${wordsOf(block, entry)}`,
    value: "",
    place: { block, start: entry.start, end: entry.end },
    from: [],
  };
}

/** An entry in its own words; of a list, or of a row of a sheet, with the one item that is meant. */
function wordsOf({ text }: Block, { line, start, end }: EntryAt): string {
  const words = (from: number, to: number): string => text.slice(from, to).replace(/\s+/g, " ");
  if (line.is === "row") {
    const column = line.columns[line.cells.findIndex((cell) => cell.start === start)];
    if (column !== undefined) return `${line.target?.text ?? ""} ${column.word} ${words(start, end)}`;
  }
  // A row that begins at or before the word of its kind is the whole line, though a time of day may stand before it.
  const kind = line.is === "entry" ? line.kindWord : undefined;
  // A row that begins at or before the word of its kind is the whole line, though a time of day may stand before it.
  return kind !== undefined && start > kind.start
    ? `${words(line.start, kind.end)} ${words(start, end)}`
    : words(line.start, line.end);
}

/** A statement in a definition as a leaf. */
export function whyStated(place: Place): Why {
  const words = place.block.text.slice(place.start, place.end).replace(/\s+/g, " ");
  return { what: `stated: ${words}`, value: "", place, from: [] };
}

/** The place of a row. */
export function placeOfRow(block: Block, row: number): Place | undefined {
  const entry = entryOf(block, row);
  return entry === undefined ? undefined : { block, start: entry.start, end: entry.end };
}
