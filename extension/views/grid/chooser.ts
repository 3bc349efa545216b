import { h } from "../shared/dom.ts";
import type { Desk } from "./desk.ts";

/** Which columns are shown, how many of the first stay when the rest is scrolled, how large all is. */
export class Chooser {
  readonly element = h("section", { class: "chooser", hidden: true, "aria-label": "Columns" });
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
    this.element.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      event.stopPropagation();
      this.close();
    });
  }

  toggle(): void {
    if (!this.element.hidden) {
      this.close();
      return;
    }
    this.draw();
    this.element.hidden = false;
    this.element.querySelector<HTMLElement>("input")?.focus();
    this.desk.table.soon();
  }

  close(): void {
    this.element.hidden = true;
    this.desk.table.soon();
    this.desk.takeFocus();
  }

  private draw(): void {
    const { desk } = this;
    const boxes = desk.columns.map(({ id, title, doc, isComputed }, at) => {
      const box = h("input", { type: "checkbox", id: `column-${at}`, checked: desk.laying.isShown(id) });
      box.addEventListener("change", () => {
        if (!desk.laying.showColumn(id, box.checked)) box.checked = true;
      });
      return h(
        "label",
        { for: `column-${at}`, class: "check", title: doc },
        box,
        title,
        isComputed && h("small", {}, " reckoned"),
      );
    });
    const frozen = h("input", {
      type: "number",
      id: "frozen",
      min: 0,
      max: Math.min(6, desk.shown.length - 1),
      value: desk.layout.frozen,
    });
    frozen.addEventListener("change", () => desk.laying.freeze(Number(frozen.value)));
    const zoom = h("input", {
      type: "number",
      id: "zoom",
      min: 60,
      max: 200,
      step: 10,
      value: Math.round(desk.zoom * 100),
    });
    zoom.addEventListener("change", () => desk.laying.zoomTo(Number(zoom.value) / 100));
    this.element.replaceChildren(
      h("fieldset", {}, h("legend", {}, "Shown"), ...boxes),
      h("label", { for: "frozen", class: "number" }, "First columns that stay", frozen),
      h("label", { for: "zoom", class: "number" }, "Size in %", zoom),
      h("button", { type: "button", onclick: () => this.reset() }, "As at first"),
      h("button", { type: "button", onclick: () => this.close() }, "Close"),
    );
  }

  private reset(): void {
    this.desk.laying.resetLayout();
    this.close();
  }
}
