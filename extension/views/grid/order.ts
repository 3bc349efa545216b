import type { Desk } from "./desk.ts";

/** By what rows are sorted and filtered: a matter of the view, the file is never re-ordered. */
export class Order {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  sortBy(column: string, isDown: boolean | undefined, isAdded: boolean): void {
    const known = this.desk.sort.find((each) => each.column === column);
    const others = isAdded ? this.desk.sort.filter((each) => each.column !== column) : [];
    const next = isDown ?? (known === undefined ? false : known.isDown ? undefined : true);
    this.desk.sort = next === undefined ? others : [...others, { column, isDown: next }];
    this.reorder();
  }

  setFilter(column: string, wanted: string): void {
    const { [column]: _, ...others } = this.desk.filter;
    this.desk.filter = wanted.trim() === "" ? others : { ...others, [column]: wanted };
    this.reorder();
  }

  clearFilters(): void {
    this.desk.filter = {};
    this.reorder();
    this.desk.takeFocus();
  }

  toggleFilters(): void {
    this.desk.heads.showFilters(!this.desk.heads.areFiltersShown);
    if (!this.desk.heads.areFiltersShown && Object.keys(this.desk.filter).length > 0) this.clearFilters();
    this.desk.bar.draw();
    this.desk.table.soon();
    if (this.desk.heads.areFiltersShown) this.editFilter();
  }

  editFilter(typed?: string): void {
    const input = this.desk.heads.filterInput(this.desk.cursor.col);
    this.desk.bar.draw();
    this.desk.table.soon();
    if (input === undefined) return;
    this.desk.table.show(-1, this.desk.cursor.col);
    input.focus();
    input.select();
    if (typed === undefined) return;
    input.value = typed;
    input.dispatchEvent(new Event("input"));
  }

  private reorder(): void {
    this.desk.turn++;
    this.desk.showing.toTell = true;
    if (this.desk.cursor.row >= 0) this.desk.cursor.moveTo({ row: 0, col: this.desk.cursor.col });
    this.desk.showing.isReordered = true;
    this.desk.rows.stale();
    this.desk.find.stale();
    this.desk.table.scroller.scrollTop = 0;
    this.desk.heads.draw();
    this.desk.bar.draw();
    this.desk.remembering.remember();
    this.desk.table.draw();
  }
}
