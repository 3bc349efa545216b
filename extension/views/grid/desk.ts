import { h } from "../shared/dom.ts";
import { Asking, wordsOf } from "./asking.ts";
import { Bar } from "./bar.ts";
import { CellInput, type Leave } from "./cell-input.ts";
import { Chooser } from "./chooser.ts";
import { gutterWidth, isSameFace, layoutKey, leastWidth, mostWidth, noLayout, widthOf } from "./columns.ts";
import { type Box, Cursor, type Place } from "./cursor.ts";
import { Find } from "./find.ts";
import { Foot } from "./foot.ts";
import { Fresh } from "./fresh.ts";
import { Heads } from "./heads.ts";
import {
  choicesShape,
  doneShape,
  type Face,
  fixesShape,
  type GridChange,
  type GridColumn,
  type GridPage,
  type GridView,
  type Layout,
  type Memory,
  type Outcome,
  outcomeShape,
  type PageCell,
  type PageRow,
  type Press,
  type RowRange,
  type ToHost,
  textShape,
} from "./messages.ts";
import { Offers } from "./offers.ts";
import { isWide, type Refused } from "./row.ts";
import { Rows, type RowsOwner } from "./rows.ts";
import { Table, type TableOwner } from "./table.ts";
import { Tip } from "./tip.ts";

export interface Hello {
  readonly uri: string;
  readonly file: string;
  readonly isReadOnly: boolean;
  readonly notice: string;
  readonly layouts: Readonly<Record<string, Layout>>;
  readonly line: number | null;
}

interface Pending {
  readonly text: string;
  isWritten: boolean;
}

const least = 0.6;
const most = 2;
const noColumns: readonly GridColumn[] = [];

/** The grid: what is shown, where the cursor is, and what is done. The parts draw it and hear keys and mouse. */
export class Desk implements TableOwner, RowsOwner {
  readonly asking: Asking;
  readonly post: (message: ToHost) => void;
  private readonly keep: (memory: Memory) => void;
  readonly rows: Rows;
  readonly table: Table;
  readonly heads: Heads;
  readonly cursor = new Cursor();
  readonly input: CellInput;
  readonly offers = new Offers();
  readonly tip: Tip;
  readonly foot: Foot;
  readonly bar: Bar;
  readonly find: Find;
  readonly fresh: Fresh;
  readonly chooser: Chooser;
  private readonly voice = h("div", { class: "unseen", role: "status", "aria-live": "polite" });
  private readonly notice = h("p", { class: "notice", role: "note", hidden: true });
  private readonly empty = h("div", { class: "empty", hidden: true });
  private readonly help = h(
    "p",
    { id: "help", class: "unseen" },
    "Arrow keys move, Enter or F2 edits, Shift selects, Control Enter writes a new entry, Control period shows fixes, Escape leaves the cells.",
  );
  private readonly root: HTMLElement;
  uri = "";
  isReadOnly = false;
  face: Face = { is: "entries" };
  columns = noColumns;
  shown = noColumns;
  sort: { readonly column: string; readonly isDown: boolean }[] = [];
  filter: Record<string, string> = {};
  private turn = 1;
  private layouts: Record<string, Layout> = {};
  widths: readonly number[] = [];
  frozen: readonly number[] = [];
  zoom = 1;
  private readonly written = new Map<string, Pending>();
  private readonly refusals = new Map<string, Refused>();
  private memory: Memory;
  private line: number | undefined;
  private isBegun = false;
  private toRestore: Memory | undefined;
  /** A row of the file, from which a far selection was copied before. */
  copiedAhead: string | undefined;
  private toTell = false;
  /** Another order: the cursor stays at the top, and follows no row there. */
  private isReordered = false;
  private wantsFocus = true;
  private busy = 0;

  constructor(
    root: HTMLElement,
    memory: Memory,
    post: (message: ToHost) => void,
    keep: (memory: Memory) => void,
  ) {
    this.root = root;
    this.memory = memory;
    this.post = post;
    this.keep = keep;
    this.asking = new Asking(post);
    this.rows = new Rows(this.asking, this);
    this.table = new Table(this);
    this.heads = new Heads(this);
    this.input = new CellInput(this);
    this.tip = new Tip(this);
    this.foot = new Foot(this);
    this.find = new Find(this);
    this.fresh = new Fresh(this);
    this.chooser = new Chooser(this);
    this.bar = new Bar(this);
    root.replaceChildren(
      this.bar.element,
      this.find.element,
      h(
        "main",
        {},
        this.notice,
        this.chooser.element,
        h("div", { class: "cells" }, this.table.scroller, this.empty),
        this.fresh.element,
        this.help,
        this.tip.element,
        this.offers.element,
      ),
      this.foot.element,
      this.voice,
    );
    root.setAttribute("aria-busy", "true");
  }

