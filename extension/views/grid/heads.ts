import { h } from "../shared/dom.ts";
import { leastWidth, mostWidth, widthOf } from "./columns.ts";
import type { Desk } from "./desk.ts";
import type { GridColumn } from "./messages.ts";

/** The heads of the columns: what they are, how they are sorted and filtered, how wide they are. */
export class Heads {
  private readonly desk: Desk;
  private isFiltering = false;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  get areFiltersShown(): boolean {
    return this.isFiltering;
  }

  showFilters(isShown: boolean): void {
    if (this.isFiltering === isShown) return;
    this.isFiltering = isShown;
    this.draw();
  }

  /** Draws them anew; who types a filter goes on. */
  draw(): void {
    const { desk } = this;
    const { head } = desk.table;
    const typing = document.activeElement instanceof HTMLInputElement ? document.activeElement : undefined;
    const column = typing !== undefined && head.contains(typing) ? typing.dataset.filter : undefined;
    const caret = typing?.selectionStart ?? 0;
    const hadFocus = head.contains(document.activeElement);
    const corner = h(
      "div",
      {
        role: "columnheader",
        class: "gutter frozen",
        tabindex: -1,
        "aria-colindex": 1,
        title: "Select all",
      },
      h("span", { class: "unseen" }, "Row number"),
    );
    head.replaceChildren(corner, ...desk.shown.map((each, col) => this.headOf(each, col)));
    if (column !== undefined) {
      const again = head.querySelector<HTMLInputElement>(`[data-filter="${CSS.escape(column)}"]`);
      again?.focus({ preventScroll: true });
      again?.setSelectionRange(caret, caret);
    }
    this.mark();
    if (hadFocus && !head.contains(document.activeElement)) desk.takeFocus();
  }

  /** Cursor and selection. */
  mark(): void {
    const { desk } = this;
    for (const cell of desk.table.head.querySelectorAll<HTMLElement>("[data-col]")) {
      const col = Number(cell.dataset.col);
      const isCursor = desk.cursor.row < 0 && desk.cursor.col === col;
      cell.tabIndex = isCursor ? 0 : -1;
      cell.classList.toggle("cursor", isCursor);
      const { left, right } = desk.cursor.box;
      cell.classList.toggle("over", col >= left && col <= right);
    }
  }

  filterInput(col: number): HTMLInputElement | undefined {
    this.showFilters(true);
    return this.desk.table.cellAt(-1, col)?.querySelector("input") ?? undefined;
  }

  private headOf(column: GridColumn, col: number): HTMLElement {
    const { desk } = this;
    const { id, title, unit, doc, isComputed, isFigure } = column;
    const sorted = desk.sort.find((each) => each.column === id);
    const filter = desk.filter[id] ?? "";
    const order = sorted === undefined ? "none" : sorted.isDown ? "descending" : "ascending";
    const place = desk.sort.length > 1 && sorted !== undefined ? String(desk.sort.indexOf(sorted) + 1) : "";
    const cell = h(
      "div",
      {
        role: "columnheader",
        class: `cell title${isFigure ? " figure" : ""}${isComputed ? " computed" : ""}`,
        tabindex: -1,
        "aria-colindex": col + 2,
        "aria-sort": order,
        "data-col": col,
        "data-vscode-context": JSON.stringify({ webviewSection: "column", column: id }),
        title: isComputed ? `${doc} Reckoned from the log, not editable.` : doc,
      },
      h(
        "span",
        { class: "name" },
        title,
        unit !== "" && h("small", {}, ` ${unit}`),
        isComputed && h("span", { class: "unseen" }, ", reckoned"),
        filter !== "" && h("span", { class: "unseen" }, `, filtered by ${filter}`),
      ),
      h(
        "span",
        { class: "order", "aria-hidden": "true" },
        sorted === undefined ? "" : `${sorted.isDown ? "↓" : "↑"}${place}`,
      ),
      h("span", { class: "edge", "aria-hidden": "true", onpointerdown: (event) => this.resize(event, col) }),
    );
    cell.classList.toggle("filtered", filter !== "");
    if (col < desk.frozen.length) {
      cell.classList.add("frozen");
      cell.style.left = `${desk.frozen[col]}px`;
    }
    if (this.isFiltering) cell.append(this.filterOf(column, filter));
    return cell;
  }

  private filterOf({ id, title }: GridColumn, filter: string): HTMLInputElement {
    const { desk } = this;
    let resting: ReturnType<typeof setTimeout> | undefined;
    const input = h("input", {
      type: "text",
      class: "filter",
      tabindex: -1,
      "data-filter": id,
      "aria-label": `Filter ${title}`,
      placeholder: "filter",
      spellcheck: "false",
      autocomplete: "off",
      title: "> 20, <= 5, 20..30, r1..r4, 2026-03-01..2026-03-31, = dam, != dam, = (empty), words; a | b",
    });
    input.value = filter;
    const apply = (): void => {
      clearTimeout(resting);
      if (input.value !== (desk.filter[id] ?? "")) desk.order.setFilter(id, input.value);
    };
    input.addEventListener("input", () => {
      clearTimeout(resting);
      resting = setTimeout(apply, 350);
    });
    input.addEventListener("keydown", (event) => {
      event.stopPropagation();
      if (event.key === "Escape" && input.value !== "") input.value = "";
      else if (event.key !== "Enter" && event.key !== "Escape" && event.key !== "ArrowDown") return;
      event.preventDefault();
      apply();
      desk.moves.moveTo({
        row: event.key === "ArrowDown" ? 0 : -1,
        col: desk.shown.findIndex((each) => each.id === id),
      });
    });
    input.addEventListener("blur", apply);
    return input;
  }

  private resize(event: Event, col: number): void {
    const { desk } = this;
    const down = event as PointerEvent;
    down.preventDefault();
    down.stopPropagation();
    const edge = down.target as HTMLElement;
    edge.setPointerCapture(down.pointerId);
    const column = desk.shown[col]!;
    const width = widthOf(column, desk.layout);
    let last = width;
    const move = (at: PointerEvent): void => {
      last = Math.max(leastWidth, Math.min(mostWidth, Math.round(width + at.clientX - down.clientX)));
      desk.laying.setWidth(column.id, last, false);
    };
    edge.addEventListener("pointermove", move);
    edge.addEventListener(
      "lostpointercapture",
      () => {
        edge.removeEventListener("pointermove", move);
        desk.laying.setWidth(column.id, last, true);
      },
      { once: true },
    );
  }
}
