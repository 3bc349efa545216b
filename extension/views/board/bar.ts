import { h } from "../shared/dom.ts";
import type { Command } from "./keys.ts";
import type { Model } from "./model.ts";
import { aboutOf, placeOf } from "./sections.ts";
import { boardSign, type Sign } from "./signs.ts";

/** The bar at the foot: the same as the keys, for the pointer and for those who look for words. */

interface Tool {
  readonly command: Command;
  readonly sign: Sign;
  readonly words: string;
  readonly key: string;
}

const tools: readonly Tool[] = [
  { command: "log", sign: "done", words: "Log", key: "Enter" },
  { command: "takeBack", sign: "back", words: "Take back", key: "U" },
  { command: "edit", sign: "edit", words: "Edit", key: "E" },
  { command: "place", sign: "place", words: "Where stated", key: "O" },
  { command: "about", sign: "about", words: "Preview", key: "P" },
  { command: "round", sign: "round", words: "Round sheet", key: "R" },
  { command: "sheet", sign: "sheet", words: "Tests due", key: "S" },
  { command: "help", sign: "help", words: "Keys", key: "?" },
];

export class Bar {
  readonly element = h("div", { role: "toolbar", class: "tools", "aria-label": "What can be done" });
  private readonly buttons: readonly (readonly [Tool, HTMLButtonElement, HTMLElement])[];

  constructor(act: (command: Command) => void) {
    this.buttons = tools.map((tool, at) => {
      const words = h("span", { class: "words" }, tool.words);
      const button = h(
        "button",
        {
          type: "button",
          class: `tool ${tool.command}`,
          tabindex: at === 0 ? 0 : -1,
          title: `${tool.words} (${tool.key})`,
          onclick: () => button.getAttribute("aria-disabled") !== "true" && act(tool.command),
        },
        boardSign(tool.sign),
        words,
      );
      return [tool, button, words];
    });
    this.element.append(...this.buttons.map(([, button]) => button));
    this.element.addEventListener("keydown", (event) => this.step(event));
  }

  /** @param back how many loggings can be taken back */
  update(model: Model, back: number): void {
    const { focused, task, memory } = model;
    const isPossible: Partial<Record<Command, boolean>> = {
      log: memory.marks.length > 0 || task !== null,
      takeBack: back > 0,
      edit: task !== null,
      place: focused !== undefined && placeOf(focused) !== null,
      about: focused !== undefined && aboutOf(focused, model.sections) !== null,
      round: model.card?.hasRound === true,
    };
    for (const [{ command, words: usual }, button, words] of this.buttons) {
      const { length } = memory.marks;
      const isOfMarks = command === "log" && length > 0;
      const text = isOfMarks ? `${usual} ${length}` : usual;
      if (words.textContent !== text) words.textContent = text;
      button.setAttribute("aria-label", isOfMarks ? `${text} marked` : text);
      button.setAttribute("aria-disabled", String(isPossible[command] === false));
    }
  }

  /** Arrow keys within the bar: it is one stop for Tab. */
  private step(event: KeyboardEvent): void {
    const step = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -1, ArrowDown: 1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    const { buttons } = this;
    const here = buttons.findIndex(([, button]) => button === document.activeElement);
    const next = (here + step + buttons.length) % buttons.length;
    buttons.forEach(([, button], at) => {
      button.tabIndex = at === next ? 0 : -1;
    });
    buttons[next]?.[1].focus();
  }
}