  // What is shown

  begin({ uri, file, isReadOnly, notice, layouts, line }: Hello): void {
    const { memory } = this;
    this.uri = uri;
    this.isReadOnly = isReadOnly;
    this.layouts = { ...layouts };
    this.notice.textContent = notice;
    this.notice.hidden = notice === "";
    this.table.grid.setAttribute("aria-label", `Cells of ${file}`);
    if (isReadOnly) this.table.grid.setAttribute("aria-readonly", "true");
    if (this.isBegun) return;
    this.isBegun = true;
    this.face = line === null && memory.face !== undefined ? memory.face : { is: "entries", path: uri };
    if (line !== null) this.line = line;
    else {
      this.sort = [...memory.sort];
      this.filter = { ...memory.filter };
      this.toRestore = memory;
      this.heads.showFilters(Object.keys(memory.filter).length > 0);
    }
    this.zoomTo(memory.zoom);
    void this.askChoices(line, line === null && memory.face !== undefined);
    this.table.draw();
  }

  get view(): GridView {
    const { columns } = this.layout;
    return {
      sort: this.sort,
      filter: this.filter,
      turn: this.turn,
      ...(columns === null ? {} : { columns }),
    };
  }

  get layout(): Layout {
    return this.layouts[layoutKey(this.face)] ?? noLayout;
  }

  /** Another face. */
  show(face: Face): void {
    if (isSameFace(face, this.face)) return;
    const isLike = layoutKey(face) === layoutKey(this.face);
    this.input.finish();
    this.offers.hide();
    // Both are about the columns of the face that is left.
    this.chooser.element.hidden = true;
    this.fresh.element.hidden = true;
    this.face = face;
    if (!isLike) {
      this.sort = [];
      this.filter = {};
      this.heads.showFilters(false);
    }
    this.cursor.moveTo({ row: 0, col: 0 });
    this.table.scroller.scrollTo(0, 0);
    this.rows.clear();
    this.toTell = true;
    this.find.stale();
    this.remember();
    this.bar.draw();
    this.table.draw();
  }

  goToLine(line: number): void {
    this.line = line;
    if (!(this.face.is === "entries" && this.face.path === this.uri))
      this.show({ is: "entries", path: this.uri });
    else {
      this.rows.stale();
      this.table.draw();
    }
  }

  takeLine(): number | undefined {
    const { line } = this;
    this.line = undefined;
    return line;
  }

  stale(): void {
    this.rows.stale();
    this.find.stale();
    this.copiedAhead = undefined;
    this.table.soon();
  }

  /** The row at the cursor keeps it, wherever an edit moves it. */
  get followed(): string | undefined {
    const isHere = !this.isReordered;
    this.isReordered = false;
    return isHere ? this.rows.at(this.cursor.row)?.id : undefined;
  }

  came(page: GridPage, followed: string | undefined): void {
    const { table, cursor } = this;
    this.root.removeAttribute("aria-busy");
    const known = new Map(page.columns.map((column) => [column.id, column]));
    const shown = page.shown.flatMap((id) => known.get(id) ?? []);
    const isOther =
      JSON.stringify([shown, page.columns.length]) !== JSON.stringify([this.shown, this.columns.length]);
    this.columns = page.columns;
    if (isOther) {
      this.shown = shown;
      this.layOut();
    }
    table.grid.setAttribute("aria-rowcount", String(page.total + 1));
    if (this.rows.isFresh)
      for (const [key, { isWritten }] of this.written) if (isWritten) this.written.delete(key);
    if (followed !== undefined && page.trackedAt >= 0 && cursor.row >= 0 && page.trackedAt !== cursor.row) {
      const by = page.trackedAt - cursor.row;
      cursor.shift(by);
      table.draw();
      table.scroller.scrollTop += by * table.rowHeight;
    }
    cursor.keepWithin(page.total, this.shown.length);
    if (page.placedAt >= 0) {
      cursor.moveTo({ row: page.placedAt, col: 0 });
      table.draw();
      table.show(page.placedAt, 0);
      this.takeFocus();
    } else if (this.toRestore !== undefined) this.restore(this.toRestore);
    this.toRestore = undefined;
    this.tellCount(page);
    this.showEmpty(page);
    this.afterMove(false);
    if (this.wantsFocus) {
      this.wantsFocus = false;
      this.takeFocus();
    }
  }

