import type { Desk } from "./desk.ts";

/** Keys on a cell. What is not ours goes on to the editor: saving, undo and redo, the palette. */
export function pressKey(desk: Desk, event: KeyboardEvent): void {
  if (event.defaultPrevented || event.isComposing) return;
  if ((event.target as Element).closest("input, select, textarea, button") !== null) return;
  if (desk.cursor.row < 0 ? headKey(desk, event) : cellKey(desk, event)) {
    event.preventDefault();
    event.stopPropagation();
  }
}

const isMac = /Mac/.test(navigator.platform);

function moveKey(desk: Desk, { key, shiftKey, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  const isControl = isMac ? metaKey : ctrlKey;
  if (altKey) return false;
  const arrows: Record<string, readonly [number, number]> = {
    ArrowUp: [-1, 0],
    ArrowDown: [1, 0],
    ArrowLeft: [0, -1],
    ArrowRight: [0, 1],
  };
  const arrow = arrows[key];
  if (arrow !== undefined) {
    if (isControl) void desk.moves.leap(arrow[0], arrow[1], shiftKey);
    else desk.moves.move(arrow[0], arrow[1], shiftKey);
    return true;
  }
  const { row } = desk.cursor;
  const last = desk.rows.total - 1;
  switch (key) {
    case "Home":
      desk.moves.moveTo({ row: isControl ? 0 : row, col: 0 }, shiftKey);
      return true;
    case "End":
      desk.moves.moveTo({ row: isControl ? last : row, col: desk.shown.length - 1 }, shiftKey);
      return true;
    case "PageUp":
    case "PageDown":
      if (isControl) return false;
      desk.moves.move(key === "PageUp" ? -desk.table.page : desk.table.page, 0, shiftKey);
      return true;
    default:
      return false;
  }
}

function cellKey(desk: Desk, event: KeyboardEvent): boolean {
  const { key, shiftKey, ctrlKey, metaKey, altKey } = event;
  const isControl = isMac ? metaKey : ctrlKey;
  if (altKey && shiftKey && (key === "ArrowLeft" || key === "ArrowRight")) {
    desk.laying.widen(key === "ArrowLeft" ? -16 : 16);
    return true;
  }
  if (moveKey(desk, event)) return true;
  if (isControl && !altKey) {
    switch (key.toLowerCase()) {
      case "a":
        desk.moves.selectAll();
        return true;
      case "d":
        void (shiftKey ? desk.changes.fillSeries() : desk.changes.fillDown());
        return true;
      case "f":
        desk.find.open(false);
        return true;
      case "h":
        desk.find.open(true);
        return true;
      case ".":
        void desk.fixes.showFixes();
        return true;
      case "enter":
        desk.fresh.open();
        return true;
      case "delete":
        void desk.changes.deleteRows();
        return true;
      case " ":
        desk.moves.selectColumns();
        return true;
      default:
        return false;
    }
  }
  // By its place on the keyboard: with Alt some keyboards write another letter.
  if (altKey && !ctrlKey && !metaKey && !shiftKey && event.code === "KeyC") {
    void desk.charting.open();
    return true;
  }
  if (altKey || metaKey || ctrlKey) return false;
  switch (key) {
    case "F2":
      desk.changes.edit();
      return true;
    case "F3":
      void desk.find.next(shiftKey ? -1 : 1);
      return true;
    case "Enter":
      // Over more than one cell it goes round in them; on one it opens it, as Enter does in grids.
      if (shiftKey) desk.moves.move(-1, 0, false);
      else desk.changes.edit();
      return true;
    case "Tab":
      return desk.moves.tab(shiftKey ? -1 : 1);
    case "Escape":
      if (desk.progress.isWaiting) desk.progress.giveUp();
      else desk.moves.escape();
      return true;
    case "Delete":
    case "Backspace":
      void desk.changes.clear();
      return true;
    case " ":
      if (shiftKey) {
        desk.moves.selectRows();
        return true;
      }
      break;
    case "Process":
    case "Dead":
      desk.changes.edit("");
      return false;
  }
  if (key.length !== 1) return false;
  desk.changes.edit(key);
  return true;
}

function headKey(desk: Desk, event: KeyboardEvent): boolean {
  const { key, shiftKey, ctrlKey, metaKey, altKey } = event;
  if (altKey && shiftKey && (key === "ArrowLeft" || key === "ArrowRight")) {
    desk.laying.widen(key === "ArrowLeft" ? -16 : 16);
    return true;
  }
  if (moveKey(desk, event)) return true;
  if (ctrlKey || metaKey || altKey) {
    if ((ctrlKey || metaKey) && key.toLowerCase() === "f") {
      desk.find.open(false);
      return true;
    }
    return false;
  }
  const column = desk.shown[desk.cursor.col];
  if (column === undefined) return false;
  switch (key) {
    case "Enter":
    case " ":
      desk.order.sortBy(column.id, undefined, shiftKey);
      return true;
    case "Delete":
    case "Backspace":
      desk.order.setFilter(column.id, "");
      return true;
    case "Tab":
      return desk.moves.tab(shiftKey ? -1 : 1);
    case "Escape":
      desk.moves.escape();
      return true;
    case "F2":
      desk.order.editFilter();
      return true;
  }
  if (key.length !== 1) return false;
  desk.order.editFilter(key);
  return true;
}
