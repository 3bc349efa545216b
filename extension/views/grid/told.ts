import { h } from "../shared/dom.ts";
import type { Desk } from "./desk.ts";
import type { GridPage } from "./messages.ts";

/** What is told beside the cells: what is to be known of the file, how many rows there are, why there are none. */
export class Told {
  readonly noticeElement = h("p", { class: "notice", role: "note", hidden: true });
  readonly emptyElement = h("div", { class: "empty", hidden: true });
  readonly voice = h("div", { class: "unseen", role: "status", "aria-live": "polite" });
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  notice(words: string): void {
    this.noticeElement.textContent = words;
    this.noticeElement.hidden = words === "";
  }

  /** Said once to those who listen. */
  say(words: string): void {
    this.voice.textContent = "";
    this.voice.textContent = words;
  }

  count({ total, problem }: GridPage, isSaid: boolean): void {
    const { desk } = this;
    const filters = Object.values(desk.filter).filter((each) => each !== "").length;
    const words = `${total.toLocaleString("en")} rows${filters > 0 ? `, ${filters === 1 ? "a filter" : `${filters} filters`}` : ""}`;
    const limit =
      total * desk.table.rowHeight > 16_000_000 ? "; more than can be scrolled, filter or sort" : "";
    desk.bar.tell(problem === "" ? words + limit : `${words}; ${problem}`);
    if (isSaid) this.say(problem === "" ? words : problem);
  }

  empty({ total }: GridPage): void {
    this.emptyElement.hidden = total > 0;
    if (total > 0) return;
    const { face, filter } = this.desk;
    const isFiltered = Object.values(filter).some((each) => each !== "");
    const words = isFiltered
      ? "No row is what the filters ask for."
      : face.is === "entries"
        ? "No entry here yet. Ctrl+Enter writes one; definitions are shown by the choice at the top left."
        : face.is === "rounds"
          ? "Nothing was tested or counted here. Ctrl+Enter writes a first round."
          : `No ${face.of} is defined. Ctrl+Enter defines one.`;
    this.emptyElement.replaceChildren(
      h("p", {}, words),
      ...(isFiltered
        ? [h("button", { type: "button", onclick: () => this.desk.order.clearFilters() }, "Clear filters")]
        : []),
    );
  }

  failed(words: string): void {
    this.emptyElement.hidden = false;
    this.emptyElement.replaceChildren(
      h(
        "div",
        { role: "alert" },
        h("p", {}, words),
        h("button", { type: "button", onclick: () => this.desk.stale() }, "Try again"),
      ),
    );
  }
}