  failed(error: unknown): void {
    this.root.removeAttribute("aria-busy");
    this.bar.tell("");
    this.empty.hidden = false;
    this.empty.replaceChildren(
      h(
        "div",
        { role: "alert" },
        h("p", {}, wordsOf(error)),
        h("button", { type: "button", onclick: () => this.stale() }, "Try again"),
      ),
    );
  }

  private restore({ row, column, toRow, toColumn, scroll, scrollLeft }: Memory): void {
    const { table, cursor } = this;
    table.draw();
    table.scroller.scrollTop = scroll;
    table.scroller.scrollLeft = scrollLeft;
    const col = (id: string): number =>
      Math.max(
        0,
        this.shown.findIndex((each) => each.id === id),
      );
    cursor.select({ row: toRow, col: col(toColumn) }, { row, col: col(column) });
    cursor.keepWithin(this.rows.total, this.shown.length);
  }

  private tellCount({ total, problem }: GridPage): void {
    const filters = Object.values(this.filter).filter((each) => each !== "").length;
    const words = `${total.toLocaleString("en")} rows${filters > 0 ? `, ${filters === 1 ? "a filter" : `${filters} filters`}` : ""}`;
    const limit =
      total * this.table.rowHeight > 16_000_000 ? "; more than can be scrolled, filter or sort" : "";
    this.bar.tell(problem === "" ? words + limit : `${words}; ${problem}`);
    if (this.toTell) this.say(problem === "" ? words : problem);
    this.toTell = false;
  }

  private showEmpty({ total }: GridPage): void {
    this.empty.hidden = total > 0;
    if (total > 0) return;
    const { face } = this;
    const isFiltered = Object.values(this.filter).some((each) => each !== "");
    const words = isFiltered
      ? "No row is what the filters ask for."
      : face.is === "entries"
        ? "No entry here yet. Ctrl+Enter writes one; definitions are shown by the choice at the top left."
        : face.is === "rounds"
          ? "Nothing was tested or counted here. Rounds are entries like: dam test nitrate 18"
          : "Nothing of this sort is defined. Definitions are written in the text.";
    this.empty.replaceChildren(
      h("p", {}, words),
      ...(isFiltered
        ? [h("button", { type: "button", onclick: () => this.clearFilters() }, "Clear filters")]
        : []),
    );
  }

  /** @param line where to begin @param isChosen the face is one that was chosen before */
  private async askChoices(line: number | null, isChosen: boolean): Promise<void> {
    try {
      const choices = await this.asking.ask({ is: "choices" }, choicesShape);
      this.bar.take(choices);
      if (isChosen || !choices.isDefining || choices.first === null) return;
      // A file of nothing but definitions has no entries to show.
      if (line !== null) this.line = line;
      this.show({ is: "definitions", of: choices.first });
    } catch (error) {
      this.bar.tell(wordsOf(error));
    }
  }

  // Columns

  private layOut(): void {
    const { table, layout, shown } = this;
    this.widths = shown.map((column) => widthOf(column, layout));
    const held = Math.min(layout.frozen, shown.length);
    this.frozen = this.widths
      .slice(0, held)
      .map((_, at) => this.widths.slice(0, at).reduce((sum, each) => sum + each, gutterWidth));
    const total = this.widths.reduce((sum, each) => sum + each, gutterWidth);
    table.grid.style.setProperty(
      "--columns",
      [gutterWidth, ...this.widths].map((each) => `${each}px`).join(" "),
    );
    table.grid.style.width = `${total}px`;
    table.grid.setAttribute("aria-colcount", String(shown.length + 1));
    this.heads.draw();
    table.soon();
  }

  private lay(change: Partial<Layout>, isKept = true): void {
    const key = layoutKey(this.face);
    const layout = { ...this.layout, ...change };
    this.layouts[key] = layout;
    if (isKept) this.post({ say: "layout", key, layout });
  }

