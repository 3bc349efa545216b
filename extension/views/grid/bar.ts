import { dayOf, isoOf } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import type { Desk } from "./desk.ts";
import { nameOf as newName } from "./fresh.ts";
import type { Face, GridChoices } from "./messages.ts";

/** Above the cells: which face of the log is shown, and what can be done with it. */
export class Bar {
  private readonly faces = h("select", { "aria-label": "What is shown", "data-key": "face" });
  private readonly of = h("span", { class: "of" });
  private readonly count = h("span", { class: "count" });
  private readonly filter: HTMLButtonElement;
  private readonly insert: HTMLButtonElement;
  readonly element: HTMLElement;
  private readonly desk: Desk;
  private choices: GridChoices | undefined;

  constructor(desk: Desk) {
    this.desk = desk;
    const button = (words: string, title: string, press: () => void): HTMLButtonElement =>
      h("button", { type: "button", title, onclick: press }, words);
    this.insert = button(newName(desk.face), "Ctrl+Enter", () => desk.fresh.open());
    this.filter = button("Filter", "Filters above the columns", () => desk.order.toggleFilters());
    this.filter.setAttribute("aria-pressed", "false");
    this.element = h(
      "header",
      { class: "bar" },
      h("h1", { class: "unseen" }, "Grid"),
      this.faces,
      this.of,
      this.insert,
      this.filter,
      button("Find", "Ctrl+F", () => desk.find.open(false)),
      button("Chart", "Alt+C: the selected columns, of one row all rows", () => void desk.charting.open()),
      button("Columns", "Which are shown, how many stay, how large", () => desk.chooser.toggle()),
      button("Text", "The same place in the text", () => desk.post({ say: "text" })),
      this.count,
    );
    this.faces.addEventListener("change", () => this.choose(this.faces.value));
  }

  /** The first thing that the keyboard reaches. */
  focus(): void {
    this.faces.focus();
  }

  take(choices: GridChoices): void {
    this.choices = choices;
    this.draw();
  }

  draw(): void {
    const { desk, choices } = this;
    const { face } = desk;
    this.filter.setAttribute("aria-pressed", String(desk.heads.areFiltersShown));
    this.insert.hidden = desk.isReadOnly;
    this.insert.textContent = newName(face);
    const value = nameOf(face);
    const options: [string, string][] = [
      ["file", "Entries of this file"],
      ["all", "Entries of the logbook"],
      ["tank", "Rounds of a tank"],
      ["day", "Rounds on a day"],
      ["definitions", "Definitions"],
    ];
    if (this.faces.childElementCount === 0)
      this.faces.append(...options.map(([name, words]) => h("option", { value: name }, words)));
    this.faces.value = value;
    const key = JSON.stringify([face, choices]);
    if (this.of.dataset.of === key) return;
    this.of.dataset.of = key;
    const focused = this.of.contains(document.activeElement)
      ? (document.activeElement as HTMLElement).dataset.key
      : undefined;
    this.of.replaceChildren(...this.second());
    if (focused !== undefined) this.of.querySelector<HTMLElement>(`[data-key="${focused}"]`)?.focus();
  }

  /** As the log writes it; empty where nobody told yet. */
  get today(): string {
    return this.choices === undefined ? "" : isoOf(this.choices.today);
  }

  tell(words: string): void {
    this.count.textContent = words;
  }

  private second(): HTMLElement[] {
    const { desk, choices } = this;
    const { face } = desk;
    if (choices === undefined) return [];
    switch (face.is) {
      case "entries": {
        const { kind, ...rest } = face;
        const kinds = choices.kinds.map(({ word }) => [word, word] as const);
        return [
          this.select("Kind of entry", [["", "all kinds"], ...kinds], kind ?? "", (word) =>
            desk.showing.show(word === "" ? rest : { ...rest, kind: word }),
          ),
        ];
      }
      case "definitions":
        return [
          this.select(
            "Sort of definition",
            choices.definitions.map(({ word }) => [word, word] as const),
            face.of,
            (word) => desk.showing.show({ is: "definitions", of: word as typeof face.of }),
          ),
        ];
      case "rounds":
        return face.of === "tank" ? [this.tanks(face.name)] : this.days(face.day);
    }
  }

  private tanks(name: string): HTMLElement {
    const places = this.choices!.places.map(
      (each) => [each.name, each.title === "" ? each.name : `${each.name} ${each.title}`] as const,
    );
    return this.select("Tank or system", places, name, (chosen) =>
      this.desk.showing.show({ is: "rounds", of: "tank", name: chosen }),
    );
  }

  private days(day: number): HTMLElement[] {
    const { desk } = this;
    const { firstDay, lastDay } = this.choices!;
    const show = (to: number): void => desk.showing.show({ is: "rounds", of: "day", day: to });
    // Not the browser's own input for days: that shows them as its language does, the log as 2026-03-31.
    const input = h("input", {
      type: "text",
      class: "day",
      "aria-label": "Day, as 2026-03-31",
      "data-key": "day",
      spellcheck: "false",
      autocomplete: "off",
      maxlength: 10,
      value: isoOf(day),
    });
    input.addEventListener("change", () => {
      const to = dayOf(input.value.trim());
      if (Number.isNaN(to)) {
        desk.say("A day is written 2026-03-31");
        input.value = isoOf(day);
      } else show(to);
    });
    input.addEventListener("keydown", (event) => {
      // Its undo is its own.
      if ((event.ctrlKey || event.metaKey) && /^[zy]$/i.test(event.key)) event.stopPropagation();
    });
    const step = (by: number, words: string, sign: string): HTMLElement =>
      h(
        "button",
        {
          type: "button",
          "aria-label": words,
          title: words,
          "data-key": words,
          onclick: () => show(Math.max(firstDay ?? day, Math.min(lastDay ?? day, day + by))),
        },
        sign,
      );
    return [step(-1, "Day before", "‹"), input, step(1, "Day after", "›")];
  }

  private select(
    label: string,
    options: readonly (readonly [value: string, words: string])[],
    value: string,
    take: (value: string) => void,
  ): HTMLElement {
    const known = options.some(([each]) => each === value) ? options : [...options, [value, value] as const];
    const select = h(
      "select",
      { "aria-label": label, "data-key": "of" },
      ...known.map(([each, words]) => h("option", { value: each }, words)),
    );
    select.value = value;
    select.addEventListener("change", () => take(select.value));
    return select;
  }

  private choose(value: string): void {
    const { desk, choices } = this;
    const day = choices?.lastDay ?? choices?.today ?? 0;
    switch (value) {
      case "file":
        desk.showing.show({ is: "entries", path: desk.uri });
        return;
      case "all":
        desk.showing.show({ is: "entries" });
        return;
      case "tank":
        desk.showing.show({
          is: "rounds",
          of: "tank",
          name: desk.tankAtCursor ?? choices?.places[0]?.name ?? "",
        });
        return;
      case "day":
        desk.showing.show({ is: "rounds", of: "day", day: Math.min(day, choices?.today ?? day) });
        return;
      default:
        desk.showing.show({ is: "definitions", of: "tank" });
        return;
    }
  }
}

function nameOf(face: Face): string {
  if (face.is === "entries") return face.path === undefined ? "all" : "file";
  return face.is === "rounds" ? face.of : "definitions";
}
