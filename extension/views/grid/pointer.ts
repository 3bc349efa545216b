import type { Desk } from "./desk.ts";

/** The mouse: a press puts the cursor, drawn on it selects; numbers select rows, heads columns. */
export function listenToPointer(desk: Desk): void {
  const { grid, scroller, head } = desk.table;
  let dragging: "cells" | "rows" | undefined;
  let at = { x: 0, y: 0 };
  let scrolling = 0;

  const placeAt = (target: EventTarget | null): { row: number; col: number } | undefined => {
    const element = target instanceof Element ? target : undefined;
    const row = element?.closest<HTMLElement>("[data-row]");
    if (row == null || element === undefined) return undefined;
    const cell = element.closest<HTMLElement>("[data-col]");
    return { row: Number(row.dataset.row), col: cell === null ? -1 : Number(cell.dataset.col) };
  };

  grid.addEventListener("pointerdown", (event) => {
    if ((event.target as Element).closest("input, .edge") !== null) return;
    const { shiftKey, button } = event;
    const title = (event.target as Element).closest<HTMLElement>(".heads [role=columnheader]");
    if (title !== null) {
      event.preventDefault();
      if (title.dataset.col === undefined) desk.moves.selectAll();
      else if (button === 0) desk.moves.pressHead(Number(title.dataset.col), shiftKey);
      return;
    }
    const place = placeAt(event.target);
    if (place === undefined) return;
    event.preventDefault();
    // A right click on what is selected leaves it selected.
    if (button === 2 && place.col >= 0 && desk.cursor.has(place.row, place.col)) return desk.takeFocus();
    if (place.col < 0) desk.moves.selectRow(place.row, shiftKey);
    else desk.moves.moveTo(place, shiftKey);
    if (button !== 0) return;
    dragging = place.col < 0 ? "rows" : "cells";
    at = { x: event.clientX, y: event.clientY };
  });

  const drag = (): void => {
    const bounds = scroller.getBoundingClientRect();
    const x = Math.max(bounds.left + 62, Math.min(at.x, bounds.right - 18));
    const y = Math.max(bounds.top + head.offsetHeight + 2, Math.min(at.y, bounds.bottom - 18));
    const place = placeAt(document.elementFromPoint(x, y));
    if (place === undefined) return;
    if (dragging === "rows") desk.moves.selectRow(place.row, true);
    else if (place.col >= 0 && (place.row !== desk.cursor.row || place.col !== desk.cursor.col))
      desk.moves.moveTo(place, true, false);
  };
  const scrollOn = (): void => {
    scrolling = 0;
    if (dragging === undefined) return;
    const bounds = scroller.getBoundingClientRect();
    const beyond = (value: number, low: number, high: number): number =>
      value < low ? value - low : value > high ? value - high : 0;
    const dy = beyond(at.y, bounds.top + head.offsetHeight, bounds.bottom);
    const dx = beyond(at.x, bounds.left, bounds.right);
    if (dx === 0 && dy === 0) return;
    scroller.scrollBy(dx / 3, dy / 3);
    drag();
    scrolling = requestAnimationFrame(scrollOn);
  };
  grid.addEventListener("pointermove", (event) => {
    if (dragging === undefined) return;
    // Not at the press: a double click would no longer be one of its cell.
    if (!grid.hasPointerCapture(event.pointerId)) grid.setPointerCapture(event.pointerId);
    at = { x: event.clientX, y: event.clientY };
    drag();
    if (scrolling === 0) scrolling = requestAnimationFrame(scrollOn);
  });
  const end = (): void => {
    dragging = undefined;
  };
  grid.addEventListener("pointerup", end);
  grid.addEventListener("lostpointercapture", end);

  grid.addEventListener("dblclick", (event) => {
    const place = placeAt(event.target);
    if (place !== undefined && place.col >= 0) desk.changes.edit();
  });
  grid.addEventListener("pointerover", (event) => {
    const place = dragging === undefined ? placeAt(event.target) : undefined;
    if (place === undefined || place.col < 0) desk.tip.hideHover();
    else desk.tip.hover(place.row, place.col);
  });
  grid.addEventListener("pointerleave", () => desk.tip.hideHover());
  scroller.addEventListener(
    "wheel",
    (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      desk.laying.zoomBy(event.deltaY < 0 ? 0.1 : -0.1);
    },
    { passive: false },
  );
}
