/** Cells for a table elsewhere: tab-separated, as spreadsheets exchange them. */

/**
 * Rows of cells as one text, without a line end behind the last. A cell that holds a tab or a line end, or begins with a quote, stands in
 * quotes; all others as they are written.
 */
export function toTsv(cells: readonly (readonly string[])[]): string {
  // One empty cell alone would be no row.
  return cells
    .map((row) => (row.length === 1 && row[0] === "" ? '""' : row.map(field).join("\t")))
    .join("\r\n");
}

const field = (text: string): string =>
  /[\t\r\n]/.test(text) || text.startsWith('"') ? `"${text.replaceAll('"', '""')}"` : text;

/**
 * Whether a spreadsheet would take a text for a formula (OWASP, CSV injection: cells that begin with `=`, `+`, `-`, `@`, tab, CR). In the log it
 * stays as it is; who exports it says so, or puts an apostrophe before it. Plain numbers and `-` are none.
 */
export function isFormulaLike(text: string): boolean {
  return (
    /^\s*[=+\-@\t\r]/.test(text) &&
    !/^\s*[+-]?(?:\d+(?:\.\d+)?|\.\d+)?(?:\s*\.\.\s*[+-]?\d+(?:\.\d+)?)?\s*$/.test(text)
  );
}

/** A cell as it goes into a file for spreadsheets: what looks like a formula is text there. */
export function forSpreadsheet(text: string): string {
  return isFormulaLike(text) ? `'${text}` : text;
}
