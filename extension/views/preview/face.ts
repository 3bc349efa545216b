import type { Child } from "../shared/dom.ts";
import { h } from "../shared/dom.ts";
import type { Folding, Leading } from "../shared/parts.ts";
import type { Place } from "./shown.ts";

export { folding, leadsTo } from "../shared/parts.ts";

/** What the parts of the preview may ask of it. */
export interface Face extends Leading<Place>, Folding {
  showTank(name: string): void;
  showDay(day: number): void;
  showCase(name: string, episode: number): void;
  /** Another tank, by the editor's own list. */
  pick(): void;
  pin(isPinned: boolean): void;
  readonly isPinned: boolean;
  /** Says something once to those who listen. */
  say(words: string): void;
  /** How many days back the charts go. */
  readonly days: number;
  setDays(days: number): void;
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
