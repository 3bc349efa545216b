/** The layout of a day block: FORMAT.md section 7. */
import { clockOf, isoOf } from "./calendar.ts";
import { quoted } from "./definition.ts";

export interface Entry {
  /** Minutes since midnight; absent where the keeper did not look at the clock. */
  readonly minute?: number;
  readonly target: string;
  /** Kind and arguments. */
  readonly words: string;
  readonly text?: string | undefined;
}

export interface Sheet {
  readonly heads: readonly string[];
  readonly rows: readonly SheetRow[];
}

export interface SheetRow {
  readonly target: string;
  readonly cells: readonly string[];
  readonly text?: string | undefined;
}

export type Item = Entry | Sheet;

export function isSheet(item: Item): item is Sheet {
  return "heads" in item;
}

/** How many entries an item is: a row of a sheet is one. */
export function entriesIn(item: Item): number {
  return isSheet(item) ? item.rows.length : 1;
}

/** A day with its entries, as text without the last newline. */
export function dayBlock(day: number, title: string | undefined, items: readonly Item[]): string {
  const width = Math.max(5, ...items.map((item) => (isSheet(item) ? 5 : item.target.length)));
  const head = title === undefined ? isoOf(day) : `${isoOf(day)} ${quoted(title)}`;
  return [
    head,
    ...items.flatMap((item) => (isSheet(item) ? sheetLines(item) : [entryLine(item, width)])),
  ].join("\n");
}

function entryLine({ minute, target, words, text }: Entry, width: number): string {
  const time = minute === undefined ? "" : `${clockOf(minute)} `;
  const line = `  ${time}${target.padEnd(width)} ${words}`;
  return text === undefined ? line : `${line} ${quoted(text)}`;
}

function sheetLines({ heads, rows }: Sheet): string[] {
  const first = ["sheet", ...heads];
  const grid = rows.map(({ target, cells }) => [target, ...cells]);
  const widths = first.map((head, column) => {
    const indent = column === 0 ? 2 : 0;
    return Math.max(head.length, ...grid.map((row) => indent + row[column]!.length));
  });
  const line = (cells: readonly string[], indent: string, text?: string): string => {
    const padded = cells.map((cell, column) =>
      cell.padEnd(widths[column]! - (column === 0 ? indent.length - 2 : 0)),
    );
    const joined = `${indent}${padded.join("  ")}`;
    return text === undefined ? joined.trimEnd() : `${joined}  ${quoted(text)}`;
  };
  return [line(first, "  "), ...rows.map((row, index) => line(grid[index]!, "    ", row.text))];
}
