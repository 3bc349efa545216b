import { svg } from "../dom.ts";
import { margin } from "./plot.ts";
import { dayTicks, scale } from "./scale.ts";

/** What is drawn with others on one axis. */
interface Drawn {
  onTime: (time: number | undefined) => void;
  showTime(time: number | undefined): void;
  drawAt(widthPx: number): void;
}

/** Charts one above the other on one axis, all as wide as the panel leaves them. */
export class Charts {
  private readonly charts: Drawn[] = [];
  private readonly axes: HTMLElement[] = [];
  private readonly watcher = new ResizeObserver(() => this.fit());
  private widthPx = 0;
  private readonly from: number;
  private readonly to: number;
  private readonly now: number;

  /** What stands along the axis where that is no time. */
  private readonly names: readonly string[] | undefined;

  constructor(from: number, to: number, now: number, names?: readonly string[]) {
    this.names = names;
    this.from = from;
    this.to = to;
    this.now = now;
  }

  add<Each extends Drawn>(chart: Each): Each {
    this.charts.push(chart);
    chart.onTime = (time) => {
      for (const other of this.charts) if (other !== chart) other.showTime(time);
    };
    return chart;
  }

  /** The axis, to be put above or below the charts. */
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
    const isNow = this.names === undefined && now <= to;
    const today = isNow ? x(now) : Number.POSITIVE_INFINITY;
    const most = (width - margin.left - margin.right) / 58;
    const words = (this.names === undefined ? dayTicks(from, to, most) : nameTicks(this.names, most))
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

/** Names that have room, each at its number. */
function nameTicks(
  names: readonly string[],
  most: number,
): { readonly day: number; readonly text: string }[] {
  const every = Math.max(1, Math.ceil(names.length / most));
  return names.flatMap((name, at) => {
    const text = name.length > 9 ? `${name.slice(0, 8)}…` : name;
    return at % every === 0 ? [{ day: at, text }] : [];
  });
}
