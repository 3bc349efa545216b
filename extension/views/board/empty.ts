import { type Child, h } from "../shared/dom.ts";
import type { Card } from "./shown.ts";

/** What stands where there is nothing to do: why, and what would put something there. */

function nothing(words: string, ...more: readonly Child[]): HTMLElement {
  return h("div", { class: "nothing" }, h("p", {}, words), ...more);
}

const log = (...lines: readonly string[]): HTMLElement =>
  h("pre", { class: "written", tabindex: 0, role: "group", "aria-label": "An example" }, lines.join("\n"));

export function noLogbook(make: () => void): HTMLElement {
  return nothing(
    "There is no logbook here yet: a file ending in .tank, with the tanks of a room and what is done to them day by day.",
    h("button", { type: "button", class: "action", onclick: make }, "New logbook from sample"),
  );
}

/** Of a card that has nothing to do; null where there is something. */
export function nothingToDo(card: Card): HTMLElement | null {
  if (card.tanks === 0)
    return nothing(
      "No tank is in service. A tank with a duty is on the board on the days it is due:",
      log("tank dam", "  volume 310 L", "  every 7 d change 30 %"),
    );
  if (card.stops.length > 0) return null;
  const next = card.coming.find(({ text, away }) => away === null && text !== "");
  const words = card.feeds.length > 0 ? "Nothing is due today but to feed." : "Nothing is due today.";
  const then = next === undefined ? "" : ` Next is ${next.dayText}: ${next.text}.`;
  return nothing(words + then);
}

export function failed(why: string, again: () => void): HTMLElement {
  return h(
    "div",
    { class: "nothing", role: "alert" },
    h("p", {}, why),
    h("button", { type: "button", class: "action", onclick: again }, "Try again"),
  );
}

export const waiting = (): HTMLElement => h("p", { class: "waiting" }, "Reading the logbook");
