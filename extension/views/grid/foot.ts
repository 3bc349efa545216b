import { h } from "../shared/dom.ts";
import { wordsOf } from "./asking.ts";
import type { Desk } from "./desk.ts";
import { summaryShape } from "./messages.ts";

/** So long a selection rests before it is summed up. */
const restMs = 140;
/** More cells are not worth the wait. */
const mostCells = 200_000;

/** Below the cells: what the one at the cursor is, and what the selected ones come to. */
export class Foot {
  private readonly about = h("p", { id: "about", class: "about" });
  private readonly summary = h("dl", { class: "summary", "aria-label": "Selection" });
  readonly element = h("footer", { class: "foot" }, this.about, this.summary);
  private readonly desk: Desk;
  private resting: ReturnType<typeof setTimeout> | undefined;
  private turn = 0;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  draw(): void {
    this.tell();
    clearTimeout(this.resting);
    this.turn++;
    if (this.desk.cursor.isOne || this.desk.cursor.row < 0) {
      if (this.summary.childElementCount > 0) this.summary.replaceChildren();
      return;
    }
    this.resting = setTimeout(() => void this.sum(), restMs);
  }

  private tell(): void {
    const { desk } = this;
    const { row, col } = desk.cursor;
    const column = desk.shown[col];
    const found = desk.saidAt(row, col);
    const parts: string[] = [];
    if (row < 0 && column !== undefined) {
      parts.push(column.doc, "Enter sorts, typing filters");
    } else if (found !== undefined && column !== undefined) {
      const { cell } = found;
      const refused = desk.refused(found.row.id, found.column);
      if (refused !== undefined) parts.push(`Not written: ${refused.message}`);
      for (const { severity, message } of cell.marks ?? []) parts.push(`${severity}: ${message}`);
      if ((cell.detail ?? "") !== "") parts.push(cell.detail!);
      if ((cell.fixed ?? "") !== "") parts.push(`not edited here: ${cell.fixed}`);
      if (cell.text === "" && (cell.implied ?? "") !== "") parts.push(`counts as ${cell.implied}`);
      if (parts.length === 0) parts.push(cell.text === "" ? column.doc : cell.text);
    }
    const words = parts.join("; ");
    if (this.about.dataset.words === words) return;
    this.about.dataset.words = words;
    this.about.replaceChildren(h("span", {}, words));
  }

  private async sum(): Promise<void> {
    const { desk } = this;
    const turn = ++this.turn;
    const { top, bottom, left, right } = desk.cursor.box;
    const cells = (bottom - top + 1) * (right - left + 1);
    try {
      if (cells > mostCells)
        return this.show([{ name: "", text: `${desk.moves.selectionWords}: too many to sum up` }]);
      const over = await desk.changes.rangeOf(desk.cursor.box);
      if (turn !== this.turn) return;
      const summary = await desk.asking.ask({ is: "summary", face: desk.face, over }, summaryShape);
      if (turn !== this.turn) return;
      this.show([{ name: "", text: desk.moves.selectionWords }, ...summary]);
      await desk.changes.readAhead(over);
    } catch (error) {
      if (turn === this.turn) this.show([{ name: "", text: wordsOf(error) }]);
    }
  }

  private show(summary: readonly { readonly name: string; readonly text: string }[]): void {
    this.summary.replaceChildren(
      ...summary.map(({ name, text }) =>
        h(
          "div",
          {},
          h("dt", { class: name === "" ? "unseen" : "" }, name === "" ? "selected" : name),
          h("dd", {}, text),
        ),
      ),
    );
  }
}
