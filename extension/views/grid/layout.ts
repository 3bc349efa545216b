import { gutterWidth, layoutKey, leastWidth, mostWidth, noLayout, widthOf } from "./columns.ts";
import type { Desk } from "./desk.ts";
import type { Layout } from "./messages.ts";

const least = 0.6;
const most = 2;

/** Which columns are shown, how wide they are, how many stay; kept with the workspace. */
export class Columns {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  layOut(): void {
    const { table, layout, shown } = this.desk;
    this.desk.widths = shown.map((column) => widthOf(column, layout));
    const held = Math.min(layout.frozen, shown.length);
    this.desk.frozen = this.desk.widths
      .slice(0, held)
      .map((_, at) => this.desk.widths.slice(0, at).reduce((sum, each) => sum + each, gutterWidth));
    const total = this.desk.widths.reduce((sum, each) => sum + each, gutterWidth);
    table.grid.style.setProperty(
      "--columns",
      [gutterWidth, ...this.desk.widths].map((each) => `${each}px`).join(" "),
    );
    table.grid.style.width = `${total}px`;
    table.grid.setAttribute("aria-colcount", String(shown.length + 1));
    this.desk.heads.draw();
    table.soon();
  }

  private lay(change: Partial<Layout>, isKept = true): void {
    const key = layoutKey(this.desk.face);
    const layout = { ...this.desk.layout, ...change };
    this.desk.layouts[key] = layout;
    if (isKept) this.desk.post({ say: "layout", key, layout });
  }

  setWidth(id: string, width: number, isKept: boolean): void {
    this.lay({ widths: { ...this.desk.layout.widths, [id]: width } }, isKept);
    this.layOut();
  }

  widen(by: number): void {
    const column = this.desk.shown[this.desk.cursor.col];
    if (column === undefined) return;
    const width = Math.max(leastWidth, Math.min(mostWidth, widthOf(column, this.desk.layout) + by));
    this.setWidth(column.id, width, true);
    this.desk.say(`${column.title}: ${width} wide`);
    this.desk.takeFocus();
  }

  isShown(id: string): boolean {
    return this.desk.shown.some((column) => column.id === id);
  }

  /** @returns false for the last one, which stays */
  showColumn(id: string, isShown: boolean): boolean {
    const columns = this.desk.columns
      .filter((column) => (column.id === id ? isShown : this.isShown(column.id)))
      .map((each) => each.id);
    if (columns.length === 0) return false;
    this.lay({ columns });
    this.desk.rows.stale();
    this.desk.table.draw();
    return true;
  }

  freeze(count: number): void {
    this.lay({ frozen: Math.max(0, Math.min(count, this.desk.shown.length - 1)) });
    this.layOut();
    this.desk.table.draw();
  }

  resetLayout(): void {
    this.lay({ ...noLayout });
    this.desk.rows.stale();
    this.layOut();
    this.zoomTo(1);
  }

  zoomBy(by: number): void {
    this.zoomTo(this.desk.zoom + by);
  }

  zoomTo(zoom: number): void {
    this.desk.zoom = Math.round(10 * Math.max(least, Math.min(most, zoom))) / 10;
    this.desk.root.style.setProperty("--zoom", String(this.desk.zoom));
    this.desk.table.measure();
    this.desk.remembering.remember();
  }

  columnAt(id: string): number {
    return Math.max(
      0,
      this.desk.shown.findIndex((column) => column.id === id),
    );
  }
}
