import { h } from "../shared/dom.ts";
import { Completing } from "./completing.ts";
import type { Desk } from "./desk.ts";
import type { Face, GridColumn } from "./messages.ts";
import { isWide } from "./row.ts";

/** A new row: written when it is whole, since a line without a tank and what was done is none. */
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
    const row = desk.rows.at(desk.cursor.row);
    this.behind = row?.is === "round" ? undefined : row?.id;
    const known = this.known();
    this.inputs = new Map();
    const fields = fieldsOf(desk).map((field) => this.field(field, known[field.id] ?? ""));
    this.problem.textContent = "";
    this.element.setAttribute("aria-label", nameOf(desk.face));
    this.element.replaceChildren(
      ...fields,
      h("button", { type: "submit" }, "Write"),
      h("button", { type: "button", onclick: () => this.close() }, "Close"),
      this.problem,
    );
    this.element.hidden = false;
    desk.table.soon();
    // Most entries have no time.
    const inputs = [...this.inputs].filter(([id]) => id !== "time").map(([, input]) => input);
    (inputs.find((input) => input.value === "") ?? inputs[0])?.focus();
  }

  private field({ id, title, doc }: Field, value: string): HTMLElement {
    const { desk } = this;
    const input = h("input", {
      type: "text",
      id: `fresh-${id}`,
      name: id,
      title: doc,
      spellcheck: "false",
      autocomplete: "off",
    });
    input.value = value;
    // Further readings of a round are those of a test.
    const isRound = desk.face.is === "rounds";
    const fresh = (): Record<string, string> => ({
      ...this.said(),
      ...(isRound ? { tank: this.tank, what: "test" } : {}),
    });
    if (desk.face.is === "entries" || id === "tank" || id === "values") {
      const completing = new Completing(desk, input, { column: id, fresh });
      input.addEventListener("keydown", (event) => {
        if (event.isComposing || !completing.press(event)) return;
        event.preventDefault();
        event.stopPropagation();
      });
    }
    this.inputs.set(id, input);
    return h("label", { for: `fresh-${id}`, class: `field ${id}` }, h("span", {}, title), input);
  }

  /** What is said by where the cursor stands: the day of an entry; a round of a tank is most often of today. */
  private known(): Record<string, string> {
    const { desk } = this;
    const { face } = desk;
    if (face.is === "rounds") return face.of === "tank" ? { date: desk.bar.today } : {};
    const row = desk.rows.at(desk.cursor.row);
    const date = desk.shown.findIndex(({ id }) => id === "date");
    if (face.is !== "entries" || row === undefined || date < 0 || isWide(row)) return {};
    return { date: row.cells[date]?.text ?? "" };
  }

  private get tank(): string {
    const { face } = this.desk;
    return face.is === "rounds" && face.of === "tank" ? face.name : (this.inputs.get("tank")?.value ?? "");
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
    const { face } = desk;
    // The next entry is most often of the same day and tank, the next round of another.
    const kept = face.is === "entries" ? ["date", "tank"] : [];
    for (const [id, input] of this.inputs) if (!kept.includes(id)) input.value = "";
    (this.inputs.get("what") ?? [...this.inputs.values()][0])?.focus();
  }
}

type Field = Pick<GridColumn, "id" | "title" | "doc">;

/** What may be said of a new row: all that is not reckoned; of a definition, which has many properties, those shown. */
function fieldsOf({ face, columns, shown, laying }: Desk): Field[] {
  const written = (face.is === "definitions" ? shown : columns).filter(({ isComputed }) => !isComputed);
  if (face.is === "entries") return written.filter(({ id }) => id !== "values" || laying.isShown(id));
  if (face.is === "definitions") return written;
  // A count of a lot is written among the entries.
  const cells = written.filter(({ id }) => !/^count \S+ \S/.test(id));
  const note = cells.findIndex(({ id }) => id === "note");
  return [...cells.slice(0, note), further, ...cells.slice(note)];
}

const further: Field = {
  id: "values",
  title: "Further readings",
  doc: "Readings that have no column yet: KH 4, phosphate 0.2",
};

export function nameOf(face: Face): string {
  if (face.is === "entries") return "New entry";
  return face.is === "rounds" ? "New round" : `New ${face.of}`;
}
