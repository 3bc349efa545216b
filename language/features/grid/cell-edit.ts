import { rename } from "../rename.ts";
import type { View } from "../view.ts";
import { cutBlock } from "./cut.ts";
import { cutDefinition } from "./definition-rows.ts";
import { changeDefinition } from "./edit-definition.ts";
import { changeLine } from "./edit-line.ts";
import { changeRound } from "./edit-round.ts";
import { insertSteps } from "./edit-rows.ts";
import { EditSession } from "./edit-session.ts";
import {
  type CellChange,
  type CellRef,
  type ColumnId,
  type Face,
  type GridResult,
  type NewRow,
  type Refusal,
  refused,
} from "./grid-model.ts";
import { lineOfId, linesOfBlock } from "./lines.ts";
import { seriesOf } from "./series.ts";
import { atOnce, perStep, type Steps } from "./steps.ts";

/** What is typed into cells, as edits of the text. */

/** Another text in one cell: the smallest edit that says it. */
export function cellEdit(view: View, { row, column }: CellRef, text: string): GridResult {
  return cellEdits(view, [{ row, column, text }]);
}

/** Other texts in many cells, one after the other, as one edit. One that cannot be written refuses all. */
export function cellEdits(view: View, changes: readonly CellChange[]): GridResult {
  return atOnce(cellSteps(view, changes));
}

export function* cellSteps(view: View, changes: readonly CellChange[]): Steps<GridResult> {
  const [first] = changes;
  const session = new EditSession(view);
  if (first !== undefined && changes.length === 1 && isName(first)) return renamed(session, first);
  return (yield* changeAll(session, changes, changes.length)) ?? session.finish();
}

const isName = ({ row, column }: CellRef): boolean => column === "name" && row.startsWith("definition ");

/** A name is changed wherever it stands, so that the log says the same. */
function renamed(session: EditSession, { row, column, text }: CellChange): GridResult {
  const block = session.blockOf(row.split(" ")[1]);
  if (block === undefined) return gone({ row, column });
  const { name, isHeadBroken } = cutDefinition(block);
  const wanted = text.trim();
  if (name === undefined || isHeadBroken || block.definition?.name === "") {
    const problem = changeCell(session, { row, column, text });
    return problem === undefined ? session.finish() : { ...problem, at: { row, column } };
  }
  const view = { ...session.view, source: block.file };
  const made = rename(view, block.start + name.start, wanted);
  if ("refused" in made) return refused(made.refused, { row, column });
  const edits = [...made.edits].sort((a, b) =>
    a.path === b.path ? a.start - b.start : a.path < b.path ? -1 : 1,
  );
  return { is: "edits", edits, newFiles: [] };
}

const gone = (at: CellRef): Refusal => refused("this row is not there any more", at);

/** @param all what there is to do with what comes behind */
function* changeAll(
  session: EditSession,
  changes: readonly CellChange[],
  all: number,
): Steps<Refusal | undefined> {
  for (const [at, change] of changes.entries()) {
    if (at > 0 && at % perStep === 0) yield at / all;
    const problem = changeCell(session, change);
    if (problem !== undefined) return { ...problem, at: { row: change.row, column: change.column } };
  }
  return undefined;
}

function changeCell(session: EditSession, change: CellChange): Refusal | undefined {
  const { row, column, text } = change;
  const [is, ...rest] = row.split(" ");
  if (is === "round") return changeRound(session, rest, column, text);
  const block = session.blockOf(rest[0]);
  if (block === undefined) return gone(change);
  if (is === "definition") {
    const { name } = block.definition!;
    const said = block.definition!.word;
    if (column === "name" && name !== "" && name !== text.trim())
      return refused("a name is changed by itself, as it changes wherever it stands");
    return session.changeDefinition(block, (whole) => changeDefinition(whole, said, column, text));
  }
  const at = lineOfId(linesOfBlock(block), Number(rest[1]));
  if (at < 0) return gone(change);
  if (column === "date" && block.kind === "day" && cutBlock(block)[at]!.is !== "day")
    return session.moveTo(block, at, text.trim());
  return session.changeLine(block, at, (state) => changeLine(state, column, text));
}

