import { h } from "../shared/dom.ts";
import { Bar } from "./bar.ts";
import { nothingToDo } from "./empty.ts";
import { Grid } from "./grid.ts";
import { headOf } from "./head.ts";
import { keysDialog } from "./help.ts";
import type { Command } from "./keys.ts";
import type { Hands } from "./row.ts";

/** The page: a head, the rows, the bar at the foot with what was said last. */
export class Page {
  readonly grid: Grid;
  private readonly hands: Hands;
  private readonly bar: Bar;
  private readonly head = h("header", { class: "top" });
  private readonly body = h("main", {});
  private readonly before = h("div", { class: "before-all" });
  private readonly after = h("div", { class: "after-all" });
  private readonly voice = h("p", { class: "voice", role: "status", "aria-live": "polite" });
  private readonly foot = h("footer", { class: "foot" });
  private readonly dialog = keysDialog();
  private drawn = "";

  constructor(root: HTMLElement, hands: Hands, act: (command: Command) => void) {
    this.hands = hands;
    this.grid = new Grid(hands);
    this.bar = new Bar(act);
    this.foot.append(this.voice, this.bar.element);
    root.replaceChildren(this.head, this.body, this.foot, this.dialog);
    this.dialog.addEventListener("close", () => this.grid.focusRow());
  }

  /** Says something once, to the eye and to those who listen. */
  say(words: string): void {
    this.voice.textContent = words;
  }

  help(): void {
    this.dialog.showModal();
  }

  /** @param back how many loggings can be taken back */
  update(back: number): void {
    const { card } = this.hands.model;
    if (card === undefined) return;
    const { body, grid, before, after } = this;
    body.removeAttribute("aria-busy");
    if (grid.element.parentElement !== body) body.replaceChildren(before, grid.element, after);
    const text = JSON.stringify([
      card.title,
      card.dayText,
      card.away,
      card.load,
      card.tanks,
      card.stops,
      card.feeds,
      card.notices,
      card.coming,
      card.cautions,
    ]);
    if (text !== this.drawn) {
      this.drawn = text;
      this.head.replaceChildren(...headOf(card));
      before.replaceChildren(...[nothingToDo(card)].filter((each) => each !== null));
      after.replaceChildren(...card.cautions.map((each) => h("p", { class: "caution" }, each)));
    }
    grid.update();
    this.bar.update(this.hands.model, back);
    this.foot.hidden = grid.element.hidden && !card.hasRound;
  }

  /** Something in place of the rows. */
  instead(element: HTMLElement, isBusy = false): void {
    this.drawn = "";
    this.head.replaceChildren();
    this.foot.hidden = true;
    this.body.replaceChildren(element);
    if (isBusy) this.body.setAttribute("aria-busy", "true");
    else this.body.removeAttribute("aria-busy");
  }
}
