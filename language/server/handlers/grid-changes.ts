import type { CancellationToken } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { nameOfFile } from "../../features/files-in-text.ts";
import { cellSteps, fillDown, fillSeries, pasteSteps } from "../../features/grid/cell-edit.ts";
import { deleteRows, insertRows } from "../../features/grid/edit-rows.ts";
import { fewEdits } from "../../features/grid/few-edits.ts";
import { replacements } from "../../features/grid/find.ts";
import {
  type Face,
  type GridEdits,
  type GridResult,
  type GridRow,
  type Refusal,
  refused,
} from "../../features/grid/grid-model.ts";
import { gridRowIds } from "../../features/grid/query.ts";
import type { Steps } from "../../features/grid/steps.ts";
import type { Edit, View } from "../../features/view.ts";
import { markOf, unsettledWords } from "../../room/unsettled.ts";
import {
  type GridChange,
  type GridChangeParams,
  type GridWritten,
  gridProgressNotification,
  type RowRange,
} from "../grid-protocol.ts";
import type { Session } from "../session.ts";
import { textEdits } from "../to-lsp.ts";
import { cellAt, rowsIn } from "./grid-places.ts";

/** So long the server works before others have their turn. */
const turnMs = 50;
/** Who edits while a long change is made ready gets it made anew; who does not stop is told. */
const mostTries = 4;

/** The edits that a change of cells comes to, for the versions that they are made for. What takes long has breaks, in which it may be given up. */
export async function changedInTime(
  session: Session,
  viewOf: () => View | undefined,
  { uri, face, change, ticket }: GridChangeParams,
  token: CancellationToken,
): Promise<GridWritten | null> {
  for (let tried = 0; tried < mostTries; tried++) {
    const view = viewOf();
    if (view === undefined) return null;
    const { generation } = session.workspace;
    const { steps, cells, left } = begun(view, face, change);
    let until = performance.now() + turnMs;
    for (;;) {
      const { done, value } = steps.next();
      if (done === true) {
        if (value.is === "refused") return value;
        const unsettled = unsettledIn(view, value);
        if (unsettled !== undefined) return unsettled;
        return { is: "edits", cells, left, files: filesOf(session, value) };
      }
      if (performance.now() < until) continue;
      if (ticket !== undefined) session.tell(gridProgressNotification, { ticket, share: value });
      await new Promise((resolve) => setTimeout(resolve));
      if (token.isCancellationRequested) return refused("given up: nothing was written");
      if (session.workspace.generation !== generation) break;
      until = performance.now() + turnMs;
    }
  }
  session.connection.console.warn(`${uri}: a change of cells never came to its end`);
  return refused("the text is being changed all the time: nothing was written; try again");
}

/** Of two versions that a merge left one is shown: an edit of it would be lost with it where the other is chosen. */
function unsettledIn({ checked }: View, { edits }: GridEdits): Refusal | undefined {
  for (const { path } of edits) {
    const file = checked.logbook.sources.get(path);
    if (file !== undefined && markOf(file) !== undefined)
      return refused(`${unsettledWords(nameOfFile(path))}, as text; nothing was written`);
  }
  return undefined;
}

interface Begun {
  readonly steps: Steps<GridResult>;
  /** How many cells or rows it is about. */
  readonly cells: number;
  readonly left: number;
}

const moved = refused(
  "the rows were moved by another edit meanwhile: nothing was written; select them again",
);
const nothing: GridEdits = { is: "edits", edits: [], newFiles: [] };

const ready = (result: GridResult, cells = 0, left = 0): Begun => ({
  steps: resultOf(result),
  cells,
  left,
});

// biome-ignore lint/correctness/useYield: what is refused at once is refused without a step.
function* resultOf(result: GridResult): Steps<GridResult> {
  return result;
}

