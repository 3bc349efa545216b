import { wordsOf } from "./asking.ts";
import type { Leave } from "./cell-input.ts";
import type { Box } from "./cursor.ts";
import type { Desk } from "./desk.ts";
import {
  type GridChange,
  type Outcome,
  outcomeShape,
  type PageCell,
  type RowRange,
  textShape,
} from "./messages.ts";
import { keyOf, type Pending } from "./refusals.ts";

/** What is typed, pasted, filled and deleted: each one question to the host, one edit of the text. */
export class Changes {
  private readonly desk: Desk;
  private busy = 0;
  /** A selection that reaches beyond the rows that are here, as it is copied. */
  copiedAhead: string | undefined;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  edit(typed?: string): void {
    const { row, col } = this.desk.cursor;
    const found = this.desk.saidAt(row, col);
    const cell = this.desk.table.cellAt(row, col);
    if (found === undefined || cell === undefined) return;
    const { cell: said, column } = found;
    if (this.desk.isReadOnly) {
      this.desk.refuse("This file cannot be written.");
      return;
    }
    if (said.fixed) {
      this.leadToText(row, col, said, typed);
      return;
    }
    const own = this.desk.shown[col]!;
    if (own.isComputed && column !== "text") {
      this.desk.refuse("This column is reckoned from the log.");
      return;
    }
    this.desk.table.show(row, col);
    this.desk.tip.hide();
    this.desk.tip.atCursor();
    const was = this.desk.pending(found.row.id, column) ?? said.text;
    const text = this.desk.refused(found.row.id, column)?.text ?? was;
    const title = column === "text" ? "Line" : own.title;
    const isFigure = own.isFigure && column !== "text";
    this.desk.input.start(cell, { row: found.row.id, column, title, text, was, isFigure }, typed);
  }

  /** What stands in the text and is not edited here is led to by a second Enter; what is reckoned stands nowhere. */
  private leadToText(row: number, col: number, { fixed = "", text }: PageCell, typed?: string): void {
    const { desk } = this;
    const isWritten = text !== "" && desk.shown[col]?.isComputed === false;
    if (isWritten && typed === undefined && desk.tip.isKeptAt(row, col)) desk.post({ say: "text" });
    else desk.refuse(isWritten ? `${fixed}. Enter once more opens it in the text.` : fixed);
  }

  /** @param text what was typed; undefined where it was given up */
  afterInput(
    about: { readonly row: string; readonly column: string; readonly was: string },
    text: string | undefined,
    leave: Leave,
    hadFocus: boolean,
  ): void {
    const { row, column, was } = about;
    const index = this.desk.rows.indexOf(row);
    if (index >= 0) this.desk.table.forget(index, this.desk.laying.columnAt(column));
    const key = keyOf(row, column);
    if (text === undefined) this.desk.refusals.delete(key);
    else if (text !== was || this.desk.refusals.has(key)) void this.write(row, column, text, was);
    this.desk.table.draw();
    if (!hadFocus && leave === "stay") return;
    const steps: Record<Leave, readonly [number, number]> = {
      stay: [0, 0],
      down: [1, 0],
      up: [-1, 0],
      right: [0, 1],
      left: [0, -1],
    };
    const [rows, cols] = steps[leave];
    if (cols !== 0 && this.desk.moves.tab(cols as 1 | -1)) return;
    this.desk.moves.moveTo({ row: Math.max(0, this.desk.cursor.row + rows), col: this.desk.cursor.col });
  }

  private async write(row: string, column: string, text: string, was: string): Promise<void> {
    const key = keyOf(row, column);
    this.desk.refusals.delete(key);
    const pending: Pending = { text, isWritten: false };
    this.desk.written.set(key, pending);
    const outcome = await this.changed({ is: "cells", cells: [{ row, column, text, was }] });
    pending.isWritten = true;
    if (outcome.is === "written") {
      this.desk.stale();
      return;
    }
    if (this.desk.written.get(key) === pending) this.desk.written.delete(key);
    this.desk.refusals.set(key, { text, message: outcome.message });
    const index = this.desk.rows.indexOf(row);
    if (index >= 0 && !this.desk.input.isOpen) {
      this.desk.cursor.moveTo({
        row: index,
        col: column === "text" ? this.desk.cursor.col : this.desk.laying.columnAt(column),
      });
      this.desk.table.show(index, this.desk.cursor.col);
      this.desk.afterMove(true);
    } else this.desk.table.draw();
    // Of a row that is gone there is no cell that keeps it.
    const typed = index < 0 ? ` You typed: ${text}` : "";
    if (index < 0) this.desk.tip.atCursor(`Not written: ${outcome.message}${typed}`);
    this.desk.say(`Not written: ${outcome.message}${typed}`);
  }

  /** Has a change written. Whoever waits long is told for what. */
  async changed(change: GridChange, what = "Writing"): Promise<Outcome> {
    const waiting = this.desk.progress.begin(what);
    this.busy++;
    this.desk.root.setAttribute("aria-busy", "true");
    try {
      return await this.desk.asking.ask(
        { is: "change", face: this.desk.face, change },
        outcomeShape,
        waiting,
      );
    } catch (error) {
      return { is: "refused", message: wordsOf(error) };
    } finally {
      waiting.end();
      if (--this.busy === 0) this.desk.root.removeAttribute("aria-busy");
      this.desk.stale();
    }
  }

