import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import type { Plot } from "../shared/chart/plot.ts";
import type { Stop } from "../shared/chart/stops.ts";
import { h } from "../shared/dom.ts";
import { type Face, nothing, section } from "./face.ts";
import type { CaseCard } from "./shown.ts";
import type { Made } from "./water.ts";

/** The epidemic curve: new cases a day, deaths a day, and the share that showed signs whenever they were counted. */

type Day = CaseCard["curve"][number];

const empty: Omit<Plot, "from" | "to" | "now"> = {
  readings: [],
  limit: null,
  target: null,
  course: [],
  ahead: [],
  changes: [],
  doses: [],
};

export function epidemicPart(face: Face, card: CaseCard): Made {
  const { curve, name, day, entries } = card;
  const isTold = curve.some(({ fresh, dead, affected }) => fresh > 0 || dead > 0 || affected !== null);
  if (!isTold) {
    const words = "No count of the sick is written. Under a day:";
    const line = `  q1  sick praecox 2 of 14 case ${name}`;
    return { element: section("curve", "Day by day", nothing(words, line)), charts: undefined };
  }
  const first = curve[0]!.day;
  // A week at least: one day alone would be as wide as the panel.
  const span = { from: first - 0.5, to: Math.max(curve.at(-1)!.day + 1.5, first + 7), now: day + 1 };
  const charts = new Charts(span.from, span.to, span.now);
  const placeOf = (on: number, ...kinds: readonly string[]): Stop["at"] =>
    entries.find((entry) => entry.day === on && kinds.includes(entry.kind))?.at ?? null;
  const counts = (
    key: string,
    title: string,
    of: (day: Day) => number,
    ...kinds: readonly string[]
  ): HTMLElement => {
    const stops = curve
      .filter((each) => of(each) > 0)
      .map(
        (each): Stop => ({
          time: each.day + 0.5,
          value: of(each),
          text: String(of(each)),
          remark: "",
          at: placeOf(each.day, ...kinds),
        }),
      );
    const all = curve.reduce((sum, each) => sum + of(each), 0);
    const plot: Plot = {
      ...empty,
      ...span,
      columns: curve.map((each) => ({ day: each.day, value: of(each) })),
    };
    return strip(face, charts, {
      key,
      title,
      name: `${title} of ${name}`,
      plot,
      stops,
      rest: `${all} in all`,
    });
  };
  const strips = [
    counts("fresh", "New cases a day", ({ fresh }) => fresh, "sick", "lose"),
    counts("dead", "Deaths a day", ({ dead }) => dead, "lose"),
    prevalence(face, charts, card, span, placeOf),
  ];
  const axis = charts.axis(h("div", { class: "axis" }));
  const element = section("curve", "Day by day", ...strips, axis);
  charts.watch(axis);
  return { element, charts };
}

function prevalence(
  face: Face,
  charts: Charts,
  { curve, name }: CaseCard,
  span: { readonly from: number; readonly to: number; readonly now: number },
  placeOf: (on: number, ...kinds: readonly string[]) => Stop["at"],
): HTMLElement | undefined {
  const counted = curve.flatMap((each) =>
    each.affected === null || each.present === null || each.low === null || each.high === null
      ? []
      : [{ ...each, share: each.affected / each.present, low: each.low, high: each.high }],
  );
  if (counted.length === 0) return undefined;
  const percent = (share: number): number => Math.round(share * 1000) / 10;
  const stops = counted.map(
    ({ day, share, affected, present, low, high }): Stop => ({
      time: day + 0.5,
      value: percent(share),
      text: `${affected} of ${present}, ${percent(share)} %`,
      remark: `95 %: ${percent(low)} to ${percent(high)}`,
      at: placeOf(day, "sick"),
    }),
  );
  const plot: Plot = {
    ...empty,
    ...span,
    readings: counted.map(({ day, low, high }) => ({
      time: day + 0.5,
      low: percent(low),
      high: percent(high),
      isOutside: false,
    })),
    course: counted.map(({ day, share }) => ({ time: day + 0.5, value: percent(share) })),
  };
  const title = "Showing signs, % of those there";
  return strip(face, charts, {
    key: "signs",
    title,
    name: `${title}, ${name}`,
    plot,
    stops,
    rest: stops.at(-1)!.text,
  });
}

interface Strip {
  readonly key: string;
  readonly title: string;
  readonly name: string;
  readonly plot: Plot;
  readonly stops: readonly Stop[];
  readonly rest: string;
}

function strip(face: Face, charts: Charts, { key, title, name, plot, stops, rest }: Strip): HTMLElement {
  const chart = charts.add(
    new Chart(face, { key: `case-${key}`, name, plot, stops, heightPx: 84, valueHead: title }, rest),
  );
  return h(
    "article",
    { class: "strip" },
    h("header", {}, h("h3", {}, title), chart.readout),
    chart.element,
    h("div", { class: "folds" }, chart.table()),
  );
}
