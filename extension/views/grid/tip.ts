import { h } from "../shared/dom.ts";
import { severitySign } from "../shared/icons.ts";
import type { Desk } from "./desk.ts";
import { isWide } from "./row.ts";

/** Beside a cell: what was found there, why it cannot be edited, what was refused. At the cursor and under the pointer. */
export class Tip {
  readonly element = h("div", { class: "tip", role: "tooltip", id: "tip", hidden: true });
  private readonly desk: Desk;
  private isHover = false;
  /** Why something was not done, until the cursor leaves the place. */
  private kept: { readonly words: string; readonly row: number; readonly col: number } | undefined;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  /** At the cursor, where there is something that must not be missed. @param words why something was not done */
  atCursor(words = ""): void {
    const { cursor, table } = this.desk;
    const { row, col } = cursor;
    this.isHover = false;
    if (words !== "") this.kept = { words, row, col };
    else if (this.kept?.row !== row || this.kept.col !== col) this.kept = undefined;
    const { kept } = this;
    const lines = kept === undefined ? this.grave(row, col) : [plainLine(kept.words)];
    this.show(table.cellAt(row, col), lines);
  }

  /** Whether it is told at a place why something was not done there. */
  isKeptAt(row: number, col: number): boolean {
    return !this.element.hidden && this.kept?.row === row && this.kept.col === col;
  }

  hover(row: number, col: number): void {
    const { cursor, table } = this.desk;
    if (row === cursor.row && col === cursor.col && !this.isHover && !this.element.hidden) return;
    const lines = [...this.grave(row, col), ...this.more(row, col)];
    if (lines.length === 0) {
      this.hideHover();
      return;
    }
    this.isHover = true;
    this.show(table.cellAt(row, col), lines);
  }

  hideHover(): void {
    if (!this.isHover) return;
    this.isHover = false;
    this.element.hidden = true;
  }

  hide(): void {
    this.isHover = false;
    this.kept = undefined;
    this.element.hidden = true;
  }

  private grave(row: number, col: number): HTMLElement[] {
    const found = this.desk.saidAt(row, col);
    if (found === undefined) return [];
    const refused = this.desk.refused(found.row.id, found.column);
    const marks = found.cell.marks ?? [];
    return [
      ...(refused === undefined ? [] : [plainLine(`Not written: ${refused.message}`)]),
      ...marks.map(({ severity, message, code }) => {
        const line = h("p", { class: severity }, severitySign(severity), ` ${message} `);
        line.append(h("small", {}, code));
        return line;
      }),
    ];
  }

  private more(row: number, col: number): HTMLElement[] {
    const found = this.desk.saidAt(row, col);
    if (found === undefined) return [];
    const { detail = "", fixed = "", text } = found.cell;
    const cell = this.desk.table.cellAt(row, col);
    const isCut = cell !== undefined && cell.scrollWidth > cell.clientWidth + 1;
    return [
      ...(isCut || isWide(found.row) ? [plainLine(text)] : []),
      ...(detail === "" ? [] : [plainLine(detail)]),
      ...(fixed === "" ? [] : [plainLine(`Not edited here: ${fixed}`)]),
    ];
  }

  private show(cell: HTMLElement | undefined, lines: readonly HTMLElement[]): void {
    const { element } = this;
    if (cell === undefined || lines.length === 0) {
      element.hidden = true;
      return;
    }
    element.replaceChildren(...lines);
    element.hidden = false;
    const box = cell.getBoundingClientRect();
    const { offsetWidth, offsetHeight } = element;
    const below = box.bottom + 4;
    element.style.left = `${Math.max(4, Math.min(box.left, window.innerWidth - offsetWidth - 4))}px`;
    element.style.top =
      below + offsetHeight < window.innerHeight
        ? `${below}px`
        : `${Math.max(2, box.top - offsetHeight - 4)}px`;
  }
}

const plainLine = (words: string): HTMLElement => h("p", {}, words);
