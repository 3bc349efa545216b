import type { Block } from "../../book/source.ts";
import type { Finding } from "../../checks/finding.ts";
import type { View } from "../view.ts";
import type { GridCell, GridMark, GridRow } from "./grid-model.ts";

/** Findings at the cells that they stand at. */

/** The rows with their findings: each at the cell it begins in, else at the first that holds something. */
export function marked(view: View, rows: readonly GridRow[], blocks: ReadonlySet<Block>): readonly GridRow[] {
  const byPath = new Map<string, GridMark[]>();
  for (const finding of view.checked.findingsAmong(blocks, view.worldDay)) {
    const mark = markOf(finding);
    byPath.set(mark.path, [...(byPath.get(mark.path) ?? []), mark]);
  }
  if (byPath.size === 0) return rows;
  return rows.map((row) => withMarks(row, byPath));
}

function markOf({ block, start, end, code, severity, message }: Finding): GridMark {
  return {
    path: block.file.path,
    start: block.start + start,
    end: block.start + end,
    code,
    severity,
    message,
  };
}

function withMarks(row: GridRow, byPath: ReadonlyMap<string, readonly GridMark[]>): GridRow {
  const places = [row.at, ...row.cells.map(({ at }) => at)].filter((at) => at !== undefined);
  const own = new Set<GridMark>();
  for (const { path, start, end } of places)
    for (const mark of byPath.get(path) ?? []) if (mark.start >= start && mark.start <= end) own.add(mark);
  if (own.size === 0) return row;
  const marks = row.cells.map((): GridMark[] => []);
  for (const mark of own) marks[cellFor(row.cells, mark)]?.push(mark);
  return { ...row, cells: row.cells.map((cell, at) => withOwn(cell, marks[at]!)) };
}

const withOwn = (cell: GridCell, marks: readonly GridMark[]): GridCell =>
  marks.length === 0 ? cell : { ...cell, marks };

/** The narrowest cell in which a finding begins; of a finding between cells, or of one that is not shown, the first that is written. */
function cellFor(cells: readonly GridCell[], mark: GridMark): number {
  let best = -1;
  cells.forEach(({ at }, index) => {
    if (at === undefined || at.path !== mark.path || mark.start < at.start || mark.start > at.end) return;
    // Where one cell ends and the next begins it is that which begins.
    if (mark.start === at.end && at.end > at.start) return;
    const known = cells[best]?.at;
    if (known === undefined || at.end - at.start < known.end - known.start) best = index;
  });
  if (best >= 0) return best;
  const first = cells.findIndex(({ at }) => at !== undefined);
  return Math.max(0, first);
}