/** Where a block of cells goes: over rows that are there, and what is more than they are behind a row, as new entries. */
export interface PasteTarget {
  readonly rows: readonly string[];
  readonly columns: readonly ColumnId[];
  /** Of the entries: behind which row the further ones go, if not behind the last of `rows`; they may also name their day. */
  readonly behind?: string;
  /** What the rows are of; entries where nothing is said. */
  readonly face?: Face;
}

/** A block of cells, as it comes from a table. One cell over many fills them all. */
export function pasteBlock(
  view: View,
  target: PasteTarget,
  cells: readonly (readonly string[])[],
): GridResult {
  return atOnce(pasteSteps(view, target, cells));
}

export function* pasteSteps(
  view: View,
  target: PasteTarget,
  cells: readonly (readonly string[])[],
): Steps<GridResult> {
  const { rows, columns } = target;
  const [only] = cells;
  if (only === undefined) return { is: "edits", edits: [], newFiles: [] };
  const isOne = cells.length === 1 && only.length === 1;
  if (isOne && rows.length > 0) {
    const [text = ""] = only;
    return yield* cellSteps(
      view,
      rows.flatMap((row) => columns.map((column) => ({ row, column, text }))),
    );
  }
  const tooWide = cells.find((each) => each.length > columns.length);
  if (tooWide !== undefined)
    return refused(`${tooWide.length} columns are pasted over ${columns.length}: begin further to the left`);
  const session = new EditSession(view);
  const changes = cells
    .slice(0, rows.length)
    .flatMap((each, at) => each.map((text, index) => ({ row: rows[at]!, column: columns[index]!, text })));
  const all = cells.reduce((sum, each) => sum + each.length, 0);
  const problem = yield* changeAll(session, changes, all);
  if (problem !== undefined) return problem;
  const further = cells
    .slice(rows.length)
    .map((each): NewRow => Object.fromEntries(each.map((text, index) => [columns[index]!, text])));
  if (further.length === 0) return session.finish();
  const begun = changes.length / all;
  const inserted = insertSteps(
    session,
    target.face ?? { is: "entries" },
    target.behind ?? rows.at(-1),
    further,
  );
  for (;;) {
    const { done, value } = inserted.next();
    if (done === true) return value ?? session.finish();
    yield begun + (1 - begun) * value;
  }
}

/** What stands in the first row, in those below it. @param cells by row what stands in the columns now */
export function* fillDown(
  view: View,
  rows: readonly string[],
  columns: readonly ColumnId[],
  cells: readonly (readonly string[])[],
): Steps<GridResult> {
  const [first] = cells;
  if (first === undefined) return { is: "edits", edits: [], newFiles: [] };
  return yield* cellSteps(
    view,
    rows
      .slice(1)
      .flatMap((row) => columns.map((column, index) => ({ row, column, text: first[index] ?? "" }))),
  );
}

/**
 * What the first cells of each column begin, gone on with: `1, 2`, dates, `r1`. @param seeds so many rows begin it, one or two most often
 */
export function* fillSeries(
  view: View,
  rows: readonly string[],
  columns: readonly ColumnId[],
  cells: readonly (readonly string[])[],
  seeds: number,
): Steps<GridResult> {
  const changes: CellChange[] = [];
  for (const [index, column] of columns.entries()) {
    const begun = cells.slice(0, seeds).map((each) => each[index] ?? "");
    const series = seriesOf(begun, rows.length - seeds);
    if (series === undefined)
      return refused("this begins no series: numbers, dates, times, or names that end in a number", {
        row: rows[0] ?? "",
        column,
      });
    series.forEach((text, at) => {
      changes.push({ row: rows[seeds + at]!, column, text });
    });
  }
  return yield* cellSteps(view, changes);
}