  setWidth(id: string, width: number, isKept: boolean): void {
    this.lay({ widths: { ...this.layout.widths, [id]: width } }, isKept);
    this.layOut();
  }

  widen(by: number): void {
    const column = this.shown[this.cursor.col];
    if (column === undefined) return;
    const width = Math.max(leastWidth, Math.min(mostWidth, widthOf(column, this.layout) + by));
    this.setWidth(column.id, width, true);
    this.say(`${column.title}: ${width} wide`);
    this.takeFocus();
  }

  isShown(id: string): boolean {
    return this.shown.some((column) => column.id === id);
  }

  /** @returns false for the last one, which stays */
  showColumn(id: string, isShown: boolean): boolean {
    const columns = this.columns
      .filter((column) => (column.id === id ? isShown : this.isShown(column.id)))
      .map((each) => each.id);
    if (columns.length === 0) return false;
    this.lay({ columns });
    this.rows.stale();
    this.table.draw();
    return true;
  }

  freeze(count: number): void {
    this.lay({ frozen: Math.max(0, Math.min(count, this.shown.length - 1)) });
    this.layOut();
    this.table.draw();
  }

  resetLayout(): void {
    this.lay({ ...noLayout });
    this.rows.stale();
    this.layOut();
    this.zoomTo(1);
  }

  zoomBy(by: number): void {
    this.zoomTo(this.zoom + by);
  }

  zoomTo(zoom: number): void {
    this.zoom = Math.round(10 * Math.max(least, Math.min(most, zoom))) / 10;
    this.root.style.setProperty("--zoom", String(this.zoom));
    this.table.measure();
    this.remember();
  }

  columnAt(id: string): number {
    return Math.max(
      0,
      this.shown.findIndex((column) => column.id === id),
    );
  }

  // Sort and filter

  sortBy(column: string, isDown: boolean | undefined, isAdded: boolean): void {
    const known = this.sort.find((each) => each.column === column);
    const others = isAdded ? this.sort.filter((each) => each.column !== column) : [];
    const next = isDown ?? (known === undefined ? false : known.isDown ? undefined : true);
    this.sort = next === undefined ? others : [...others, { column, isDown: next }];
    this.reorder();
  }

  setFilter(column: string, wanted: string): void {
    const { [column]: _, ...others } = this.filter;
    this.filter = wanted.trim() === "" ? others : { ...others, [column]: wanted };
    this.reorder();
  }

  clearFilters(): void {
    this.filter = {};
    this.reorder();
    this.takeFocus();
  }

  toggleFilters(): void {
    this.heads.showFilters(!this.heads.areFiltersShown);
    if (!this.heads.areFiltersShown && Object.keys(this.filter).length > 0) this.clearFilters();
    this.bar.draw();
    this.table.soon();
    if (this.heads.areFiltersShown) this.editFilter();
  }

  editFilter(typed?: string): void {
    const input = this.heads.filterInput(this.cursor.col);
    this.bar.draw();
    this.table.soon();
    if (input === undefined) return;
    this.table.show(-1, this.cursor.col);
    input.focus();
    input.select();
    if (typed === undefined) return;
    input.value = typed;
    input.dispatchEvent(new Event("input"));
  }

  private reorder(): void {
    this.turn++;
    this.toTell = true;
    if (this.cursor.row >= 0) this.cursor.moveTo({ row: 0, col: this.cursor.col });
    this.isReordered = true;
    this.rows.stale();
    this.find.stale();
    this.table.scroller.scrollTop = 0;
    this.heads.draw();
    this.bar.draw();
    this.remember();
    this.table.draw();
  }

  // Cursor and selection

  get cursorRow(): number {
    return this.cursor.row;
  }

  /** The row that is typed in is gone. */
  rowGone(): void {
    this.input.finish();
  }

  isSelected(row: number, col: number): boolean {
    const here = this.rows.at(row);
    if (!isWide(here)) return this.cursor.has(row, col);
    const { top, bottom } = this.cursor.box;
    return row >= top && row <= bottom;
  }

  isCursor(row: number, col: number): boolean {
    return row === this.cursor.row && (col === this.cursor.col || isWide(this.rows.at(row)));
  }

