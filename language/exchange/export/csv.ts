import Papa from "papaparse";
import type { Cell, TableColumn, TableRow } from "./tables.ts";

/**
 * A table as CSV (RFC 4180: commas, quotes doubled, lines that end in CR LF), part by part.
 *
 * A text that a spreadsheet would take for a formula gets an apostrophe before it (OWASP, CSV Injection: `=`, `+`, `-`, `@`, tab, CR at
 * the begin of a cell; and NUL, ASVS 1.2.10), also behind what a spreadsheet of another country may part cells by. Numbers are no texts:
 * -0.5 stays -0.5. @param keepsFormulas leaves such texts as they are
 */
export function* csvOf(
  columns: readonly TableColumn[],
  rows: Iterable<TableRow>,
  keepsFormulas: boolean,
): Generator<string> {
  const names = columns.map(({ name }) => name);
  yield csvLines([names], keepsFormulas);
  let batch: Cell[][] = [];
  for (const row of rows) {
    batch.push(names.map((name) => row[name]));
    if (batch.length < batchSize) continue;
    yield csvLines(batch, keepsFormulas);
    batch = [];
  }
  if (batch.length > 0) yield csvLines(batch, keepsFormulas);
}

const batchSize = 500;

// biome-ignore lint/suspicious/noControlCharactersInRegex: a NUL before a formula does not stop every spreadsheet.
const formula = /(?:^|[;,\t|\r\n"'])[\s\u0000"']*[=+\-@\t\r\u0000\uff1d\uff0b\uff0d\uff20]/;

function csvLines(rows: readonly (readonly Cell[])[], keepsFormulas: boolean): string {
  const text = Papa.unparse(rows as Cell[][], {
    newline: "\r\n",
    escapeFormulae: keepsFormulas ? false : formula,
    // What another habit of parting cells would cut stands in quotes.
    quotes: (cell: unknown) => typeof cell === "string" && /[;\t|']/.test(cell),
  });
  return `${text}\r\n`;
}
