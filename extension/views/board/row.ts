import { type Child, h } from "../shared/dom.ts";
import { boxes } from "./boxes.ts";
import { contentOf, lookOf, textOf, wordsOfRow } from "./content.ts";
import type { Model } from "./model.ts";
import { type Row, taskOf, tasksOf } from "./sections.ts";
import type { Task } from "./shown.ts";
import { boardSign } from "./signs.ts";

/** What rows ask of the page. */
export interface Hands {
  readonly model: Model;
  /** A row was clicked. */
  focus(row: Row): void;
  /** The focus came into a row, or a box of it. */
  entered(row: Row): void;
  mark(row: Row, isExtending: boolean): void;
  /** Logs this row alone. */
  log(row: Row): void;
  fold(row: Row): void;
  turnWay(row: Row): void;
  typed(task: Task, at: number, value: string): void;
  /** A key in a box. */
  boxKey(event: KeyboardEvent, task: Task): void;
  logBoxes(): void;
}

let made = 0;

interface Part {
  readonly text: string;
  readonly element: HTMLElement;
}

/** One row. Its element stays as long as the row does, and so do the parts of it that say the same: the focus is never taken away. */
export class RowView {
  readonly element: HTMLElement;
  private readonly hands: Hands;
  private readonly id = `row-${++made}`;
  private row: Row;
  private readonly parts = new Map<string, Part>();

  constructor(hands: Hands, row: Row) {
    this.hands = hands;
    this.row = row;
    this.element = h("div", { role: "row", id: this.id, "data-row": row.key });
    this.element.addEventListener("click", (event) => this.clicked(event));
    this.element.addEventListener("focusin", () => this.hands.entered(this.row));
  }

  update(row: Row): void {
    this.row = row;
    const { model } = this.hands;
    const { element } = this;
    const task = taskOf(row);
    const refusal = task === null ? undefined : model.refused.get(task.key);
    const isOpen = task !== null && model.isOpen(task);
    const isPending = task !== null && model.isPending(task);
    element.className = `row ${row.is} ${lookOf(row)}${isPending ? " pending" : ""}`;
    element.tabIndex = model.memory.focus === row.key ? 0 : -1;
    attribute(element, "aria-level", row.is === "head" ? "1" : "2");
    attribute(element, "aria-selected", tasksOf(row).length > 0 ? String(model.isMarked(row)) : null);
    attribute(element, "aria-expanded", row.is === "head" ? String(!model.isFolded(row.key)) : null);
    attribute(element, "aria-describedby", refusal === undefined ? null : `${this.id}-refusal`);
    attribute(element, "aria-label", wordsOfRow(row, model));
    const { id } = this;
    const wanted = [
      row.is === "head"
        ? this.part("fold", "", () =>
            h("span", { class: "fold", "aria-hidden": "true" }, boardSign("folded")),
          )
        : null,
      tasksOf(row).length > 0
        ? this.part("mark", "", () => h("span", { class: "mark", "aria-hidden": "true" }, boardSign("done")))
        : null,
      this.part("what", textOf(row, model), () => cell("what", ...contentOf(row, model))),
      task !== null && isOpen
        ? this.part("boxes", JSON.stringify([model.wayOf(task), refusal === undefined]), () =>
            cell("boxes", ...boxes(this.hands, task, refusal === undefined ? "" : `${id}-refusal`, id)),
          )
        : null,
      refusal === undefined
        ? null
        : this.part("refusal", refusal, () =>
            cell("refusal", boardSign("late"), h("span", { id: `${id}-refusal` }, refusal)),
          ),
      task !== null && !isOpen
        ? this.part("do", model.wordsOf(task), () =>
            cell(
              "do",
              h(
                "button",
                {
                  type: "button",
                  tabindex: -1,
                  "data-do": "log",
                  "aria-label": `Log ${model.wordsOf(task)}`,
                  title: `Log ${model.wordsOf(task)}`,
                },
                boardSign("done"),
              ),
            ),
          )
        : null,
    ].filter((each) => each !== null);
    // What is not shown is not kept: boxes that open again take what was typed by then.
    for (const [name, part] of this.parts) if (!wanted.includes(part.element)) this.parts.delete(name);
    arrange(element, wanted);
  }

  /** A part as it is if it says the same, else anew. */
  private part(name: string, text: string, make: () => HTMLElement): HTMLElement {
    const known = this.parts.get(name);
    if (known?.text === text) return known.element;
    const element = make();
    this.parts.set(name, { text, element });
    return element;
  }

  private clicked(event: MouseEvent): void {
    const { hands, row } = this;
    const on = (what: string): boolean =>
      event.target instanceof Element && event.target.closest(what) !== null;
    // Of a double click the second is for the row that came into the place of the first.
    if (event.detail > 1) return;
    if (on('[data-do="log"]')) hands.log(row);
    else if (on('[data-do="way"]')) hands.turnWay(row);
    else if (on('[data-do="boxes"]')) hands.logBoxes();
    else if (on("input, label")) return;
    else if (on(".mark") || event.ctrlKey || event.metaKey) hands.mark(row, false);
    else if (event.shiftKey) hands.mark(row, true);
    else if (row.is === "head") hands.fold(row);
    else hands.focus(row);
  }
}

function cell(look: string, ...children: readonly Child[]): HTMLElement {
  return h("div", { role: "gridcell", class: look }, ...children);
}

function attribute(element: Element, name: string, value: string | null): void {
  if (value === null) element.removeAttribute(name);
  else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

/** Puts children in order without moving those that are in order already: what is moved loses the focus. */
export function arrange(parent: Element, wanted: readonly Element[]): void {
  const keep = new Set(wanted);
  for (const child of [...parent.children]) if (!keep.has(child)) child.remove();
  wanted.forEach((child, at) => {
    const there = parent.children[at] ?? null;
    if (there !== child) parent.insertBefore(child, there);
  });
}
