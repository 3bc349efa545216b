import { h } from "../shared/dom.ts";
import { Asking } from "./asking.ts";
import { Bar } from "./bar.ts";
import { CellInput } from "./cell-input.ts";
import { Changes } from "./changes.ts";
import { Charting } from "./charting.ts";
import { Chooser } from "./chooser.ts";
import { layoutKey, noLayout } from "./columns.ts";
import { Cursor } from "./cursor.ts";
import { Find } from "./find.ts";
import { Fixes } from "./fixes.ts";
import { Foot } from "./foot.ts";
import { Fresh } from "./fresh.ts";
import { Heads } from "./heads.ts";
import { Columns } from "./layout.ts";
import type { Face, GridColumn, GridView, Layout, Memory, PageCell, PageRow, ToHost } from "./messages.ts";
import { Moves } from "./moves.ts";
import { Offers } from "./offers.ts";
import { Order } from "./order.ts";
import { Progress } from "./progress.ts";
import { keyOf, type Pending } from "./refusals.ts";
import { Remembering } from "./remembering.ts";
import { isWide, type Refused } from "./row.ts";
import { Rows } from "./rows.ts";
import { Showing } from "./showing.ts";
import { Table, type TableOwner } from "./table.ts";
import { Tip } from "./tip.ts";
import { Told } from "./told.ts";

const noColumns: readonly GridColumn[] = [];

/** The grid: its state and its parts, which show rows, draw them, hear keys and mouse, and have things written. */
export class Desk implements TableOwner {
  readonly asking: Asking;
  readonly post: (message: ToHost) => void;
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
  readonly charting: Charting;
  readonly laying: Columns;
  readonly order: Order;
  readonly moves: Moves;
  readonly changes: Changes;
  readonly fixes: Fixes;
  readonly showing: Showing;
  readonly told: Told;
  readonly progress: Progress;
  readonly remembering: Remembering;
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

  constructor(
    root: HTMLElement,
    memory: Memory,
    post: (message: ToHost) => void,
    keep: (memory: Memory) => void,
  ) {
    this.root = root;
    this.post = post;
    this.asking = new Asking(post);
    this.showing = new Showing(this);
    this.told = new Told(this);
    this.progress = new Progress(this);
    this.remembering = new Remembering(this, memory, keep);
    this.rows = new Rows(this.asking, this.showing);
    this.table = new Table(this);
    this.heads = new Heads(this);
    this.input = new CellInput(this);
    this.tip = new Tip(this);
    this.foot = new Foot(this);
    this.find = new Find(this);
    this.fresh = new Fresh(this);
    this.chooser = new Chooser(this);
    this.charting = new Charting(this);
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
        this.told.noticeElement,
        this.chooser.element,
        h("div", { class: "cells" }, this.table.scroller, this.told.emptyElement),
        this.charting.element,
        this.fresh.element,
        this.progress.element,
        h("p", { id: "help", class: "unseen" }, help),
        this.tip.element,
        this.offers.element,
      ),
      this.foot.element,
      this.told.voice,
    );
    root.setAttribute("aria-busy", "true");
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

  /** The text is another: what is shown is asked for anew. */
  stale(): void {
    this.rows.stale();
    this.find.stale();
    this.charting.stale();
    this.changes.copiedAhead = undefined;
    this.table.soon();
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
    this.remembering.remember();
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

  say(words: string): void {
    this.told.say(words);
  }

  scrolled(): void {
    this.remembering.remember();
  }
}

const help =
  "Arrow keys move, Enter or F2 edits, Shift selects, Control Enter writes a new row, Control period shows fixes, Alt C draws a chart, Escape leaves the cells.";
