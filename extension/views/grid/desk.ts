import { h } from "../shared/dom.ts";
import { Asking, wordsOf } from "./asking.ts";
import { Bar } from "./bar.ts";
import { CellInput } from "./cell-input.ts";
import { Changes } from "./changes.ts";
import { Chooser } from "./chooser.ts";
import { isSameFace, layoutKey, noLayout } from "./columns.ts";
import { Cursor } from "./cursor.ts";
import { Find } from "./find.ts";
import { Fixes } from "./fixes.ts";
import { Foot } from "./foot.ts";
import { Fresh } from "./fresh.ts";
import { Heads } from "./heads.ts";
import { Columns } from "./layout.ts";
import {
  choicesShape,
  type Face,
  type GridColumn,
  type GridPage,
  type GridView,
  type Layout,
  type Memory,
  type PageCell,
  type PageRow,
  type Press,
  type ToHost,
} from "./messages.ts";
import { Moves } from "./moves.ts";
import { Offers } from "./offers.ts";
import { Order } from "./order.ts";
import { keyOf, type Pending } from "./refusals.ts";
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
  readonly laying: Columns;
  readonly order: Order;
  readonly moves: Moves;
  readonly changes: Changes;
  readonly fixes: Fixes;
  private readonly voice = h("div", { class: "unseen", role: "status", "aria-live": "polite" });
  private readonly notice = h("p", { class: "notice", role: "note", hidden: true });
  private readonly empty = h("div", { class: "empty", hidden: true });
  private readonly help = h(
    "p",
    { id: "help", class: "unseen" },
    "Arrow keys move, Enter or F2 edits, Shift selects, Control Enter writes a new entry, Control period shows fixes, Escape leaves the cells.",
  );
  readonly root: HTMLElement;
  uri = "";
  isReadOnly = false;
  face: Face = { is: "entries" };
  columns = noColumns;
  shown = noColumns;
  sort: { readonly column: string; readonly isDown: boolean }[] = [];
  filter: Record<string, string> = {};
  turn = 1;
  layouts: Record<string, Layout> = {};
  widths: readonly number[] = [];
  frozen: readonly number[] = [];
  zoom = 1;
  readonly written = new Map<string, Pending>();
  readonly refusals = new Map<string, Refused>();
  private memory: Memory;
  private line: number | undefined;
  private isBegun = false;
  private toRestore: Memory | undefined;
  /** A row of the file, from which a far selection was copied before. */
  copiedAhead: string | undefined;
  toTell = false;
  /** Another order: the cursor stays at the top, and follows no row there. */
  isReordered = false;
  private wantsFocus = true;
  busy = 0;

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
    this.laying = new Columns(this);
    this.order = new Order(this);
    this.moves = new Moves(this);
    this.changes = new Changes(this);
    this.fixes = new Fixes(this);
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
    this.laying.zoomTo(memory.zoom);
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

  came(page: GridPage, moved: number): void {
    const { table, cursor } = this;
    this.root.removeAttribute("aria-busy");
    const known = new Map(page.columns.map((column) => [column.id, column]));
    const shown = page.shown.flatMap((id) => known.get(id) ?? []);
    const isOther =
      JSON.stringify([shown, page.columns.length]) !== JSON.stringify([this.shown, this.columns.length]);
    this.columns = page.columns;
    if (isOther) {
      this.shown = shown;
      this.laying.layOut();
    }
    table.grid.setAttribute("aria-rowcount", String(page.total + 1));
    if (this.rows.isFresh)
      for (const [key, { isWritten }] of this.written) if (isWritten) this.written.delete(key);
    if (moved !== 0) {
      cursor.shift(moved);
      table.draw();
      table.scroller.scrollTop += moved * table.rowHeight;
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
        ? [h("button", { type: "button", onclick: () => this.order.clearFilters() }, "Clear filters")]
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

  afterMove(isFocused: boolean): void {
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

  pending(row: string, column: string): string | undefined {
    return this.written.get(keyOf(row, column))?.text;
  }

  refused(row: string, column: string): Refused | undefined {
    return this.refusals.get(keyOf(row, column));
  }

  /** Why something is not done, at the cell and for who listens. */
  refuse(words: string): void {
    this.tip.atCursor(words);
    this.say(words);
  }

  press(press: Press, column: string | undefined): void {
    if (column !== undefined && this.laying.isShown(column)) this.cursor.col = this.laying.columnAt(column);
    const own = this.shown[this.cursor.col];
    switch (press) {
      case "insert":
        this.fresh.open();
        return;
      case "delete":
        return void this.changes.deleteRows();
      case "down":
        return void this.changes.fillDown();
      case "series":
        return void this.changes.fillSeries();
      case "fix":
        return void this.fixes.showFixes();
      case "find":
        this.find.open(false);
        return;
      case "sortUp":
      case "sortDown":
        if (own !== undefined) this.order.sortBy(own.id, press === "sortDown", false);
        return;
      case "hide":
        if (own !== undefined) this.laying.showColumn(own.id, false);
        return;
      case "freeze":
        this.laying.freeze(this.layout.frozen === this.cursor.col + 1 ? 0 : this.cursor.col + 1);
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

  remember(): void {
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
