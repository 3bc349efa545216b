import Papa from "papaparse";
import { formula } from "../formula.ts";
import type { Cell, TableColumn, TableRow } from "./tables.ts";

/**
 * A table as CSV (RFC 4180: commas, quotes doubled, lines that end in CR LF), part by part.
 *
 * A text that a spreadsheet would take for a formula gets an apostrophe before it. @param keepsFormulas leaves such texts as they are
 */
export function* csvOf(
  columns: readonly TableColumn[],
  rows: Iterable<TableRow>,
  keepsFormulas: boolean,
): Generator<string> {
  const parts: string[] = [];
  const writer = new CsvWriter(columns, keepsFormulas, (part) => parts.push(part));
  for (const row of rows) {
    writer.row(row);
    if (parts.length > 0) yield parts.splice(0).join("");
  }
  writer.end();
  yield parts.join("");
}

const batchSize = 500;

/** The same for rows that are given one by one. */
export class CsvWriter {
  private readonly names: readonly string[];
  private readonly keepsFormulas: boolean;
  private readonly write: (part: string) => void;
  private batch: Cell[][];

  constructor(columns: readonly TableColumn[], keepsFormulas: boolean, write: (part: string) => void) {
    this.names = columns.map(({ name }) => name);
    this.keepsFormulas = keepsFormulas;
    this.write = write;
    this.batch = [[...this.names]];
  }

  row(row: TableRow): void {
    this.batch.push(this.names.map((name) => row[name]));
    if (this.batch.length >= batchSize) this.end();
  }

  /** What is left. */
  end(): void {
    if (this.batch.length > 0) this.write(csvLines(this.batch, this.keepsFormulas));
    this.batch = [];
  }
}

function csvLines(rows: readonly (readonly Cell[])[], keepsFormulas: boolean): string {
  const text = Papa.unparse(rows as Cell[][], {
    newline: "\r\n",
    escapeFormulae: keepsFormulas ? false : formula,
    // What another habit of parting cells would cut stands in quotes.
    quotes: (cell: unknown) => typeof cell === "string" && /[;\t|']/.test(cell),
  });
  return `${text}\r\n`;
}
