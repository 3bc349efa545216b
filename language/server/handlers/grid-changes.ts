import { TextDocument } from "vscode-languageserver-textdocument";
import { cellEdits, fillDown, fillSeries, pasteBlock } from "../../features/grid/cell-edit.ts";
import { deleteRows, insertRows } from "../../features/grid/edit-rows.ts";
import {
  type Face,
  type GridEdits,
  type GridResult,
  type GridRow,
  type Refusal,
  refused,
} from "../../features/grid/grid-model.ts";
import { gridRowIds } from "../../features/grid/query.ts";
import type { Edit, View } from "../../features/view.ts";
import type { GridChange, GridWritten, RowRange } from "../grid-protocol.ts";
import type { Session } from "../session.ts";
import { textEdits } from "../to-lsp.ts";
import { cellAt, rowsIn } from "./grid-places.ts";

/** The edits that a change of cells comes to, for the versions that they are made for. */
export function changed(session: Session, view: View, face: Face, change: GridChange): GridWritten {
  const made = madeOf(view, face, change);
  if (made.result.is === "refused") return made.result;
  return { is: "edits", cells: made.cells, files: filesOf(session, made.result) };
}

interface Made {
  readonly result: GridResult;
  /** How many cells or rows it is about. */
  readonly cells: number;
}

const moved = refused(
  "the rows were moved by another edit meanwhile: nothing was written; select them again",
);
const nothing: GridEdits = { is: "edits", edits: [], newFiles: [] };

function madeOf(view: View, face: Face, change: GridChange): Made {
  switch (change.is) {
    case "cells": {
      const late = lateIn(view, face, change);
      return { result: late ?? cellEdits(view, change.cells), cells: change.cells.length };
    }
    case "insert":
      return { result: insertRows(view, change.behind, change.rows, face), cells: change.rows.length };
    case "paste":
      return pasted(view, face, change);
    default:
      break;
  }
  const { over } = change;
  const rows = rowsIn(view, face, over);
  if (rows.length === 0) return { result: moved, cells: 0 };
  const ids = rows.map(({ id }) => id);
  const texts = rows.map(({ cells }) => over.columns.map((_, at) => cells[at]?.text ?? ""));
  const cells = ids.length * over.columns.length;
  switch (change.is) {
    case "clear":
      return cleared(view, rows, over);
    case "down":
      return { result: fillDown(view, ids, over.columns, texts), cells };
    case "series":
      return { result: fillSeries(view, ids, over.columns, texts, change.seeds), cells };
    default:
      return { result: deleteRows(view, ids), cells: ids.length };
  }
}

/** What cannot be emptied stays as it is, as long as something can. */
function cleared(view: View, rows: readonly GridRow[], { columns }: RowRange): Made {
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
  if (changes.length === 0 && first !== undefined) return { result: refused(first.fixed, first), cells: 0 };
  return { result: changes.length === 0 ? nothing : cellEdits(view, changes), cells: changes.length };
}

function pasted(view: View, face: Face, { over, cells }: Extract<GridChange, { is: "paste" }>): Made {
  const { from, count, first, last, columns } = over;
  const rows = gridRowIds(view, face, { ...over.view, from, count });
  if (rows[0] !== first || rows.at(-1) !== last) return { result: moved, cells: 0 };
  return {
    result: pasteBlock(view, { rows, columns, face }, cells),
    cells: cells.reduce((sum, row) => sum + row.length, 0),
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
      edits: textEdits(document, some),
    };
  });
}
