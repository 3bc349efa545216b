import { isoOf } from "../../../language/book/dates.ts";
import { Chart, type ChartOwner } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import { h } from "../shared/dom.ts";
import { wordsOf } from "./asking.ts";
import { chartedShape } from "./chart-messages.ts";
import { plotOf, type Span, spanOf, stopOf } from "./charted.ts";
import type { Desk } from "./desk.ts";
import type { ChartOver, GridCharted, RowRange } from "./messages.ts";

/** So long the text rests before what is drawn is drawn anew. */
const restMs = 300;
const heightPx = 96;

type Column = GridCharted["columns"][number];

/** Charts of the selected columns below the cells, one above the other with an axis of values each. */
export class Charting implements ChartOwner<string> {
  readonly element = h("section", { class: "charts", hidden: true, "aria-label": "Charts" });
  private readonly desk: Desk;
  private charts: Charts | undefined;
  /** What is drawn: all rows, or those that were selected. */
  private over: ChartOver | "all" | undefined;
  private columns: readonly string[] = [];
  private resting: ReturnType<typeof setTimeout> | undefined;
  private turn = 0;
  private readonly unfolded = new Set<string>();

  constructor(desk: Desk) {
    this.desk = desk;
    this.element.addEventListener("keydown", (event) => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      event.stopPropagation();
      this.close();
    });
  }

  /** Draws what is selected; of one row the whole columns. */
  async open(): Promise<void> {
    const { desk } = this;
    const { box } = desk.cursor;
    if (desk.rows.total === 0) return desk.refuse("There are no rows to draw.");
    const isWhole = box.top === box.bottom;
    this.columns = desk.shown.slice(box.left, box.right + 1).map(({ id }) => id);
    try {
      const over = await this.allOr(isWhole ? undefined : await desk.changes.rangeOf(box));
      const made = await this.ask(over);
      if (made === undefined) return;
      if (made === "moved") return desk.refuse("The rows were moved by an edit meanwhile: draw them again.");
      const [first] = made.left;
      if (made.columns.length === 0)
        return desk.refuse(
          made.left.length === 1 && first !== undefined
            ? `${first.title} is not drawn: ${first.why}.`
            : "There are no numbers in this selection: choose columns of figures.",
        );
      this.over = isWhole ? "all" : { rows: made.rows, columns: this.columns };
      this.show(made);
      this.element.querySelector<HTMLElement>(".paper")?.focus();
      const names = made.columns.map(({ title }) => title).join(", ");
      desk.say(`${made.columns.length === 1 ? "Chart" : `${made.columns.length} charts`} of ${names}`);
    } catch (error) {
      desk.refuse(wordsOf(error));
    }
  }

  close(): void {
    const hadFocus = this.element.contains(document.activeElement);
    this.hide();
    if (hadFocus) this.desk.takeFocus();
  }

  hide(): void {
    this.turn++;
    clearTimeout(this.resting);
    this.over = undefined;
    this.charts?.unwatch();
    this.charts = undefined;
    this.element.hidden = true;
    this.element.replaceChildren();
    this.desk.table.soon();
  }

  /** The text is another: so may be what is drawn. */
  stale(): void {
    if (this.over === undefined) return;
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.again(), restMs);
  }

  private async again(): Promise<void> {
    const { over } = this;
    if (over === undefined) return;
    try {
      const made = await this.ask(over === "all" ? await this.allOr() : over);
      // Moved between two questions: the next change of the text asks again.
      if (made === undefined || made === "moved" || this.over === undefined) return;
      if (made.columns.length === 0) this.close();
      else this.show(made);
    } catch (error) {
      this.desk.refuse(wordsOf(error));
    }
  }

  private allOr(range?: RowRange): Promise<RowRange> | RowRange {
    const { desk, columns } = this;
    if (range !== undefined) return range;
    const last = desk.shown.length - 1;
    return desk.changes
      .rangeOf({ top: 0, bottom: Math.max(0, desk.rows.total - 1), left: 0, right: last })
      .then((all) => ({ ...all, columns }));
  }

  /** @returns undefined where another question was asked since */
  private async ask(over: ChartOver): Promise<GridCharted | "moved" | undefined> {
    const turn = ++this.turn;
    const made = await this.desk.asking.ask({ is: "chart", face: this.desk.face, over }, chartedShape);
    return turn === this.turn ? made : undefined;
  }

  // Of the charts

  say(words: string): void {
    this.desk.say(words);
  }

  isOpen(key: string): boolean {
    return this.unfolded.has(key);
  }

  setOpen(key: string, isOpen: boolean): void {
    if (isOpen) this.unfolded.add(key);
    else this.unfolded.delete(key);
  }

  /** The cursor goes to the row of a point. */
  reveal(row: string): void {
    void this.desk.moves.goToRow(row);
  }

  private show(made: GridCharted): void {
    const focused = this.element.contains(document.activeElement)
      ? (document.activeElement as HTMLElement).dataset.key
      : undefined;
    const scrolled = this.element.scrollTop;
    this.charts?.unwatch();
    const span = spanOf(made);
    const charts = new Charts(span.from, span.to, span.now, made.names ?? undefined);
    this.charts = charts;
    const [above, below] = [
      charts.axis(h("div", { class: "axis" })),
      charts.axis(h("div", { class: "axis" })),
    ];
    const drawn = made.columns.map((column) => this.chart(column, made, span, charts));
    this.element.replaceChildren(
      h(
        "header",
        {},
        h("h2", {}, "Charts"),
        h("p", { class: "charts-words" }, this.words(made)),
        h("button", { type: "button", title: "Escape", onclick: () => this.close() }, "Close"),
      ),
      above,
      ...drawn,
      below,
    );
    this.element.hidden = false;
    charts.watch(below);
    this.element.scrollTop = scrolled;
    if (focused !== undefined) {
      const again = [...this.element.querySelectorAll<HTMLElement>("[data-key]")].find(
        ({ dataset }) => dataset.key === focused,
      );
      (again ?? this.element.querySelector<HTMLElement>(".paper"))?.focus({ preventScroll: true });
    }
    this.desk.table.soon();
  }

  private words({ skipped, left, rows }: GridCharted): string {
    const { face } = this.desk;
    const of =
      face.is === "rounds" ? (face.of === "tank" ? ` of ${face.name}` : ` on ${isoOf(face.day)}`) : "";
    const parts = [`${rows.length.toLocaleString("en")} rows${of}`];
    if (skipped > 0) parts.push(`the last of them: ${skipped.toLocaleString("en")} before are not drawn`);
    // What was chosen with others and has no numbers needs no word where much was chosen.
    for (const { title, why } of left.slice(0, 3)) parts.push(`${title} is not drawn: ${why}`);
    return parts.join("; ");
  }

  private chart(column: Column, made: GridCharted, span: Span, charts: Charts): HTMLElement {
    const { title, unit, limit, points } = column;
    const last = points.at(-1);
    const rest = last === undefined || made.names !== null ? "" : `last ${last.text}`;
    const of = unit === "" ? title : `${title}, ${unit}`;
    const chart = charts.add(
      new Chart<string>(
        this,
        {
          key: column.id,
          name: limit === null ? of : `${of}, ${limit.text}`,
          plot: plotOf(column, made.names, span),
          stops: points.map((point) => stopOf(point, made.names)),
          heightPx,
          valueHead: of,
        },
        rest,
      ),
    );
    return h(
      "div",
      { class: "strip" },
      h(
        "div",
        { class: "head-of" },
        h("h3", {}, title, unit !== "" && h("small", {}, ` ${unit}`)),
        limit !== null && h("span", { class: "bound" }, limit.text),
        chart.readout,
      ),
      chart.element,
      chart.table(),
    );
  }
}