function begun(view: View, face: Face, change: GridChange): Begun {
  switch (change.is) {
    case "cells": {
      const late = lateIn(view, face, change);
      return late !== undefined
        ? ready(late)
        : { steps: cellSteps(view, change.cells), cells: change.cells.length, left: 0 };
    }
    case "insert":
      return ready(insertRows(view, change.behind, change.rows, face), change.rows.length);
    case "replace": {
      const { changes, left } = replacements(view, face, change.view, change, change.by);
      return changes.length === 0
        ? ready(nothing, 0, left)
        : { steps: cellSteps(view, changes), cells: changes.length, left };
    }
    case "paste":
      return pasted(view, face, change);
    default:
      break;
  }
  const { over } = change;
  const rows = rowsIn(view, face, over);
  if (rows.length === 0) return ready(moved);
  const ids = rows.map(({ id }) => id);
  const texts = rows.map(({ cells }) => over.columns.map((_, at) => cells[at]?.text ?? ""));
  const cells = ids.length * over.columns.length;
  switch (change.is) {
    case "clear":
      return cleared(view, rows, over);
    case "down":
      return { steps: fillDown(view, ids, over.columns, texts), cells, left: 0 };
    case "series":
      return { steps: fillSeries(view, ids, over.columns, texts, change.seeds), cells, left: 0 };
    default:
      return ready(deleteRows(view, ids), ids.length);
  }
}

/** What cannot be emptied stays as it is, as long as something can. */
function cleared(view: View, rows: readonly GridRow[], { columns }: RowRange): Begun {
  const all = rows.flatMap((row) =>
    row.cells.flatMap((cell, at) => {
      const column = row.is === "text" || row.is === "comment" ? "text" : columns[at]!;
      return cell.text === "" || column === "text"
        ? []
        : [{ row: row.id, column, text: "", fixed: cell.fixed }];
    }),
  );
  const changes = all.filter(({ fixed }) => fixed === "");
  const [first] = all;
  if (changes.length === 0) return ready(first === undefined ? nothing : refused(first.fixed, first));
  return { steps: cellSteps(view, changes), cells: changes.length, left: 0 };
}

function pasted(view: View, face: Face, { over, cells }: Extract<GridChange, { is: "paste" }>): Begun {
  const { from, count, first, last, columns } = over;
  const rows = gridRowIds(view, face, { ...over.view, from, count });
  if (rows[0] !== first || rows.at(-1) !== last) return ready(moved);
  return {
    steps: pasteSteps(view, { rows, columns, face }, cells),
    cells: cells.reduce((sum, row) => sum + row.length, 0),
    left: 0,
  };
}

/** A cell that says something else than to who typed. */
function lateIn(
  view: View,
  face: Face,
  { cells }: Extract<GridChange, { is: "cells" }>,
): Refusal | undefined {
  if (cells.length > 1) return undefined;
  for (const { row, column, was } of cells) {
    if (was === undefined) continue;
    const now = cellAt(view, face, { row, column });
    const at = { row, column };
    if (now === undefined) return refused("this row is not there any more: nothing was written", at);
    const said = now.cell?.text ?? "";
    if (said !== was)
      return refused(
        `this cell was changed meanwhile and says “${said}” now: nothing was written; type again or leave it`,
        at,
      );
  }
  return undefined;
}

type Files = Extract<GridWritten, { is: "edits" }>["files"];

function filesOf({ workspace }: Session, { edits, newFiles }: GridEdits): Files {
  const byFile = new Map<string, Edit[]>();
  for (const edit of edits) {
    const known = byFile.get(edit.path);
    if (known === undefined) byFile.set(edit.path, [edit]);
    else known.push(edit);
  }
  return [...byFile].map(([uri, some]) => {
    const isNew = newFiles.includes(uri);
    const document = isNew ? TextDocument.create(uri, "standpipe", 0, "") : workspace.document(uri)!;
    return {
      uri,
      version: workspace.files.get(uri)?.version ?? null,
      isNew,
      edits: textEdits(document, fewEdits(document.getText(), some)),
    };
  });
}
