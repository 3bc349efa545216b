import { h } from "../shared/dom.ts";
import { wordsOf } from "./asking.ts";
import type { Desk } from "./desk.ts";
import { foundShape, type GridFound } from "./messages.ts";

/** Find and replace over all rows: the editor's own finding would see only those that are drawn. */
export class Find {
  private readonly input = h("input", {
    type: "text",
    "aria-label": "Find",
    placeholder: "Find",
    spellcheck: "false",
  });
  private readonly by = h("input", {
    type: "text",
    "aria-label": "Replace by",
    placeholder: "Replace by",
    spellcheck: "false",
  });
  private readonly isCaseSensitive = h("input", { type: "checkbox", id: "case" });
  private readonly told = h("span", { class: "count", role: "status" });
  private readonly replacing: HTMLElement;
  readonly element: HTMLElement;
  private readonly desk: Desk;
  private found: GridFound = { matches: [], total: 0 };
  private resting: ReturnType<typeof setTimeout> | undefined;
  private turn = 0;
  private isOld = true;

  constructor(desk: Desk) {
    this.desk = desk;
    const button = (words: string, title: string, press: () => void): HTMLButtonElement =>
      h("button", { type: "button", title, onclick: press }, words);
    this.replacing = h(
      "span",
      { class: "replacing" },
      this.by,
      button("Replace", "Replaces in this cell and goes to the next", () => void this.replace()),
      button("Replace all", "One step, that one undo takes back", () => void this.replaceAll()),
    );
    this.element = h(
      "search",
      { class: "find", hidden: true, "aria-label": "Find in all rows" },
      this.input,
      button("Previous", "Shift+Enter, Shift+F3", () => void this.next(-1)),
      button("Next", "Enter, F3", () => void this.next(1)),
      h("label", { for: "case", class: "check" }, this.isCaseSensitive, "Match case"),
      this.replacing,
      button("Close", "Escape", () => this.close()),
      this.told,
    );
    this.input.addEventListener("input", () => this.soon());
    this.isCaseSensitive.addEventListener("change", () => this.soon());
    this.element.addEventListener("keydown", (event) => {
      const { key, shiftKey, ctrlKey, metaKey } = event;
      if (key === "Escape") this.close();
      else if (key === "Enter" && event.target === this.by) void this.replace();
      else if (key === "F3" || (key === "Enter" && event.target === this.input))
        void this.next(shiftKey ? -1 : 1);
      else {
        // The undo of an input is its own.
        if (
          event.target instanceof HTMLInputElement &&
          !(ctrlKey && /^[sSpP]$/.test(key)) &&
          (ctrlKey || metaKey || key.length === 1)
        )
          event.stopPropagation();
        return;
      }
      event.preventDefault();
      event.stopPropagation();
    });
  }

  open(isReplacing: boolean): void {
    this.element.hidden = false;
    if (isReplacing) this.replacing.hidden = false;
    if (this.desk.isReadOnly) this.replacing.hidden = true;
    const { row, col, isOne } = this.desk.cursor;
    const text = isOne ? this.desk.saidAt(row, col)?.cell.text : undefined;
    if (this.input.value === "" && text !== undefined && text.length < 60) this.input.value = text;
    this.input.focus();
    this.input.select();
    this.soon();
    this.desk.table.soon();
  }

  close(): void {
    this.element.hidden = true;
    this.turn++;
    this.desk.table.soon();
    this.desk.takeFocus();
  }

  /** The text is another: what was found is looked for again when it is asked for. */
  stale(): void {
    this.isOld = true;
  }

  private soon(): void {
    this.isOld = true;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.look(), 180);
  }

  private async look(): Promise<void> {
    clearTimeout(this.resting);
    const turn = ++this.turn;
    const text = this.input.value;
    if (text === "") {
      this.found = { matches: [], total: 0 };
      this.told.textContent = "";
      return;
    }
    try {
      const { desk } = this;
      const found = await desk.asking.ask(
        { is: "find", face: desk.face, view: desk.view, text, isCaseSensitive: this.isCaseSensitive.checked },
        foundShape,
      );
      if (turn !== this.turn) return;
      this.found = found;
      this.isOld = false;
      this.tell();
    } catch (error) {
      this.told.textContent = wordsOf(error);
    }
  }

  private tell(at = -1): void {
    const { matches, total } = this.found;
    const most = total > matches.length ? `, the first ${matches.length} are gone through` : "";
    this.told.textContent =
      total === 0 ? "Nothing found" : at < 0 ? `${total} found${most}` : `${at + 1} of ${total}${most}`;
  }

  /** The next match behind the cursor, round the end. */
  async next(by: 1 | -1): Promise<void> {
    if (this.element.hidden && this.input.value === "") return this.open(false);
    if (this.isOld) await this.look();
    const { desk } = this;
    const { matches } = this.found;
    if (matches.length === 0) return this.tell();
    const { row, col } = desk.cursor;
    const order = matches.map(({ at, column }) => at * 1000 + desk.laying.columnAt(column));
    const here = row * 1000 + col;
    const behind =
      by > 0 ? order.findIndex((each) => each > here) : order.findLastIndex((each) => each < here);
    const at = behind >= 0 ? behind : by > 0 ? 0 : matches.length - 1;
    const match = matches[at]!;
    desk.moves.moveTo({ row: match.at, col: desk.laying.columnAt(match.column) }, false, false);
    desk.table.show(match.at, desk.laying.columnAt(match.column));
    this.tell(at);
    if (this.element.hidden) desk.takeFocus();
  }

  private replacedIn(text: string): string {
    const wanted = this.input.value.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return text.replace(new RegExp(wanted, this.isCaseSensitive.checked ? "g" : "gi"), () => this.by.value);
  }

  private async replace(): Promise<void> {
    if (this.isOld) await this.look();
    const { desk } = this;
    const { row, col } = desk.cursor;
    const match = this.found.matches.find(
      ({ at, column }) => at === row && desk.laying.columnAt(column) === col,
    );
    if (match === undefined) return this.next(1);
    if (match.isFixed) {
      this.told.textContent = "This cell cannot be edited here";
      return this.next(1);
    }
    const outcome = await desk.changes.change(
      {
        is: "cells",
        cells: [{ row: match.row, column: match.column, text: this.replacedIn(match.text), was: match.text }],
      },
      "",
    );
    if (outcome) await this.next(1);
  }

  private async replaceAll(): Promise<void> {
    await this.look();
    const { desk } = this;
    const { matches, total } = this.found;
    const free = matches.filter(({ isFixed }) => !isFixed);
    if (free.length === 0) {
      this.told.textContent = total === 0 ? "Nothing found" : "None of these cells can be edited here";
      return;
    }
    const cells = free.map(({ row, column, text }) => ({ row, column, text: this.replacedIn(text) }));
    if (!(await desk.changes.change({ is: "cells", cells }, `${cells.length} cells`))) return;
    const left = matches.length - free.length;
    const more = total > matches.length ? `; ${total - matches.length} more: replace again` : "";
    this.told.textContent = `${free.length} replaced${left > 0 ? `, ${left} cannot be edited here` : ""}${more}`;
  }
}
