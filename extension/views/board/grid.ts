import { h } from "../shared/dom.ts";
import { boxKey } from "./boxes.ts";
import { arrange, type Hands, RowView } from "./row.ts";
import type { Row, Section } from "./sections.ts";
import type { Task } from "./shown.ts";

/**
 * The rows as a tree grid: one stop for Tab, the focus goes from row to row, several are marked. Two columns where there is room: what to do, and
 * what to know; the order is the same.
 */
export class Grid {
  readonly element = h("div", {
    role: "treegrid",
    class: "grid",
    "aria-label": "The day",
    "aria-multiselectable": "true",
  });
  private readonly todo = h("div", { class: "column todo", role: "none" });
  private readonly know = h("div", { class: "column know", role: "none" });
  private readonly hands: Hands;
  private readonly groups = new Map<string, HTMLElement>();
  private readonly views = new Map<string, RowView>();

  constructor(hands: Hands) {
    this.hands = hands;
    this.element.append(this.todo, this.know);
  }

  /** Draws what the model holds; what did not change stays as it is. */
  update(): void {
    const { sections, rows } = this.hands.model;
    const isLeft = new Set(rows.map(({ key }) => key));
    for (const key of this.views.keys()) if (!isLeft.has(key)) this.views.delete(key);
    const bySection = new Map<string, Row[]>();
    for (const row of rows) {
      const known = bySection.get(row.section);
      if (known === undefined) bySection.set(row.section, [row]);
      else known.push(row);
    }
    const groups = sections.map((section) => this.group(section, bySection.get(section.key) ?? []));
    const isTodo = ({ is }: Section): boolean => is === "stop" || is === "feeds";
    arrange(
      this.todo,
      groups.filter((_, at) => isTodo(sections[at]!)),
    );
    arrange(
      this.know,
      groups.filter((_, at) => !isTodo(sections[at]!)),
    );
    this.todo.hidden = this.todo.childElementCount === 0;
    this.know.hidden = this.know.childElementCount === 0;
    this.element.hidden = rows.length === 0;
    for (const key of this.groups.keys())
      if (!sections.some((section) => section.key === key)) this.groups.delete(key);
  }

  private group({ key, is, stop }: Section, rows: readonly Row[]): HTMLElement {
    const group = this.groups.get(key) ?? h("div", { role: "rowgroup" });
    this.groups.set(key, group);
    const isNewStage = stop !== null && stop.before !== "";
    group.className = `part ${is}${isNewStage ? " stage-begins" : ""}`;
    arrange(
      group,
      rows.map((row) => {
        const view = this.views.get(row.key) ?? new RowView(this.hands, row);
        this.views.set(row.key, view);
        view.update(row);
        return view.element;
      }),
    );
    return group;
  }

  /** The focus to the row that has it in the model. */
  focusRow(isScrolling = true): void {
    const view = this.views.get(this.hands.model.memory.focus);
    view?.element.focus({ preventScroll: true });
    if (isScrolling) view?.element.scrollIntoView({ block: "nearest" });
  }

  /** The focus to a box; false where there is none. */
  focusBox(task: Task, at = 0): boolean {
    const key = boxKey(task, at);
    const box = this.boxes().find((each) => each.dataset.box === key);
    return this.enter(box);
  }

  /** To the next box or the one before; false at the end. */
  stepBox(from: HTMLElement, step: 1 | -1): boolean {
    return this.enter(this.boxBeside(from, step));
  }

  hasBox(from: HTMLElement, step: 1 | -1): boolean {
    return this.boxBeside(from, step) !== undefined;
  }

  private boxBeside(from: HTMLElement, step: 1 | -1): HTMLInputElement | undefined {
    const boxes = this.boxes();
    return boxes[boxes.findIndex((each) => each.isSameNode(from)) + step];
  }

  boxes(): HTMLInputElement[] {
    return [...this.element.querySelectorAll<HTMLInputElement>("input[data-box]")];
  }

  private enter(box: HTMLInputElement | undefined): boolean {
    if (box === undefined) return false;
    box.focus({ preventScroll: true });
    box.select();
    box.closest('[role="row"]')?.scrollIntoView({ block: "nearest" });
    return true;
  }
}