  /** @param what was changed, to be said; nothing is where it is empty @returns whether it was written */
  async change(change: GridChange, what: string): Promise<boolean> {
    const outcome = await this.changed(change, change.is === "paste" ? `Pasting ${what}` : undefined);
    if (outcome.is === "refused") {
      const { at } = outcome;
      const index = at === undefined ? -1 : this.desk.rows.indexOf(at.row);
      if (at !== undefined && index >= 0) {
        this.desk.cursor.moveTo({ row: index, col: this.desk.laying.columnAt(at.column) });
        this.desk.table.show(index, this.desk.cursor.col);
        this.desk.afterMove(true);
      }
      this.desk.refuse(`Nothing was written: ${outcome.message}`);
      return false;
    }
    const files = outcome.files > 1 ? ` in ${outcome.files} files` : "";
    if (what !== "") this.desk.say(`${what} written${files}`);
    return true;
  }

  /** A stretch of rows by what they are called. */
  async rangeOf({ top, bottom, left, right }: Box): Promise<RowRange> {
    const idAt = async (at: number): Promise<string> =>
      this.desk.rows.at(at)?.id ?? (await this.desk.rows.fetch(at, 1, []))[0]?.id ?? "";
    return {
      view: { sort: this.desk.sort, filter: this.desk.filter, turn: this.desk.turn },
      from: top,
      count: bottom - top + 1,
      first: await idAt(top),
      last: await idAt(bottom),
      columns: this.desk.shown.slice(left, right + 1).map(({ id }) => id),
    };
  }

  /** Far selections are copied before they are asked for: the clipboard does not wait. */
  async readAhead(over: RowRange): Promise<void> {
    const { top, bottom } = this.desk.cursor.box;
    this.copiedAhead = undefined;
    if (this.desk.rows.has(top, bottom)) return;
    this.copiedAhead = await this.desk.asking.ask({ is: "copy", face: this.desk.face, over }, textShape);
  }

  private async over(
    act: (over: RowRange) => GridChange,
    what: string,
    box = this.desk.cursor.box,
  ): Promise<boolean> {
    if (this.desk.isReadOnly) {
      this.desk.refuse("This file cannot be written.");
      return false;
    }
    if (box.top < 0 || this.desk.rows.total === 0) return false;
    return this.change(act(await this.rangeOf(box)), what);
  }

  async clear(): Promise<void> {
    await this.over((over) => ({ is: "clear", over }), `${this.desk.moves.selectionWords} emptied:`);
  }

  async deleteRows(): Promise<void> {
    const { top, bottom } = this.desk.cursor.box;
    const count = bottom - top + 1;
    await this.over(
      (over) => ({ is: "delete", over }),
      `${count === 1 ? "1 row" : `${count} rows`} deleted:`,
    );
  }

  async fillDown(): Promise<void> {
    const { box } = this.desk.cursor;
    // On one row what stands above it.
    const from = box.top === box.bottom ? { ...box, top: Math.max(0, box.top - 1) } : box;
    if (from.top === from.bottom) return;
    await this.over((over) => ({ is: "down", over }), `${from.bottom - from.top} rows filled:`, from);
  }

  async fillSeries(): Promise<void> {
    const { top, bottom, left } = this.desk.cursor.box;
    if (top === bottom)
      return this.desk.refuse(
        "A series begins in the first cells of a selection and goes on in those below.",
      );
    const seeds = this.desk.rows.at(top + 1)?.cells[left]?.text === "" ? 1 : Math.min(2, bottom - top);
    await this.over((over) => ({ is: "series", over, seeds }), `${bottom - top + 1 - seeds} rows filled:`);
  }

  async paste(cells: readonly (readonly string[])[]): Promise<void> {
    const { top, bottom, left, right } = this.desk.cursor.box;
    const [rows, cols] = [cells.length, Math.max(...cells.map((row) => row.length))];
    const [selectedRows, selectedCols] = [bottom - top + 1, right - left + 1];
    // What fits into the selection more than once fills it.
    const isRepeated =
      selectedRows % rows === 0 && selectedCols % cols === 0 && selectedRows * selectedCols > rows * cols;
    const made = isRepeated
      ? Array.from({ length: selectedRows }, (_, row) =>
          Array.from({ length: selectedCols }, (__, col) => cells[row % rows]![col % cols] ?? ""),
        )
      : cells;
    const width = isRepeated ? selectedCols : cols;
    const box: Box = {
      top,
      bottom: Math.min(this.desk.rows.total - 1, top + made.length - 1),
      left,
      right: Math.min(this.desk.shown.length - 1, left + width - 1),
    };
    const written = await this.over(
      (over) => ({ is: "paste", over, cells: made.map((row) => [...row]) }),
      `${made.length.toLocaleString("en")} × ${width} cells`,
      box,
    );
    if (!written) return;
    this.desk.cursor.select({ row: box.bottom, col: box.right }, { row: box.top, col: box.left });
    this.desk.afterMove(true);
  }
}
