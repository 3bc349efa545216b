import { isoOf } from "../../../../language/book/dates.ts";
import type { FilePlace } from "../../../../language/server/protocol.ts";
import { h, svg } from "../dom.ts";
import { type Folding, folding, type Leading, leadsTo } from "../parts.ts";
import { draw } from "./draw.ts";
import { type Layout, layOut, margin, type Plot } from "./plot.ts";
import { nearestStop, type Stop, stopAfterKey, stopWords } from "./stops.ts";

/** A chart with a cursor: by arrow keys or the pointer; what it stands on is written beside the chart, and said. */

export interface ChartContent<At = FilePlace> {
  /** Names it among the charts of the page. */
  readonly key: string;
  /** For those who hear it: `nitrate in dam, at most 40 mg/L`. */
  readonly name: string;
  readonly plot: Plot;
  readonly stops: readonly Stop<At>[];
  readonly heightPx: number;
  /** What the column of values is called in the table. */
  readonly valueHead: string;
}

/** What a chart asks of its page. */
export interface ChartOwner<At = FilePlace> extends Leading<At>, Folding {
  /** Says something once to those who listen. */
  say(words: string): void;
}

export class Chart<At = FilePlace> {
  readonly element: HTMLElement;
  /** Where the words for the stop of the cursor go. */
  readonly readout: HTMLElement;
  private readonly content: ChartContent<At>;
  private readonly owner: ChartOwner<At>;
  private readonly stops: readonly Stop<At>[];
  private readonly paper: HTMLElement;
  private readonly thread = svg("path", { class: "thread" });
  private readonly ring = svg("path", { class: "ring" });
  private layout: Layout | undefined;
  private at: number | undefined;
  private isPointing = false;
  /** Told where the cursor is, so that the other charts can mark the same time. */
  onTime: (time: number | undefined) => void = () => {};

  constructor(owner: ChartOwner<At>, content: ChartContent<At>, rest: string) {
    this.owner = owner;
    this.content = content;
    const { plot } = content;
    this.stops = content.stops.filter((stop) => stop.time >= plot.from && stop.time <= plot.to);
    this.readout = h("span", { class: "readout", "data-rest": rest }, rest);
    this.paper = h("div", {
      class: "paper",
      role: "application",
      "aria-roledescription": "chart",
      "aria-label": `${content.name}: ${this.stops.length} figures. Arrow keys go from one to the next, Enter to its line.`,
      tabindex: 0,
      "data-key": `chart-${content.key}`,
      onkeydown: (event: Event) => this.key(event as KeyboardEvent),
      onpointermove: (event: Event) => this.point(event as PointerEvent),
      onpointerleave: () => {
        this.isPointing = false;
        this.go(undefined);
      },
      onclick: () => this.reveal(),
      onblur: () => this.go(undefined),
    });
    this.element = h("div", { class: "chart" }, this.paper);
  }

  /** The same figures as a table, of days the latest first, unfolded on demand. */
  table(): HTMLElement {
    const { key, name, valueHead, plot } = this.content;
    const made = () =>
      this.stops.map((stop, at) =>
        h(
          "tr",
          {},
          h(
            "td",
            {},
            leadsTo(
              this.owner,
              stop.at,
              `row-${key}-${at}`,
              "date",
              stop.name ?? isoOf(Math.floor(stop.time)),
            ),
          ),
          h("td", { class: "figure" }, stop.text),
          h("td", {}, stop.remark),
        ),
      );
    const rows = () => (plot.names === undefined ? made().reverse() : made());
    const head = h(
      "tr",
      {},
      ...[plot.names === undefined ? "Day" : "Name", valueHead, "Remark"].map((word) =>
        h("th", { scope: "col" }, word),
      ),
    );
    return folding(
      this.owner,
      `table-${key}`,
      "figures",
      ["Figures", h("span", { class: "unseen" }, ` of ${name}`)],
      () => [
        h(
          "table",
          { "data-now": plot.now },
          h("caption", { class: "unseen" }, name),
          h("thead", {}, head),
          h("tbody", {}, ...rows()),
        ),
      ],
    );
  }

  drawAt(widthPx: number): void {
    this.layout = layOut(this.content.plot, widthPx, this.content.heightPx);
    this.paper.replaceChildren(draw(this.layout, this.thread, this.ring));
    this.mark(this.at);
  }

  /** Marks a time that the cursor of another chart stands on. */
  showTime(time: number | undefined): void {
    if (this.at !== undefined) return;
    this.threadAt(time);
  }

  private key(event: KeyboardEvent): void {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      this.reveal();
      return;
    }
    if (event.key === "Escape") {
      this.go(undefined);
      return;
    }
    const to = stopAfterKey(event.key, this.at, this.stops, this.content.plot.now);
    if (to === undefined) return;
    event.preventDefault();
    this.isPointing = false;
    this.go(to);
    this.owner.say(stopWords(this.stops[to]!, this.content.plot.now));
  }

  private point(event: PointerEvent): void {
    if (this.layout === undefined) return;
    const { from, to } = this.content.plot;
    const x = event.clientX - this.paper.getBoundingClientRect().left;
    const share = (x - margin.left) / (this.layout.width - margin.left - margin.right);
    const nearest = nearestStop(this.stops, from + share * (to - from));
    this.isPointing = true;
    this.go(nearest < 0 ? undefined : nearest);
  }

  private reveal(): void {
    const at = this.at === undefined ? undefined : this.stops[this.at]?.at;
    if (at !== undefined && at !== null) this.owner.reveal(at);
  }

  private go(to: number | undefined): void {
    if (to === this.at) return;
    this.at = to;
    this.mark(to);
    this.onTime(to === undefined ? undefined : this.stops[to]!.time);
  }

  private mark(at: number | undefined): void {
    const stop = at === undefined ? undefined : this.stops[at];
    const { readout, layout } = this;
    readout.replaceChildren(
      stop === undefined ? (readout.dataset.rest ?? "") : stopWords(stop, this.content.plot.now),
    );
    readout.classList.toggle("moved", stop !== undefined);
    this.paper.classList.toggle("leads", stop?.at != null && this.isPointing);
    this.threadAt(stop?.time);
    if (layout === undefined) return;
    const isSeen = stop !== undefined && stop.value !== null;
    this.ring.setAttribute(
      "d",
      isSeen ? `M${layout.x(stop.time) - 6} ${layout.y(stop.value!)}a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z` : "",
    );
  }

  private threadAt(time: number | undefined): void {
    const { layout } = this;
    const isSeen = time !== undefined && layout !== undefined;
    this.thread.setAttribute(
      "d",
      isSeen ? `M${layout.x(time)} ${margin.top}V${layout.height - margin.bottom}` : "",
    );
  }
}
