import { h } from "../shared/dom.ts";
import { severitySign } from "../shared/icons.ts";
import type { PageCell, PageRow } from "./messages.ts";

/** One row as elements that are used again for other rows, so that scrolling makes none. */

export const isWide = (row: PageRow | undefined): boolean => row?.is === "text" || row?.is === "comment";

/** What the editor of a cell was refused: what was typed stays in the cell. */
export interface Refused {
  readonly text: string;
  readonly message: string;
}

export interface RowLook {
  readonly shown: readonly {
    readonly id: string;
    readonly isFigure: boolean;
    readonly isComputed: boolean;
  }[];
  readonly frozen: readonly number[];
  /** What is typed and not in the text yet, and what was refused, by row and column. */
  pending(row: string, column: string): string | undefined;
  refused(row: string, column: string): Refused | undefined;
  isSelected(row: number, col: number): boolean;
  isCursor(row: number, col: number): boolean;
}

export const stateWords = {
  within: "",
  above: "above its limit",
  below: "below its limit",
  unsure: "perhaps outside its limit",
};
const stateSigns = { within: "", above: "▲", below: "▼", unsure: "?" };

export class RowElement {
  readonly element = h("div", { role: "row", class: "row" });
  readonly gutter = h("div", { role: "rowheader", class: "gutter frozen", tabindex: -1, "aria-colindex": 1 });
  readonly cells: HTMLElement[] = [];
  private readonly drawn: string[] = [];
  index = -1;
  id = "";
  private wide = false;
  private look = "";

  constructor() {
    this.element.append(this.gutter);
  }

  /** The element of a column: of a row of one text it is the first. */
  cellAt(col: number): HTMLElement | undefined {
    return this.cells[this.wide ? 0 : col];
  }

  draw(index: number, top: number, row: PageRow | undefined, look: RowLook): void {
    if (this.index !== index) {
      this.index = index;
      this.element.setAttribute("aria-rowindex", String(index + 2));
      this.element.dataset.row = String(index);
      this.gutter.textContent = String(index + 1);
    }
    const position = `${top}px`;
    if (this.element.style.top !== position) this.element.style.top = position;
    this.id = row?.id ?? "";
    this.wide = isWide(row);
    const name = `row ${row === undefined ? "waiting" : row.is}${index % 2 === 1 ? " odd" : ""}`;
    if (this.look !== name) {
      this.look = name;
      this.element.className = name;
    }
    this.fit(look);
    for (let col = 0; col < look.shown.length; col++) this.drawCell(col, row, look);
  }

  /** As many cells as there are columns. */
  private fit({ shown, frozen }: RowLook): void {
    while (this.cells.length > shown.length) {
      this.cells.pop()!.remove();
      this.drawn.pop();
    }
    while (this.cells.length < shown.length) {
      const cell = h("div", { role: "gridcell", class: "cell", tabindex: -1 });
      cell.setAttribute("aria-colindex", String(this.cells.length + 2));
      cell.dataset.col = String(this.cells.length);
      this.cells.push(cell);
      this.drawn.push("");
      this.element.append(cell);
    }
    this.cells.forEach((cell, col) => {
      const left = col < frozen.length ? `${frozen[col]}px` : "";
      if (cell.style.left !== left) cell.style.left = left;
    });
  }

  private drawCell(col: number, row: PageRow | undefined, look: RowLook): void {
    const cell = this.cells[col]!;
    const column = look.shown[col]!;
    const isHidden = this.wide && col > 0;
    const said: PageCell | undefined = row?.cells[this.wide ? 0 : col];
    const id = this.wide ? "text" : column.id;
    const refused = row === undefined ? undefined : look.refused(row.id, id);
    const pending = row === undefined ? undefined : look.pending(row.id, id);
    const isCursor = this.wide
      ? look.isSelected(this.index, col) && col === 0
      : look.isCursor(this.index, col);
    const isSelected = !isHidden && look.isSelected(this.index, col);
    const signature = JSON.stringify([said, refused, pending, id, this.wide, col < look.frozen.length]);
    const isEdited = cell.querySelector("input") !== null;
    if (this.drawn[col] !== signature && !isEdited) {
      this.drawn[col] = signature;
      this.fill(cell, said, refused, pending);
      const marks = said?.marks ?? [];
      cell.className = [
        "cell",
        column.isFigure && !this.wide ? "figure" : "",
        column.isComputed ? "computed" : "",
        said?.fixed ? "fixed" : "",
        said?.state ?? "",
        marks.length > 0 ? `marked ${marks[0]!.severity}` : "",
        refused !== undefined ? "refused" : "",
        pending !== undefined && refused === undefined ? "pending" : "",
        col < look.frozen.length ? "frozen" : "",
        this.wide && col === 0 ? "wide" : "",
      ]
        .filter((each) => each !== "" && each !== "within")
        .join(" ");
      set(cell, "aria-readonly", said?.fixed || column.isComputed ? "true" : null);
      set(
        cell,
        "aria-invalid",
        refused !== undefined || marks.some(({ severity }) => severity === "error") ? "true" : null,
      );
      set(cell, "aria-colspan", this.wide && col === 0 ? String(look.shown.length) : null);
      cell.hidden = isHidden;
    }
    set(cell, "aria-selected", isSelected ? "true" : "false");
    set(cell, "tabindex", isCursor ? "0" : "-1");
    cell.classList.toggle("selected", isSelected);
    cell.classList.toggle("cursor", isCursor);
  }

  private fill(
    cell: HTMLElement,
    said: PageCell | undefined,
    refused: Refused | undefined,
    pending: string | undefined,
  ): void {
    if (said === undefined) {
      cell.replaceChildren();
      return;
    }
    const text = refused?.text ?? pending ?? said.text;
    const isImplied = text === "" && (said.implied ?? "") !== "";
    const state = said.state === undefined || said.state === "" ? "within" : said.state;
    const [mark] = said.marks ?? [];
    const children: (Node | string)[] = [];
    if (mark !== undefined || refused !== undefined) {
      const severity = refused !== undefined ? "error" : mark!.severity;
      const sign = h("span", {
        class: "sign-of",
        role: "img",
        "aria-label": refused !== undefined ? "refused" : severity,
      });
      sign.append(severitySign(severity));
      children.push(sign);
    }
    children.push(
      h("span", { class: isImplied ? "value implied" : "value" }, isImplied ? said.implied! : text),
    );
    // What a number is in where its column is in another.
    if (said.unit !== undefined && text !== "" && !/\p{L}|%/u.test(text))
      children.push(h("small", { class: "unit" }, said.unit));
    if (stateSigns[state] !== "")
      children.push(
        h("span", { class: "state", role: "img", "aria-label": stateWords[state] }, stateSigns[state]),
      );
    cell.replaceChildren(...children);
  }

  /** What is in a cell is drawn anew at the next turn. */
  forget(col: number): void {
    this.drawn[this.wide ? 0 : col] = "";
  }
}

function set(element: HTMLElement, name: string, value: string | null): void {
  if (element.getAttribute(name) === value) return;
  if (value === null) element.removeAttribute(name);
  else element.setAttribute(name, value);
}
