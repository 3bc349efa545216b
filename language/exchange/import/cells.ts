import Papa from "papaparse";

/** The cells of a row. */

export interface Cells {
  readonly cells: readonly string[];
  /** Why the row cannot be read; empty if it can. */
  readonly flaw: string;
}

/** @param edges of a table with fixed places, where each column ends; the last goes on */
export function cellsOf(raw: string, delimiter: string, edges: readonly number[] = []): Cells {
  if (delimiter === "fixed") return { cells: fixedCells(raw, edges), flaw: "" };
  if (!raw.includes('"')) return { cells: raw.split(delimiter), flaw: "" };
  // The row end is a letter that no row holds: a row is given alone, whatever line ends stand inside its quotes.
  const { data, errors } = Papa.parse<string[]>(raw, {
    delimiter,
    newline: "\u001e" as "\n",
    quoteChar: '"',
  });
  const [cells = []] = data;
  if (data.length > 1) return { cells, flaw: "a line end outside quotes" };
  const wrong = errors.find(({ type }) => type === "Quotes");
  return { cells, flaw: wrong === undefined ? "" : "a quote inside a cell in quotes is not doubled" };
}

/** The cells of heads: at fixed places they may stand to the left or the right of what is below them, so words are taken where they are as many. */
export function headCellsOf(
  raw: string,
  delimiter: string,
  edges: readonly number[] = [],
): readonly string[] {
  if (delimiter === "fixed")
    for (const gap of [/\s{2,}/, /\s+/]) {
      const words = raw.trim().split(gap);
      if (words.length === edges.length) return words;
    }
  return cellsOf(raw, delimiter, edges).cells.map((cell) => cell.replace(/\s+/g, " ").trim());
}

function fixedCells(raw: string, edges: readonly number[]): string[] {
  return edges.map((edge, at) =>
    raw.slice(at === 0 ? 0 : edges[at - 1], at === edges.length - 1 ? undefined : edge).trim(),
  );
}
