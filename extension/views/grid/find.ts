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
  /** By match its row and column, in their order. */
  private places: GridFound["places"] = [];
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
      this.places = [];
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
      this.places = found.places;
      this.isOld = false;
      this.tell();
    } catch (error) {
      this.told.textContent = wordsOf(error);
    }
  }

  private tell(at = -1): void {
    const total = this.places.length.toLocaleString("en");
    this.told.textContent =
      this.places.length === 0
        ? "Nothing found"
        : at < 0
          ? `${total} found`
          : `${(at + 1).toLocaleString("en")} of ${total}`;
  }

  /** The next match behind the cursor, round the end. */
  async next(by: 1 | -1): Promise<void> {
    if (this.element.hidden && this.input.value === "") return this.open(false);
    if (this.isOld) await this.look();
    const { desk } = this;
    const { places } = this;
    if (places.length === 0) return this.tell();
    const behind = this.behind(by);
    const at = behind >= 0 && behind < places.length ? behind : by > 0 ? 0 : places.length - 1;
    const [row, col] = places[at]!;
    desk.moves.moveTo({ row, col }, false, false);
    desk.table.show(row, col);
    this.tell(at);
    if (this.element.hidden) desk.takeFocus();
  }

  /** The first match behind the cursor, or the last before it. */
  private behind(by: 1 | -1): number {
    const { row, col } = this.desk.cursor;
    let [low, high] = [0, this.places.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      const [at, column] = this.places[middle]!;
      const isBefore = at < row || (at === row && (by > 0 ? column <= col : column < col));
      if (isBefore) low = middle + 1;
      else high = middle;
    }
    return by > 0 ? low : low - 1;
  }

  private replacedIn(text: string): string {
    const wanted = this.input.value.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
    return text.replace(new RegExp(wanted, this.isCaseSensitive.checked ? "g" : "gi"), () => this.by.value);
  }

  private async replace(): Promise<void> {
    if (this.isOld) await this.look();
    const { desk } = this;
    const { row, col } = desk.cursor;
    const said = desk.saidAt(row, col);
    const isMatch = this.places.some(([at, column]) => at === row && column === col);
    if (!isMatch || said === undefined) return this.next(1);
    const { text, fixed = "" } = said.cell;
    if (fixed !== "" || said.column === "text") {
      this.told.textContent = "This cell cannot be edited here";
      return this.next(1);
    }
    const cells = [{ row: said.row.id, column: said.column, text: this.replacedIn(text), was: text }];
    if (await desk.changes.change({ is: "cells", cells }, "")) await this.next(1);
  }

  private async replaceAll(): Promise<void> {
    const { desk } = this;
    const text = this.input.value;
    if (text === "") return this.tell();
    const outcome = await desk.changes.changed(
      {
        is: "replace",
        view: desk.view,
        text,
        isCaseSensitive: this.isCaseSensitive.checked,
        by: this.by.value,
      },
      "Replacing",
    );
    if (outcome.is === "refused") return desk.refuse(`Nothing was written: ${outcome.message}`);
    const { cells, left } = outcome;
    const words =
      cells > 0
        ? `${cells.toLocaleString("en")} replaced${left > 0 ? `, ${left} cannot be edited here` : ""}`
        : left > 0
          ? "None of these cells can be edited here"
          : "Nothing found";
    this.told.textContent = words;
    desk.say(words);
  }
}
