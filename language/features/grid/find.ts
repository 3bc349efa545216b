import type { View } from "../view.ts";
import type { CellChange, Face, GridQuery, GridRow } from "./grid-model.ts";
import { gridRows } from "./query.ts";

/** Cells that hold a text, over all rows of a face. */

export interface CellSearch {
  readonly text: string;
  readonly isCaseSensitive: boolean;
}

/** Rows are made so many at a time: all at once would be all in memory. */
const stretch = 4000;

type Rows = Omit<GridQuery, "from" | "count" | "isUnmarked">;

/** By match its row and the place of its column among those shown, in the order of rows. */
export function foundCells(
  view: View,
  face: Face,
  rows: Rows,
  search: CellSearch,
): [row: number, column: number][] {
  const places: [number, number][] = [];
  for (const { at, index } of matches(view, face, rows, search)) places.push([at, index]);
  return places;
}

/** What it comes to when the text is replaced in all cells that hold it and can be edited; `left` is how many cannot. */
export function replacements(
  view: View,
  face: Face,
  rows: Rows,
  search: CellSearch,
  by: string,
): { readonly changes: readonly CellChange[]; readonly left: number } {
  const wanted = new RegExp(
    search.text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"),
    search.isCaseSensitive ? "g" : "gi",
  );
  const changes: CellChange[] = [];
  let left = 0;
  for (const { row, index, column } of matches(view, face, rows, search)) {
    const { text, fixed } = row.cells[index]!;
    if (fixed !== "" || isOneText(row)) left++;
    else changes.push({ row: row.id, column, text: text.replace(wanted, () => by) });
  }
  return { changes, left };
}

interface Match {
  readonly row: GridRow;
  readonly at: number;
  readonly index: number;
  readonly column: string;
}

function* matches(
  view: View,
  face: Face,
  rows: Rows,
  { text, isCaseSensitive }: CellSearch,
): Generator<Match, void, undefined> {
  if (text === "") return;
  const wanted = isCaseSensitive ? text : text.toLowerCase();
  for (let from = 0, total = 1; from < total; from += stretch) {
    const window = gridRows(view, face, { ...rows, from, count: stretch, isUnmarked: true });
    total = window.total;
    for (const [at, row] of window.rows.entries())
      for (const [index, cell] of row.cells.entries()) {
        const said = isCaseSensitive ? cell.text : cell.text.toLowerCase();
        if (said.includes(wanted)) yield { row, at: from + at, index, column: window.shown[index] ?? "text" };
      }
  }
}

const isOneText = ({ is }: GridRow): boolean => is === "text" || is === "comment";