  moveTo(place: Place, isExtending = false, isShown = true): void {
    const rows = this.rows.total;
    const row = place.row < 0 && !isExtending ? -1 : Math.max(0, Math.min(place.row, rows - 1));
    const col = Math.max(0, Math.min(place.col, this.shown.length - 1));
    this.input.finish();
    this.cursor.moveTo({ row: rows === 0 ? -1 : row, col }, isExtending);
    if (isShown) this.table.show(this.cursor.row, col);
    this.afterMove(isShown || this.table.grid.contains(document.activeElement));
  }

  move(rows: number, cols: number, isExtending: boolean): void {
    const { row, col } = this.cursor;
    // From the first row up is the heads; a page stops at it.
    const up = row + rows;
    const to = rows < -1 && row >= 0 ? Math.max(0, up) : row < 0 && rows > 1 ? 0 : up;
    this.moveTo({ row: to, col: col + cols }, isExtending);
  }

  private afterMove(isFocused: boolean): void {
    this.table.draw();
    this.heads.mark();
    this.foot.draw();
    this.tip.atCursor();
    const { row, col } = this.cursor;
    const found = this.saidAt(row, col);
    const cell = this.table.cellAt(row, col);
    if (isFocused) {
      cell?.setAttribute("aria-describedby", "about");
      this.takeFocus();
    }
    this.post({
      say: "at",
      face: this.face,
      cell: found === undefined ? null : { row: found.row.id, column: found.column },
    });
    this.remember();
  }

  takeFocus(): void {
    if (this.input.isOpen) return;
    this.table.focus();
  }

