import { svg } from "../shared/dom.ts";
import type { Chart } from "./chart.ts";
import { margin } from "./plot.ts";
import { dayTicks, scale } from "./scale.ts";

/** Charts one above the other on one axis of time, all as wide as the panel leaves them. */
export class Charts {
  private readonly charts: Chart[] = [];
  private readonly axes: HTMLElement[] = [];
  private readonly watcher = new ResizeObserver(() => this.fit());
  private widthPx = 0;
  private readonly from: number;
  private readonly to: number;
  private readonly now: number;

  constructor(from: number, to: number, now: number) {
    this.from = from;
    this.to = to;
    this.now = now;
  }

  add(chart: Chart): Chart {
    this.charts.push(chart);
    chart.onTime = (time) => {
      for (const other of this.charts) if (other !== chart) other.showTime(time);
    };
    return chart;
  }

  /** The axis of time, to be put above or below the charts. */
  axis(into: HTMLElement): HTMLElement {
    this.axes.push(into);
    return into;
  }

  /** Draws them as wide as an element, now and whenever it is another width. */
  watch(element: HTMLElement): void {
    this.watcher.observe(element);
  }

  unwatch(): void {
    this.watcher.disconnect();
  }

  private fit(): void {
    const first = this.axes[0];
    const widthPx = Math.floor(first?.clientWidth ?? 0);
    if (widthPx === this.widthPx || widthPx <= margin.left + margin.right) return;
    this.widthPx = widthPx;
    for (const chart of this.charts) chart.drawAt(widthPx);
    for (const axis of this.axes) axis.replaceChildren(this.drawAxis(widthPx));
  }

  private drawAxis(width: number): SVGSVGElement {
    const height = 18;
    const { from, to, now } = this;
    const x = scale(from, to, margin.left, width - margin.right);
    const isNow = now <= to;
    const today = isNow ? x(now) : Number.POSITIVE_INFINITY;
    const words = dayTicks(from, to, (width - margin.left - margin.right) / 58)
      .map(({ day, text }) => ({ at: x(day), text }))
      .filter(({ at }) => Math.abs(at - today) > 44 && at < width - 16);
    return svg(
      "svg",
      {
        width,
        height,
        viewBox: `0 0 ${width} ${height}`,
        "aria-hidden": "true",
        focusable: "false",
        class: "axis",
      },
      ...words.map(({ at }) => svg("path", { class: "axis-tick", d: `M${at} 0v4` })),
      ...words.map(({ at, text }) => svg("text", { class: "axis-text", x: at, y: 14 }, text)),
      ...(isNow
        ? [
            svg("path", { class: "now", d: `M${today} 0v4` }),
            svg("text", { class: "axis-text now-text", x: today, y: 14 }, "today"),
          ]
        : []),
    );
  }
}
