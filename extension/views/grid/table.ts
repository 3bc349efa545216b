import { h } from "../shared/dom.ts";
import { gutterWidth } from "./columns.ts";
import { RowElement, type RowLook } from "./row.ts";
import type { Rows } from "./rows.ts";

/** Rows that are drawn beyond those that are seen. */
const spare = 6;
/** Elements do not get higher in any browser; whoever has more rows than fit is told. */
const highest = 16_000_000;

export interface TableOwner extends RowLook {
  readonly rows: Rows;
  readonly cursorRow: number;
  readonly widths: readonly number[];
  scrolled(): void;
  rowGone(): void;
}

/** The scrolled part: heads that stay above, rows that are there only as far as they are seen. */
export class Table {
  readonly head = h("div", { role: "row", class: "head", "aria-rowindex": 1 });
  private readonly body = h("div", { role: "rowgroup", class: "body" });
  readonly grid = h(
    "div",
    { role: "grid", class: "grid", "aria-multiselectable": "true", "aria-describedby": "help" },
    h("div", { role: "rowgroup", class: "heads" }, this.head),
    this.body,
  );
  readonly scroller = h(
    "div",
    { class: "scroller", "data-vscode-context": JSON.stringify({ webviewSection: "cells" }) },
    this.grid,
  );
  private readonly owner: TableOwner;
  private readonly drawn = new Map<number, RowElement>();
  private readonly pool: RowElement[] = [];
  private frame = 0;
  private resting: ReturnType<typeof setTimeout> | undefined;
  rowHeight = 24;

  constructor(owner: TableOwner) {
    this.owner = owner;
    this.scroller.addEventListener(
      "scroll",
      () => {
        this.soon();
        clearTimeout(this.resting);
        this.resting = setTimeout(() => {
          this.putInOrder();
          owner.scrolled();
        }, 160);
      },
      { passive: true },
    );
    new ResizeObserver(() => this.soon()).observe(this.scroller);
  }

  /** Draws at the next frame. */
  soon(): void {
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.draw();
    });
  }

  /** Rows have the height of the font; what is above stays above. */
  measure(): void {
    const size = Number.parseFloat(getComputedStyle(this.grid).fontSize) || 13;
    const first = this.scroller.scrollTop / this.rowHeight;
    this.rowHeight = Math.round(size * 1.75);
    this.grid.style.setProperty("--row", `${this.rowHeight}px`);
    this.draw();
    this.scroller.scrollTop = first * this.rowHeight;
  }

  get seen(): { readonly first: number; readonly last: number } {
    const { scrollTop, clientHeight } = this.scroller;
    const first = Math.floor(scrollTop / this.rowHeight);
    const height = Math.max(0, clientHeight - this.head.offsetHeight);
    return { first, last: Math.max(first, Math.ceil((scrollTop + height) / this.rowHeight) - 1) };
  }

  /** Whole rows on one screen. */
  get page(): number {
    const height = this.scroller.clientHeight - this.head.offsetHeight;
    return Math.max(1, Math.floor(height / this.rowHeight) - 1);
  }

  draw(): void {
    const { owner } = this;
    const { rows } = owner;
    const { first, last } = this.seen;
    rows.need(first, last, () => this.soon());
    const height = `${Math.min(highest, rows.total * this.rowHeight)}px`;
    if (this.body.style.height !== height) this.body.style.height = height;
    const hadFocus = this.grid.contains(document.activeElement);
    this.follow();
    const wanted = new Set<number>();
    for (let row = Math.max(0, first - spare); row <= Math.min(rows.total - 1, last + spare); row++)
      wanted.add(row);
    if (owner.cursorRow >= 0 && owner.cursorRow < rows.total) wanted.add(owner.cursorRow);
    for (const [index, element] of this.drawn) {
      if (wanted.has(index)) continue;
      this.drawn.delete(index);
      this.pool.push(element);
    }
    for (const index of wanted) {
      let element = this.drawn.get(index);
      if (element === undefined) {
        element = this.pool.pop() ?? new RowElement();
        this.drawn.set(index, element);
      }
      if (!element.element.isConnected) this.body.append(element.element);
      element.draw(index, index * this.rowHeight, rows.at(index), owner);
    }
    for (const element of this.pool) element.element.remove();
    if (hadFocus && !this.grid.contains(document.activeElement)) this.focus();
  }

  /** Rows that were moved by an edit take their elements along, and with them the focus and an open input. */
  private follow(): void {
    const moved: [number, RowElement][] = [];
    for (const [index, element] of this.drawn) {
      const { rows } = this.owner;
      if (element.id === "" || rows.at(index)?.id === element.id) continue;
      const now = rows.indexOf(element.id);
      const isGone = now < 0 && rows.at(index) !== undefined;
      if (isGone && element.element.querySelector("input") !== null) this.owner.rowGone();
      if (now >= 0 && now !== index) {
        this.drawn.delete(index);
        moved.push([now, element]);
      }
    }
    for (const [now, element] of moved) {
      const other = this.drawn.get(now);
      if (other !== undefined) this.pool.push(other);
      this.drawn.set(now, element);
    }
  }

  /** Who reads without looking reads in the order of elements. The row with the focus stays where it is, the others are put around it. */
  private putInOrder(): void {
    const order = [...this.drawn].sort(([a], [b]) => a - b).map(([, { element }]) => element);
    const focused = order.findIndex((element) => element.contains(document.activeElement));
    const before = focused < 0 ? order : order.slice(0, focused);
    for (const element of before) {
      if (focused < 0) this.body.append(element);
      else this.body.insertBefore(element, order[focused]!);
    }
    if (focused >= 0) for (const element of order.slice(focused + 1)) this.body.append(element);
  }

  cellAt(row: number, col: number): HTMLElement | undefined {
    if (row < 0) return this.head.querySelector<HTMLElement>(`[data-col="${col}"]`) ?? undefined;
    return this.drawn.get(row)?.cellAt(col);
  }

  forget(row: number, col: number): void {
    this.drawn.get(row)?.forget(col);
  }

  /** Brings a place into view. */
  show(row: number, col: number): void {
    const { scroller, rowHeight, owner } = this;
    if (row >= 0) {
      const height = scroller.clientHeight - this.head.offsetHeight;
      const top = row * rowHeight;
      if (top < scroller.scrollTop) scroller.scrollTop = top;
      else if (top + rowHeight > scroller.scrollTop + height) scroller.scrollTop = top + rowHeight - height;
    }
    const frozen = owner.frozen.length;
    if (col < frozen) return;
    const { widths } = owner;
    const sum = (upTo: number): number =>
      widths.slice(0, upTo).reduce((total, width) => total + width, gutterWidth);
    const held = sum(frozen);
    const left = sum(col);
    if (left < scroller.scrollLeft + held) scroller.scrollLeft = left - held;
    else if (left + widths[col]! > scroller.scrollLeft + scroller.clientWidth)
      scroller.scrollLeft = Math.min(left - held, left + widths[col]! - scroller.clientWidth);
  }

  /** Puts the focus on the cell at the cursor, wherever that is. */
  focus(): void {
    const focused = this.grid.querySelector<HTMLElement>('[tabindex="0"]');
    focused?.focus({ preventScroll: true });
  }
}
