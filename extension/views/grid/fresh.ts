import { h } from "../shared/dom.ts";
import { Completing } from "./completing.ts";
import type { Desk } from "./desk.ts";

/** A new entry: written when it is whole, since a line without a tank and what was done is none. */
export class Fresh {
  readonly element = h("form", { class: "fresh", hidden: true, "aria-label": "New entry" });
  private readonly problem = h("p", { class: "problem", role: "alert" });
  private readonly desk: Desk;
  private inputs = new Map<string, HTMLInputElement>();
  private behind: string | undefined;

  constructor(desk: Desk) {
    this.desk = desk;
    this.element.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.write();
    });
    this.element.addEventListener("keydown", (event) => {
      const { key, ctrlKey, metaKey } = event;
      if (event.defaultPrevented) return;
      if (key === "Escape") {
        event.preventDefault();
        event.stopPropagation();
        this.close();
      } else if (
        event.target instanceof HTMLInputElement &&
        (key.length === 1 || ctrlKey || metaKey) &&
        !((ctrlKey || metaKey) && /^[sSpP]$/.test(key))
      )
        event.stopPropagation();
    });
  }

  open(): void {
    const { desk } = this;
    if (desk.isReadOnly) {
      desk.refuse("This file cannot be written.");
      return;
    }
    if (desk.face.is !== "entries") {
      const isRounds = desk.face.is === "rounds";
      desk.refuse(
        isRounds
          ? "New rounds are written among the entries, or in an empty row of a day."
          : "New definitions are written in the text.",
      );
      return;
    }
    const row = desk.rows.at(desk.cursor.row);
    this.behind = row?.is === "round" || row?.is === "definition" ? undefined : row?.id;
    const date = row === undefined ? -1 : desk.shown.findIndex(({ id }) => id === "date");
    const day =
      date < 0 || row === undefined || row.is === "comment" || row.is === "text"
        ? ""
        : (row.cells[date]?.text ?? "");
    const columns = desk.columns.filter(
      ({ isComputed, id }) => !isComputed && (id !== "values" || desk.laying.isShown(id)),
    );
    this.inputs = new Map();
    const fields = columns.map(({ id, title, doc }) => {
      const input = h("input", {
        type: "text",
        id: `fresh-${id}`,
        name: id,
        title: doc,
        spellcheck: "false",
        autocomplete: "off",
      });
      if (id === "date") input.value = day;
      const fresh = (): Record<string, string> => this.said();
      const completing = new Completing(desk, input, { column: id, fresh });
      input.addEventListener("keydown", (event) => {
        if (event.isComposing || !completing.press(event)) return;
        event.preventDefault();
        event.stopPropagation();
      });
      this.inputs.set(id, input);
      return h("label", { for: `fresh-${id}`, class: `field ${id}` }, h("span", {}, title), input);
    });
    this.problem.textContent = "";
    this.element.replaceChildren(
      ...fields,
      h("button", { type: "submit" }, "Write"),
      h("button", { type: "button", onclick: () => this.close() }, "Close"),
      this.problem,
    );
    this.element.hidden = false;
    desk.table.soon();
    (this.inputs.get(day === "" ? "date" : "tank") ?? [...this.inputs.values()][0])?.focus();
  }

  close(): void {
    this.element.hidden = true;
    this.desk.table.soon();
    this.desk.takeFocus();
  }

  private said(): Record<string, string> {
    return Object.fromEntries([...this.inputs].map(([id, input]) => [id, input.value]));
  }

  private async write(): Promise<void> {
    const { desk, behind } = this;
    const row = Object.fromEntries(Object.entries(this.said()).filter(([, text]) => text.trim() !== ""));
    const written = await desk.changes.changed({
      is: "insert",
      ...(behind === undefined ? {} : { behind }),
      rows: [row],
    });
    if (written.is === "refused") {
      // What was typed stays.
      this.problem.textContent = written.message;
      return;
    }
    this.problem.textContent = "";
    desk.say(`written: ${Object.values(row).join(" ")}`);
    // The next is most often of the same day and tank.
    for (const [id, input] of this.inputs) if (id !== "date" && id !== "tank") input.value = "";
    this.inputs.get("what")?.focus();
  }
}
