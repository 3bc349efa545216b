import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { padlock } from "../shared/icons.ts";
import { caseView } from "./case.ts";
import { dayView } from "./day.ts";
import type { Face } from "./face.ts";
import { nothing } from "./face.ts";
import type { Card } from "./shown.ts";
import { type CardView, tankView } from "./tank.ts";

/** The page: a head that stays, the parts of a card below it, one place from which things are said. */
export class Page {
  private readonly root: HTMLElement;
  private readonly voice = h("div", { class: "unseen", "aria-live": "polite", role: "status" });
  private readonly body = h("main", { class: "card" });
  private readonly head = h("header", { class: "top" });
  private view: CardView | undefined;

  constructor(root: HTMLElement) {
    this.root = root;
    root.replaceChildren(this.head, this.body, this.voice);
  }

  say(words: string): void {
    this.voice.textContent = words;
  }

  /** Draws a card; the focus stays where it was if that is still there. */
  show(face: Face, card: Card): void {
    const focused = document.activeElement?.getAttribute("data-key");
    for (const charts of this.view?.charts ?? []) charts.unwatch();
    const view = viewOf(face, card);
    this.view = view;
    this.root.removeAttribute("aria-busy");
    this.head.replaceChildren(...headOf(face, view, card));
    this.body.className = `card ${card.is}`;
    this.body.replaceChildren(
      h("p", { class: "about" }, ...view.about.map((each) => h("span", {}, each))),
      h("div", { class: "upper" }, ...view.first),
      h("div", { class: "wide" }, ...view.wide),
      h("div", { class: "lower" }, ...view.last),
    );
    if (focused != null) this.find(focused)?.focus({ preventScroll: true });
  }

  /** While nothing has been heard yet. */
  wait(): void {
    this.root.setAttribute("aria-busy", "true");
    this.head.replaceChildren();
    this.body.replaceChildren(h("p", { class: "waiting" }, "Reading the logbook"));
  }

  empty(): void {
    this.root.removeAttribute("aria-busy");
    this.head.replaceChildren();
    this.body.replaceChildren(
      nothing(
        "The tank, the day or the case at the cursor is shown here. Put the cursor on an entry, a day, the definition of a tank or the name of a case:",
        "tank dam",
        "  volume 310 L",
        "",
        "2026-03-01",
        "  dam  test nitrate 18 mg/L",
      ),
    );
  }

  fail(why: string, again: () => void): void {
    this.root.removeAttribute("aria-busy");
    this.head.replaceChildren();
    this.body.replaceChildren(
      h(
        "div",
        { class: "nothing", role: "alert" },
        h("p", {}, why),
        h("button", { type: "button", class: "action", "data-key": "again", onclick: again }, "Try again"),
      ),
    );
  }

  private find(key: string): HTMLElement | undefined {
    return [...this.root.querySelectorAll<HTMLElement>("[data-key]")].find(
      (each) => each.dataset.key === key,
    );
  }
}

function viewOf(face: Face, card: Card): CardView {
  switch (card.is) {
    case "tank":
      return tankView(face, card);
    case "day":
      return dayView(face, card);
    case "case":
      return caseView(face, card);
  }
}

function headOf(face: Face, { name, title }: CardView, card: Card): HTMLElement[] {
  const what = card.is === "day" ? spokenDay(card.day) : name;
  const isPinned = face.isPinned;
  const lock = isPinned ? `Follow the cursor again` : `Stay with ${what}`;
  return [
    h("h1", {}, name, title !== "" && h("small", {}, title)),
    h("button", { type: "button", class: "tool", "data-key": "pick", onclick: () => face.pick() }, "Tanks"),
    h(
      "button",
      {
        type: "button",
        class: "tool",
        "data-key": "pin",
        "aria-pressed": String(isPinned),
        "aria-label": `Stay with ${what}`,
        title: lock,
        onclick: () => face.pin(!isPinned),
      },
      padlock(isPinned),
    ),
  ];
}