  /** To the edge of what is filled, as far as it goes; rows that are not here are asked for. */
  async leap(rows: number, cols: number, isExtending: boolean): Promise<void> {
    const { row, col } = this.cursor;
    if (cols !== 0) {
      const here = this.rows.at(row);
      const isFilled = (at: number): boolean => (here?.cells[at]?.text ?? "") !== "";
      let at = col;
      const last = this.shown.length - 1;
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
    const column = this.shown[col];
    const { total } = this.rows;
    if (column === undefined || from < 0) return step > 0 ? 0 : -1;
    let [fetched, first] = [[] as readonly PageRow[], 0];
    const isFilled = async (at: number): Promise<boolean> => {
      const here = this.rows.at(at);
      if (here !== undefined) return (here.cells[isWide(here) ? 0 : col]?.text ?? "") !== "";
      if (at < first || at >= first + fetched.length) {
        const count = 1000;
        first = Math.max(0, step > 0 ? at : at - count + 1);
        fetched = await this.rows.fetch(first, count, [column.id]);
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
    const { row, col } = this.cursor;
    const wide = isWide(this.rows.at(row));
    const next = col + by;
    if (!wide && next >= 0 && next < this.shown.length) this.moveTo({ row, col: next });
    else if (row < 0) return false;
    else if (row + by < 0 || row + by >= this.rows.total) return false;
    else this.moveTo({ row: row + by, col: by > 0 ? 0 : this.shown.length - 1 });
    return true;
  }

  escape(): void {
    const { cursor } = this;
    this.tip.hide();
    const found = this.saidAt(cursor.row, cursor.col);
    if (found !== undefined && this.refusals.delete(keyOf(found.row.id, found.column))) {
      this.afterMove(true);
      return;
    }
    if (!cursor.isOne) {
      cursor.moveTo({ row: cursor.row, col: cursor.col });
      this.afterMove(true);
    } else this.bar.focus();
  }

  selectAll(): void {
    this.cursor.select({ row: 0, col: 0 }, { row: this.rows.total - 1, col: this.shown.length - 1 });
    this.afterSelect();
  }

  selectRows(): void {
    const { top, bottom } = this.cursor.box;
    this.cursor.select({ row: top, col: this.shown.length - 1 }, { row: bottom, col: 0 });
    this.afterSelect();
  }

  selectRow(row: number, isExtending: boolean): void {
    const from = isExtending ? Math.max(0, this.cursor.anchorRow) : row;
    this.cursor.select({ row: from, col: this.shown.length - 1 }, { row, col: 0 });
    this.afterSelect();
  }

  selectColumns(): void {
    const { left, right } = this.cursor.box;
    this.cursor.select({ row: this.rows.total - 1, col: left }, { row: 0, col: right });
    this.afterSelect();
  }

  pressHead(col: number, isExtending: boolean): void {
    const from = isExtending ? this.cursor.anchorCol : col;
    this.cursor.select({ row: Math.max(0, this.rows.total - 1), col: from }, { row: 0, col });
    this.table.show(-1, col);
    this.afterSelect();
  }

  private afterSelect(): void {
    this.input.finish();
    this.afterMove(true);
    this.say(`${this.selectionWords} selected`);
  }

  get selectionWords(): string {
    const { top, bottom, left, right } = this.cursor.box;
    const [rows, cols] = [bottom - top + 1, right - left + 1];
    return rows * cols === 1 ? "1 cell" : `${rows.toLocaleString("en")} × ${cols} cells`;
  }

  /** What stands at a place; undefined where nothing is, or is not here yet. */
  saidAt(
    row: number,
    col: number,
  ): { readonly row: PageRow; readonly column: string; readonly cell: PageCell } | undefined {
    const here = row < 0 ? undefined : this.rows.at(row);
    const column = this.shown[col];
    if (here === undefined || column === undefined) return undefined;
    const cell = here.cells[isWide(here) ? 0 : col];
    return cell === undefined ? undefined : { row: here, column: isWide(here) ? "text" : column.id, cell };
  }

  get tankAtCursor(): string | undefined {
    const here = this.rows.at(this.cursor.row);
    const at = this.shown.findIndex(
      ({ id }) => id === "tank" || (id === "name" && this.face.is === "definitions"),
    );
    const text = here === undefined || at < 0 || isWide(here) ? "" : (here.cells[at]?.text ?? "");
    return text === "" || text.startsWith("@") ? undefined : text;
  }

  // Editing

  pending(row: string, column: string): string | undefined {
    return this.written.get(keyOf(row, column))?.text;
  }

  refused(row: string, column: string): Refused | undefined {
    return this.refusals.get(keyOf(row, column));
  }

  edit(typed?: string): void {
    const { row, col } = this.cursor;
    const found = this.saidAt(row, col);
    const cell = this.table.cellAt(row, col);
    if (found === undefined || cell === undefined) return;
    const { cell: said, column } = found;
    if (this.isReadOnly) {
      this.refuse("This file cannot be written.");
      return;
    }
    if (said.fixed) {
      this.refuse(said.fixed);
      return;
    }
    const own = this.shown[col]!;
    if (own.isComputed && column !== "text") {
      this.refuse("This column is reckoned from the log.");
      return;
    }
    this.table.show(row, col);
    this.tip.hide();
    this.tip.atCursor();
    const was = this.pending(found.row.id, column) ?? said.text;
    const text = this.refused(found.row.id, column)?.text ?? was;
    const title = column === "text" ? "Line" : own.title;
    const isFigure = own.isFigure && column !== "text";
    this.input.start(cell, { row: found.row.id, column, title, text, was, isFigure }, typed);
  }

  /** @param text what was typed; undefined where it was given up */
  afterInput(
    about: { readonly row: string; readonly column: string; readonly was: string },
    text: string | undefined,
    leave: Leave,
    hadFocus: boolean,
  ): void {
    const { row, column, was } = about;
    const index = this.rows.indexOf(row);
    if (index >= 0) this.table.forget(index, this.columnAt(column));
    const key = keyOf(row, column);
    if (text === undefined) this.refusals.delete(key);
    else if (text !== was || this.refusals.has(key)) void this.write(row, column, text, was);
    this.table.draw();
    if (!hadFocus && leave === "stay") return;
    const steps: Record<Leave, readonly [number, number]> = {
      stay: [0, 0],
      down: [1, 0],
      up: [-1, 0],
      right: [0, 1],
      left: [0, -1],
    };
    const [rows, cols] = steps[leave];
    if (cols !== 0 && this.tab(cols as 1 | -1)) return;
    this.moveTo({ row: Math.max(0, this.cursor.row + rows), col: this.cursor.col });
  }

  private async write(row: string, column: string, text: string, was: string): Promise<void> {
    const key = keyOf(row, column);
    this.refusals.delete(key);
    const pending: Pending = { text, isWritten: false };
    this.written.set(key, pending);
    const outcome = await this.changed({ is: "cells", cells: [{ row, column, text, was }] });
    pending.isWritten = true;
    if (outcome.is === "written") {
      this.stale();
      return;
    }
    if (this.written.get(key) === pending) this.written.delete(key);
    this.refusals.set(key, { text, message: outcome.message });
    const index = this.rows.indexOf(row);
    if (index >= 0 && !this.input.isOpen) {
      this.cursor.moveTo({ row: index, col: column === "text" ? this.cursor.col : this.columnAt(column) });
      this.table.show(index, this.cursor.col);
      this.afterMove(true);
    } else this.table.draw();
    // Of a row that is gone there is no cell that keeps it.
    const typed = index < 0 ? ` You typed: ${text}` : "";
    if (index < 0) this.tip.atCursor(`Not written: ${outcome.message}${typed}`);
    this.say(`Not written: ${outcome.message}${typed}`);
  }

  /** Why something is not done, at the cell and for who listens. */
  refuse(words: string): void {
    this.tip.atCursor(words);
    this.say(words);
  }

  /** Has a change written. Whoever waits long is told for what. */
  async changed(change: GridChange): Promise<Outcome> {
    const slow = setTimeout(() => this.bar.tell("Writing ..."), 250);
    this.busy++;
    this.root.setAttribute("aria-busy", "true");
    try {
      return await this.asking.ask({ is: "change", face: this.face, change }, outcomeShape);
    } catch (error) {
      return { is: "refused", message: wordsOf(error) };
    } finally {
      clearTimeout(slow);
      if (--this.busy === 0) this.root.removeAttribute("aria-busy");
      this.stale();
    }
  }

  /** @param what was changed, to be said; nothing is where it is empty @returns whether it was written */
  async change(change: GridChange, what: string): Promise<boolean> {
    const outcome = await this.changed(change);
    if (outcome.is === "refused") {
      const { at } = outcome;
      const index = at === undefined ? -1 : this.rows.indexOf(at.row);
      if (at !== undefined && index >= 0) {
        this.cursor.moveTo({ row: index, col: this.columnAt(at.column) });
        this.table.show(index, this.cursor.col);
        this.afterMove(true);
      }
      this.refuse(`Nothing was written: ${outcome.message}`);
      return false;
    }
    const files = outcome.files > 1 ? ` in ${outcome.files} files` : "";
    if (what !== "") this.say(`${what} written${files}`);
    return true;
  }

  /** A stretch of rows by what they are called. */
  async rangeOf({ top, bottom, left, right }: Box): Promise<RowRange> {
    const idAt = async (at: number): Promise<string> =>
      this.rows.at(at)?.id ?? (await this.rows.fetch(at, 1, []))[0]?.id ?? "";
    return {
      view: { sort: this.sort, filter: this.filter, turn: this.turn },
      from: top,
      count: bottom - top + 1,
      first: await idAt(top),
      last: await idAt(bottom),
      columns: this.shown.slice(left, right + 1).map(({ id }) => id),
    };
  }

  /** Far selections are copied before they are asked for: the clipboard does not wait. */
  async readAhead(over: RowRange): Promise<void> {
    const { top, bottom } = this.cursor.box;
    this.copiedAhead = undefined;
    if (this.rows.has(top, bottom)) return;
    this.copiedAhead = await this.asking.ask({ is: "copy", face: this.face, over }, textShape);
  }

  private async over(
    act: (over: RowRange) => GridChange,
    what: string,
    box = this.cursor.box,
  ): Promise<boolean> {
    if (this.isReadOnly) {
      this.refuse("This file cannot be written.");
      return false;
    }
    if (box.top < 0 || this.rows.total === 0) return false;
    return this.change(act(await this.rangeOf(box)), what);
  }

  async clear(): Promise<void> {
    await this.over((over) => ({ is: "clear", over }), `${this.selectionWords} emptied:`);
  }

  async deleteRows(): Promise<void> {
    const { top, bottom } = this.cursor.box;
    const count = bottom - top + 1;
    await this.over(
      (over) => ({ is: "delete", over }),
      `${count === 1 ? "1 row" : `${count} rows`} deleted:`,
    );
  }

  async fillDown(): Promise<void> {
    const { box } = this.cursor;
    // On one row what stands above it.
    const from = box.top === box.bottom ? { ...box, top: Math.max(0, box.top - 1) } : box;
    if (from.top === from.bottom) return;
    await this.over((over) => ({ is: "down", over }), `${from.bottom - from.top} rows filled:`, from);
  }

  async fillSeries(): Promise<void> {
    const { top, bottom, left } = this.cursor.box;
    if (top === bottom)
      return this.refuse("A series begins in the first cells of a selection and goes on in those below.");
    const seeds = this.rows.at(top + 1)?.cells[left]?.text === "" ? 1 : Math.min(2, bottom - top);
    await this.over((over) => ({ is: "series", over, seeds }), `${bottom - top + 1 - seeds} rows filled:`);
  }

  async paste(cells: readonly (readonly string[])[]): Promise<void> {
    const { top, bottom, left, right } = this.cursor.box;
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
      bottom: Math.min(this.rows.total - 1, top + made.length - 1),
      left,
      right: Math.min(this.shown.length - 1, left + width - 1),
    };
    const written = await this.over(
      (over) => ({ is: "paste", over, cells: made.map((row) => [...row]) }),
      `${made.length.toLocaleString("en")} × ${width} cells`,
      box,
    );
    if (!written) return;
    this.cursor.select({ row: box.bottom, col: box.right }, { row: box.top, col: box.left });
    this.afterMove(true);
  }

  async showFixes(): Promise<void> {
    const { row, col } = this.cursor;
    const found = this.saidAt(row, col);
    const cell = this.table.cellAt(row, col);
    if (found === undefined || cell === undefined) return;
    if (this.isReadOnly) return this.refuse("This file cannot be written.");
    try {
      const fixes = await this.asking.ask(
        { is: "fixes", face: this.face, cell: { row: found.row.id, column: found.column } },
        fixesShape,
      );
      if (fixes.length === 0) return this.refuse("There is no fix here.");
      this.tip.hide();
      this.offers.show(
        cell,
        fixes.map((label) => ({ label, detail: "" })),
        (at) => void this.fix(at),
        0,
      );
      this.say(`${fixes.length === 1 ? "1 fix" : `${fixes.length} fixes`}: ${fixes[0]}`);
    } catch (error) {
      this.refuse(wordsOf(error));
    }
  }

  /** Keys of the list of fixes, while the focus stays on the cell. @returns whether the key was the list's */
  pressOffers(event: KeyboardEvent): boolean {
    const { key } = event;
    if (key === "ArrowDown" || key === "ArrowUp") this.offers.move(key === "ArrowDown" ? 1 : -1);
    else if (key === "Enter" || key === "Tab") this.offers.accept();
    else {
      this.offers.hide();
      if (key !== "Escape") return false;
    }
    event.preventDefault();
    event.stopPropagation();
    return true;
  }

  private async fix(number: number): Promise<void> {
    try {
      const isDone = await this.asking.ask({ is: "fix", number }, doneShape);
      this.takeFocus();
      this.say(isDone ? "Fixed" : "This could not be fixed");
      this.stale();
    } catch (error) {
      this.refuse(wordsOf(error));
    }
  }

  press(press: Press, column: string | undefined): void {
    if (column !== undefined && this.isShown(column)) this.cursor.col = this.columnAt(column);
    const own = this.shown[this.cursor.col];
    switch (press) {
      case "insert":
        this.fresh.open();
        return;
      case "delete":
        return void this.deleteRows();
      case "down":
        return void this.fillDown();
      case "series":
        return void this.fillSeries();
      case "fix":
        return void this.showFixes();
      case "find":
        this.find.open(false);
        return;
      case "sortUp":
      case "sortDown":
        if (own !== undefined) this.sortBy(own.id, press === "sortDown", false);
        return;
      case "hide":
        if (own !== undefined) this.showColumn(own.id, false);
        return;
      case "freeze":
        this.freeze(this.layout.frozen === this.cursor.col + 1 ? 0 : this.cursor.col + 1);
        return;
    }
  }

  /** Said once to those who listen. */
  say(words: string): void {
    this.voice.textContent = "";
    this.voice.textContent = words;
  }

  scrolled(): void {
    this.remember();
  }

  private remember(): void {
    if (!this.isBegun) return;
    const { scroller } = this.table;
    const { row, col, anchorRow, anchorCol } = this.cursor;
    // What is to come back has not come yet.
    if (this.toRestore !== undefined || this.shown.length === 0) return;
    this.memory = {
      face: this.face,
      row: Math.max(0, row),
      column: this.shown[col]?.id ?? "",
      toRow: Math.max(0, anchorRow),
      toColumn: this.shown[anchorCol]?.id ?? "",
      scroll: scroller.scrollTop,
      scrollLeft: scroller.scrollLeft,
      sort: this.sort,
      filter: this.filter,
      zoom: this.zoom,
    };
    this.keep(this.memory);
  }
}

const keyOf = (row: string, column: string): string => `${row} ${column}`;
