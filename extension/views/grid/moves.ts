import type { Place } from "./cursor.ts";
import type { Desk } from "./desk.ts";
import type { PageRow } from "./messages.ts";
import { keyOf } from "./refusals.ts";
import { isWide } from "./row.ts";

/** Where the cursor goes and what it selects. */
export class Moves {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  moveTo(place: Place, isExtending = false, isShown = true): void {
    const rows = this.desk.rows.total;
    const row = place.row < 0 && !isExtending ? -1 : Math.max(0, Math.min(place.row, rows - 1));
    const col = Math.max(0, Math.min(place.col, this.desk.shown.length - 1));
    this.desk.input.finish();
    this.desk.cursor.moveTo({ row: rows === 0 ? -1 : row, col }, isExtending);
    if (isShown) this.desk.table.show(this.desk.cursor.row, col);
    this.desk.afterMove(isShown || this.desk.table.grid.contains(document.activeElement));
  }

  /** To a row by what it is called, wherever it stands now. */
  async goToRow(row: string): Promise<void> {
    const { desk } = this;
    const here = desk.rows.indexOf(row);
    const at = here >= 0 ? here : await desk.rows.placeOf(row);
    if (at < 0) desk.refuse("This row is not shown: a filter leaves it out, or it is gone.");
    else this.moveTo({ row: at, col: Math.max(0, desk.cursor.col) });
  }

  move(rows: number, cols: number, isExtending: boolean): void {
    const { row, col } = this.desk.cursor;
    // From the first row up is the heads; a page stops at it.
    const up = row + rows;
    const to = rows < -1 && row >= 0 ? Math.max(0, up) : row < 0 && rows > 1 ? 0 : up;
    this.moveTo({ row: to, col: col + cols }, isExtending);
  }

  /** To the edge of what is filled, as far as it goes; rows that are not here are asked for. */
  async leap(rows: number, cols: number, isExtending: boolean): Promise<void> {
    const { row, col } = this.desk.cursor;
    if (cols !== 0) {
      const here = this.desk.rows.at(row);
      const isFilled = (at: number): boolean => (here?.cells[at]?.text ?? "") !== "";
      let at = col;
      const last = this.desk.shown.length - 1;
      const inside = (next: number): boolean => next >= 0 && next <= last;
      if (isWide(here)) at = cols < 0 ? 0 : last;
      else if (isFilled(at) && inside(at + cols) && isFilled(at + cols))
        while (inside(at + cols) && isFilled(at + cols)) at += cols;
      else {
        at += cols;
        while (inside(at) && !isFilled(at)) at += cols;
      }
      return this.moveTo({ row, col: at }, isExtending);
    }
    const to = await this.edge(row, col, rows);
    this.moveTo({ row: to, col }, isExtending);
  }

  private async edge(from: number, col: number, step: number): Promise<number> {
    const column = this.desk.shown[col];
    const { total } = this.desk.rows;
    if (column === undefined || from < 0) return step > 0 ? 0 : -1;
    let [fetched, first] = [[] as readonly PageRow[], 0];
    const isFilled = async (at: number): Promise<boolean> => {
      const here = this.desk.rows.at(at);
      if (here !== undefined) return (here.cells[isWide(here) ? 0 : col]?.text ?? "") !== "";
      if (at < first || at >= first + fetched.length) {
        const count = 1000;
        first = Math.max(0, step > 0 ? at : at - count + 1);
        fetched = await this.desk.rows.fetch(first, count, [column.id]);
      }
      return (fetched[at - first]?.cells[0]?.text ?? "") !== "";
    };
    const inside = (at: number): boolean => at >= 0 && at < total;
    let at = from;
    if (inside(at + step) && (await isFilled(at)) && (await isFilled(at + step))) {
      while (inside(at + step) && (await isFilled(at + step))) at += step;
      return at;
    }
    at += step;
    while (inside(at) && !(await isFilled(at))) at += step;
    return Math.max(0, Math.min(at, total - 1));
  }

  /** @returns false where there is no further cell: the focus goes on */
  tab(by: 1 | -1): boolean {
    const { row, col } = this.desk.cursor;
    const wide = isWide(this.desk.rows.at(row));
    const next = col + by;
    if (!wide && next >= 0 && next < this.desk.shown.length) this.moveTo({ row, col: next });
    else if (row < 0) return false;
    else if (row + by < 0 || row + by >= this.desk.rows.total) return false;
    else this.moveTo({ row: row + by, col: by > 0 ? 0 : this.desk.shown.length - 1 });
    return true;
  }

  escape(): void {
    const { cursor } = this.desk;
    this.desk.tip.hide();
    const found = this.desk.saidAt(cursor.row, cursor.col);
    if (found !== undefined && this.desk.refusals.delete(keyOf(found.row.id, found.column))) {
      this.desk.afterMove(true);
      return;
    }
    if (!cursor.isOne) {
      cursor.moveTo({ row: cursor.row, col: cursor.col });
      this.desk.afterMove(true);
    } else this.desk.bar.focus();
  }

  selectAll(): void {
    this.desk.cursor.select(
      { row: 0, col: 0 },
      { row: this.desk.rows.total - 1, col: this.desk.shown.length - 1 },
    );
    this.afterSelect();
  }

  selectRows(): void {
    const { top, bottom } = this.desk.cursor.box;
    this.desk.cursor.select({ row: top, col: this.desk.shown.length - 1 }, { row: bottom, col: 0 });
    this.afterSelect();
  }

  selectRow(row: number, isExtending: boolean): void {
    const from = isExtending ? Math.max(0, this.desk.cursor.anchorRow) : row;
    this.desk.cursor.select({ row: from, col: this.desk.shown.length - 1 }, { row, col: 0 });
    this.afterSelect();
  }

  selectColumns(): void {
    const { left, right } = this.desk.cursor.box;
    this.desk.cursor.select({ row: this.desk.rows.total - 1, col: left }, { row: 0, col: right });
    this.afterSelect();
  }

  pressHead(col: number, isExtending: boolean): void {
    const from = isExtending ? this.desk.cursor.anchorCol : col;
    this.desk.cursor.select({ row: Math.max(0, this.desk.rows.total - 1), col: from }, { row: 0, col });
    this.desk.table.show(-1, col);
    this.afterSelect();
  }

  private afterSelect(): void {
    this.desk.input.finish();
    this.desk.afterMove(true);
    this.desk.say(`${this.selectionWords} selected`);
  }

  get selectionWords(): string {
    const { top, bottom, left, right } = this.desk.cursor.box;
    const [rows, cols] = [bottom - top + 1, right - left + 1];
    return rows * cols === 1 ? "1 cell" : `${rows.toLocaleString("en")} × ${cols} cells`;
  }
}
