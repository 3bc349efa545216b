import type { Desk } from "./desk.ts";
import type { Memory } from "./messages.ts";

/** What comes back when the window is loaded anew: the face, the cursor, what was sorted and filtered. */
export class Remembering {
  memory: Memory;
  private toRestore: Memory | undefined;
  private isBegun = false;
  private readonly desk: Desk;
  private readonly keep: (memory: Memory) => void;

  constructor(desk: Desk, memory: Memory, keep: (memory: Memory) => void) {
    this.desk = desk;
    this.memory = memory;
    this.keep = keep;
  }

  /** @param isAgain it is to stand as it stood */
  begin(isAgain: boolean): void {
    const { desk, memory } = this;
    this.isBegun = true;
    if (isAgain) {
      desk.sort = [...memory.sort];
      desk.filter = { ...memory.filter };
      this.toRestore = memory;
      desk.heads.showFilters(Object.keys(memory.filter).length > 0);
    }
    desk.laying.zoomTo(memory.zoom);
  }

  /** @param isWanted nobody asked for another place meanwhile */
  restore(isWanted: boolean): void {
    const { toRestore } = this;
    this.toRestore = undefined;
    if (toRestore === undefined || !isWanted) return;
    const { row, column, toRow, toColumn, scroll, scrollLeft } = toRestore;
    const { table, cursor, laying, rows, shown } = this.desk;
    table.draw();
    table.scroller.scrollTop = scroll;
    table.scroller.scrollLeft = scrollLeft;
    cursor.select({ row: toRow, col: laying.columnAt(toColumn) }, { row, col: laying.columnAt(column) });
    cursor.keepWithin(rows.total, shown.length);
  }

  remember(): void {
    const { desk } = this;
    // What is to come back has not come yet.
    if (!this.isBegun || this.toRestore !== undefined || desk.shown.length === 0) return;
    const { scroller } = desk.table;
    const { row, col, anchorRow, anchorCol } = desk.cursor;
    this.memory = {
      face: desk.face,
      row: Math.max(0, row),
      column: desk.shown[col]?.id ?? "",
      toRow: Math.max(0, anchorRow),
      toColumn: desk.shown[anchorCol]?.id ?? "",
      scroll: scroller.scrollTop,
      scrollLeft: scroller.scrollLeft,
      sort: desk.sort,
      filter: desk.filter,
      zoom: desk.zoom,
    };
    this.keep(this.memory);
  }
}
