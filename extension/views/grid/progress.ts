import { h } from "../shared/dom.ts";
import type { Waiting } from "./asking.ts";
import type { Desk } from "./desk.ts";

/** Who waits so long is told for what. */
const patienceMs = 250;
/** Spoken at each of these. */
const spokenPercent = 25;

/** What takes long: how much of it is done, and a key and a button that give it up. */
export class Progress {
  private readonly bar = h("progress", { max: 100, "aria-labelledby": "waiting-for" });
  private readonly words = h("span", { id: "waiting-for" });
  readonly element = h(
    "div",
    { class: "waiting-for", hidden: true },
    this.words,
    this.bar,
    h("button", { type: "button", title: "Escape", onclick: () => this.giveUp() }, "Cancel"),
  );
  private readonly desk: Desk;
  private readonly open = new Set<() => void>();

  constructor(desk: Desk) {
    this.desk = desk;
  }

  get isWaiting(): boolean {
    return !this.element.hidden;
  }

  /** @param what is done, in words @returns what is told of it, and what ends it */
  begin(what: string): Waiting & { end(): void } {
    let giveUp = (): void => {};
    let spoken = 0;
    const own = (): void => giveUp();
    const show = setTimeout(() => {
      this.words.textContent = what;
      this.bar.removeAttribute("value");
      this.element.hidden = false;
      this.desk.table.soon();
    }, patienceMs);
    this.open.add(own);
    return {
      begun: (give) => {
        giveUp = give;
      },
      share: (share) => {
        const percent = Math.min(99, Math.floor(100 * share));
        this.bar.value = percent;
        this.words.textContent = `${what}: ${percent} %`;
        if (!this.isWaiting || percent < spoken + spokenPercent) return;
        spoken = percent - (percent % spokenPercent);
        this.desk.say(`${percent} %`);
      },
      end: () => {
        clearTimeout(show);
        this.open.delete(own);
        if (this.open.size > 0) return;
        this.element.hidden = true;
        this.desk.table.soon();
      },
    };
  }

  giveUp(): void {
    for (const each of this.open) each();
    this.desk.takeFocus();
  }
}
