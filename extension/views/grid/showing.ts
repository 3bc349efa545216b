import { wordsOf } from "./asking.ts";
import { isSameFace, layoutKey } from "./columns.ts";
import type { Desk } from "./desk.ts";
import { choicesShape, type Face, type GridPage, type GridView, type Layout } from "./messages.ts";
import type { RowsOwner } from "./rows.ts";

export interface Hello {
  readonly uri: string;
  readonly file: string;
  readonly isReadOnly: boolean;
  readonly notice: string;
  readonly layouts: Readonly<Record<string, Layout>>;
  readonly line: number | null;
}

/** Which face is shown, and what is done with the rows of it that come. */
export class Showing implements RowsOwner {
  private readonly desk: Desk;
  private line: number | undefined;
  private isBegun = false;
  private wantsFocus = true;
  /** Another face or order: how many rows it has is said. */
  toTell = false;
  /** Another order: the cursor stays at the top, and follows no row there. */
  isReordered = false;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  begin({ uri, file, isReadOnly, notice, layouts, line }: Hello): void {
    const { desk } = this;
    desk.uri = uri;
    desk.isReadOnly = isReadOnly;
    desk.layouts = { ...layouts };
    desk.told.notice(notice);
    desk.table.grid.setAttribute("aria-label", `Cells of ${file}`);
    if (isReadOnly) desk.table.grid.setAttribute("aria-readonly", "true");
    if (this.isBegun) return;
    this.isBegun = true;
    const { memory } = desk.remembering;
    desk.face = line === null && memory.face !== undefined ? memory.face : { is: "entries", path: uri };
    if (line !== null) this.line = line;
    desk.remembering.begin(line === null);
    void this.askChoices(line, line === null && memory.face !== undefined);
    desk.table.draw();
  }

  /** Another face. */
  show(face: Face): void {
    const { desk } = this;
    if (isSameFace(face, desk.face)) return;
    const isLike = layoutKey(face) === layoutKey(desk.face);
    desk.input.finish();
    desk.offers.hide();
    // They are about the columns of the face that is left.
    desk.chooser.element.hidden = true;
    desk.fresh.element.hidden = true;
    desk.charting.hide();
    desk.face = face;
    if (!isLike) {
      desk.sort = [];
      desk.filter = {};
      desk.heads.showFilters(false);
    }
    desk.cursor.moveTo({ row: 0, col: 0 });
    desk.table.scroller.scrollTo(0, 0);
    desk.rows.clear();
    this.toTell = true;
    desk.find.stale();
    desk.remembering.remember();
    desk.bar.draw();
    desk.table.draw();
  }

  goToLine(line: number): void {
    const { desk } = this;
    this.line = line;
    if (!(desk.face.is === "entries" && desk.face.path === desk.uri))
      this.show({ is: "entries", path: desk.uri });
    else {
      desk.rows.stale();
      desk.table.draw();
    }
  }

  // Of the rows

  get face(): Face {
    return this.desk.face;
  }

  get view(): GridView {
    return this.desk.view;
  }

  get cursorRow(): number {
    return this.desk.cursor.row;
  }

  takeLine(): number | undefined {
    const { line } = this;
    this.line = undefined;
    return line;
  }

  /** The row at the cursor keeps it, wherever an edit moves it. */
  get followed(): string | undefined {
    const isHere = !this.isReordered;
    this.isReordered = false;
    return isHere ? this.desk.rows.at(this.desk.cursor.row)?.id : undefined;
  }

  came(page: GridPage, moved: number): void {
    const { desk } = this;
    const { table, cursor } = desk;
    desk.root.removeAttribute("aria-busy");
    this.layOut(page);
    table.grid.setAttribute("aria-rowcount", String(page.total + 1));
    if (desk.rows.isFresh)
      for (const [key, { isWritten }] of desk.written) if (isWritten) desk.written.delete(key);
    if (moved !== 0) {
      cursor.shift(moved);
      table.draw();
      table.scroller.scrollTop += moved * table.rowHeight;
    }
    cursor.keepWithin(page.total, desk.shown.length);
    const isPlaced = page.placedAt >= 0;
    if (isPlaced) {
      cursor.moveTo({ row: page.placedAt, col: 0 });
      table.draw();
      table.show(page.placedAt, 0);
      desk.takeFocus();
    }
    desk.remembering.restore(!isPlaced);
    desk.told.count(page, this.toTell);
    this.toTell = false;
    desk.told.empty(page);
    desk.afterMove(false);
    if (this.wantsFocus) {
      this.wantsFocus = false;
      desk.takeFocus();
    }
  }

  slow(): void {
    const { desk } = this;
    if (desk.sort.length > 0 || Object.keys(desk.filter).length > 0)
      desk.bar.tell("Going through all rows …");
  }

  private layOut(page: GridPage): void {
    const { desk } = this;
    const known = new Map(page.columns.map((column) => [column.id, column]));
    const shown = page.shown.flatMap((id) => known.get(id) ?? []);
    const isOther =
      JSON.stringify([shown, page.columns.length]) !== JSON.stringify([desk.shown, desk.columns.length]);
    desk.columns = page.columns;
    if (!isOther) return;
    desk.shown = shown;
    desk.laying.layOut();
  }

  failed(error: unknown): void {
    this.desk.root.removeAttribute("aria-busy");
    this.desk.bar.tell("");
    this.desk.told.failed(wordsOf(error));
  }

  /** @param line where to begin @param isChosen the face is one that was chosen before */
  private async askChoices(line: number | null, isChosen: boolean): Promise<void> {
    const { desk } = this;
    try {
      const choices = await desk.asking.ask({ is: "choices" }, choicesShape);
      desk.bar.take(choices);
      if (isChosen || !choices.isDefining || choices.first === null) return;
      // A file of nothing but definitions has no entries to show.
      if (line !== null) this.line = line;
      this.show({ is: "definitions", of: choices.first });
    } catch (error) {
      desk.bar.tell(wordsOf(error));
    }
  }
}
