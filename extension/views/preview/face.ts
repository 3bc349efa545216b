import type { Attributes, Child } from "../shared/dom.ts";
import { h } from "../shared/dom.ts";
import type { Place } from "./shown.ts";

/** What the parts of the preview may ask of it. */
export interface Face {
  /** Puts the cursor of the editor on a place of the log. */
  reveal(at: Place): void;
  showTank(name: string): void;
  showDay(day: number): void;
  showCase(name: string, episode: number): void;
  /** Another tank, by the editor's own list. */
  pick(): void;
  pin(isPinned: boolean): void;
  readonly isPinned: boolean;
  /** Says something once to those who listen. */
  say(words: string): void;
  /** Whether a part that folds is unfolded; kept over reloads. */
  isOpen(key: string): boolean;
  setOpen(key: string, isOpen: boolean): void;
  /** How many days back the charts go. */
  readonly days: number;
  setDays(days: number): void;
}

/** A button that leads to a place of the log; plain content where there is no place. `key` holds the focus over a redraw. */
export function leadsTo(
  face: Face,
  at: Place | null,
  key: string,
  look: string,
  ...children: readonly Child[]
): HTMLElement {
  if (at === null) return h("span", { class: look }, ...children);
  const go: Attributes = { type: "button", class: `leads ${look}`, "data-key": key };
  return h("button", { ...go, onclick: () => face.reveal(at) }, ...children);
}

/** A button that shows the card of a tank or system. */
export function leadsToTank(face: Face, name: string, key: string, words = name): HTMLElement {
  const attributes = { type: "button", class: "leads name", "data-key": key };
  return h("button", { ...attributes, onclick: () => face.showTank(name) }, words);
}

/** A button that shows the card of a case. */
export function leadsToCase(
  face: Face,
  name: string,
  episode: number,
  key: string,
  words = name,
): HTMLElement {
  const attributes = { type: "button", class: "leads name", "data-key": key };
  return h("button", { ...attributes, onclick: () => face.showCase(name, episode) }, words);
}

/** A part that folds; what is in it is made when it is first unfolded. */
export function folding(
  face: Face,
  key: string,
  look: string,
  summary: readonly Child[],
  content: () => readonly Child[],
): HTMLDetailsElement {
  const details = h(
    "details",
    { class: look, open: face.isOpen(key) },
    h("summary", { "data-key": key }, ...summary),
  );
  let isMade = false;
  const make = (): void => {
    if (isMade || !details.open) return;
    isMade = true;
    details.append(...content().filter((child) => child instanceof Node));
  };
  make();
  details.addEventListener("toggle", () => {
    make();
    face.setOpen(key, details.open);
  });
  return details;
}

/** A part of the preview with its head. */
export function section(key: string, title: string, ...children: readonly Child[]): HTMLElement {
  const id = `head-${key}`;
  return h("section", { class: `part ${key}`, "aria-labelledby": id }, h("h2", { id }, title), ...children);
}

/** What a part says when there is nothing in it: what would put something there, and how it is written. */
export function nothing(words: string, ...lines: readonly string[]): HTMLElement {
  return h(
    "div",
    { class: "nothing" },
    h("p", {}, words),
    lines.length > 0 && h("pre", { class: "log" }, lines.join("\n")),
  );
}
