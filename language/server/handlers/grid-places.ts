import type { CellRef, Face, GridCell, GridQuery, GridRow } from "../../features/grid/grid-model.ts";
import { blockOfSerial, lineOfId, linesOfBlock } from "../../features/grid/lines.ts";
import { entryBlocks, gridRows, gridRowsById } from "../../features/grid/query.ts";
import type { View } from "../../features/view.ts";
import type { GridView, RowRange } from "../grid-protocol.ts";

/** Which row is which: by what it is called, by where it stands, by its place in a window. */

/** Rows are looked through so many at a time. */
const stretch = 4000;

/** The rows of a range with the cells of its columns; none if they are not those any more that were seen. */
export function rowsIn(view: View, face: Face, over: RowRange): readonly GridRow[] {
  const { from, count, first, last, columns } = over;
  const { rows } = gridRows(view, face, { ...over.view, from, count, columns, isUnmarked: true });
  return rows[0]?.id === first && rows.at(-1)?.id === last ? rows : [];
}

function* allRows(view: View, face: Face, query: GridView): Generator<readonly [GridRow, number]> {
  for (let from = 0, total = 1; from < total; from += stretch) {
    const window = gridRows(view, face, { ...query, columns: [], from, count: stretch, isUnmarked: true });
    total = window.total;
    for (const [at, row] of window.rows.entries()) yield [row, from + at];
  }
}

/** @param seen rows of a window, looked at first @returns -1 where it is gone */
export function indexOfRow(
  view: View,
  face: Face,
  query: GridView,
  seen: readonly GridRow[],
  from: number,
  row: string,
): number {
  const at = seen.findIndex(({ id }) => id === row);
  if (at >= 0) return from + at;
  if (isPlain(face, query)) {
    const [block, line] = lineOf(row);
    let before = 0;
    for (const each of block === undefined ? [] : entryBlocks(view, face)) {
      if (each === block) return line < 0 ? -1 : before + line;
      before += linesOfBlock(each).starts.length;
    }
    return -1;
  }
  for (const [{ id }, index] of allRows(view, face, query)) if (id === row) return index;
  return -1;
}

/** The row that an offset of a file is in, or the last before it. @returns -1 where there is none */
export function rowAtLine(view: View, face: Face, query: GridQuery, path: string, offset: number): number {
  let best = -1;
  if (isPlain(face, query)) {
    let before = 0;
    for (const block of entryBlocks(view, face)) {
      const { starts } = linesOfBlock(block);
      const isHere = block.file.path === path && block.start <= offset;
      if (isHere)
        best =
          before +
          Math.max(
            0,
            starts.findLastIndex((start) => block.start + start <= offset),
          );
      before += starts.length;
    }
    return best;
  }
  for (const [{ at }, index] of allRows(view, face, query)) {
    if (at?.path !== path || at.start > offset) continue;
    if (at.end >= offset) return index;
    best = index;
  }
  return best;
}

type Plain = Extract<Face, { is: "entries" }>;

/** Rows that are the lines as they stand need not be made to be counted. */
function isPlain(face: Face, { sort = [], filter = {} }: GridView): face is Plain {
  const isFiltered = Object.values(filter).some((wanted) => wanted.trim() !== "");
  return face.is === "entries" && face.kind === undefined && sort.length === 0 && !isFiltered;
}

/** The line that a row is, where it is one. */
function lineOf(row: string): readonly [block: ReturnType<typeof blockOfSerial>, line: number] {
  const [is, serial, id] = row.split(" ");
  const block = is === "line" ? blockOfSerial(Number(serial)) : undefined;
  return [block, block === undefined ? -1 : lineOfId(linesOfBlock(block), Number(id))];
}

export interface FoundCell {
  readonly row: GridRow;
  /** Undefined for a column that the row has not. */
  readonly cell: GridCell | undefined;
}

/** The cell that is called so, as it stands now; undefined where its row is gone. */
export function cellAt(view: View, face: Face, { row, column }: CellRef): FoundCell | undefined {
  const [found] = gridRowsById(view, face, [row], [column]);
  return found === undefined ? undefined : { row: found, cell: found.cells[0] };
}
