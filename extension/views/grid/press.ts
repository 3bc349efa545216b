import type { Desk } from "./desk.ts";
import type { Press } from "./messages.ts";

/** What the editor's menus press. @param column the one that a menu was opened on */
export function press(desk: Desk, what: Press, column: string | undefined): void {
  if (column !== undefined && desk.laying.isShown(column)) desk.cursor.col = desk.laying.columnAt(column);
  const own = desk.shown[desk.cursor.col];
  switch (what) {
    case "insert":
      desk.fresh.open();
      return;
    case "delete":
      return void desk.changes.deleteRows();
    case "down":
      return void desk.changes.fillDown();
    case "series":
      return void desk.changes.fillSeries();
    case "fix":
      return void desk.fixes.showFixes();
    case "chart":
      return void desk.charting.open();
    case "find":
      desk.find.open(false);
      return;
    case "sortUp":
    case "sortDown":
      if (own !== undefined) desk.order.sortBy(own.id, what === "sortDown", false);
      return;
    case "hide":
      if (own !== undefined) desk.laying.showColumn(own.id, false);
      return;
    case "freeze":
      desk.laying.freeze(desk.layout.frozen === desk.cursor.col + 1 ? 0 : desk.cursor.col + 1);
      return;
  }
}
