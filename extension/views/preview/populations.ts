import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import { h } from "../shared/dom.ts";
import { type Face, leadsToTank, section } from "./face.ts";
import type { PopulationCard, TankCard } from "./shown.ts";
import type { Made } from "./water.ts";
import { whyFold } from "./why.ts";

/** The animals over time, a strip a species with what came and went of late, and what they weigh and breathe. Absent without animals. */
export function populationsPart(face: Face, card: TankCard): Made | undefined {
  const shown = card.populations.filter(({ course }) => course.length > 0);
  if (shown.length === 0) return undefined;
  const now = card.day + 1;
  const span = { from: now - face.days, to: now + Math.max(1, face.days * 0.04), now };
  const charts = new Charts(span.from, span.to, now);
  const strips = shown.map((each) => strip(face, card, each, span, charts));
  const axis = charts.axis(h("div", { class: "axis" }));
  charts.watch(axis);
  const element = section("populations", "Animals over time", ...strips, axis, ...bearing(face, card));
  return { element, charts };
}

function strip(
  face: Face,
  card: TankCard,
  { of, species, text, came, went, course, entries, why }: PopulationCard,
  span: { readonly from: number; readonly to: number; readonly now: number },
  charts: Charts,
): HTMLElement {
  const key = `population-${of}-${species}`;
  const chart = charts.add(
    new Chart(
      face,
      {
        key,
        name: `${species} in ${of}`,
        plot: {
          ...span,
          readings: [],
          limit: null,
          target: null,
          course: fromNone(course, span.from),
          ahead: [],
          changes: [],
          doses: [],
        },
        stops: entries.map(({ time, after, text: words, at }) => ({
          time,
          value: after,
          text: String(after),
          remark: words,
          at,
        })),
        heightPx: 72,
        valueHead: "Animals after it",
      },
      `${text} now`,
    ),
  );
  const facts = [["came", came] as const, ["went", went] as const].filter(([, words]) => words !== "");
  const elsewhere = of === card.name ? [] : [" in ", leadsToTank(face, of, `${key}-tank`)];
  return h(
    "article",
    { class: "strip" },
    h("header", {}, h("h3", {}, species, ...elsewhere), chart.readout),
    chart.element,
    facts.length > 0 &&
      h(
        "dl",
        { class: "facts", "aria-label": "in the last 30 days" },
        ...facts.map(([word, figure]) =>
          h("div", {}, h("dt", {}, `${word} in 30 days`), h("dd", {}, figure)),
        ),
      ),
    h("div", { class: "folds" }, chart.table(), whyFold(face, key, why)),
  );
}

/** Before the first entry the book knows of none. */
function fromNone(course: PopulationCard["course"], from: number): PopulationCard["course"] {
  const first = course[0];
  return first === undefined || first.time <= from
    ? course
    : [{ time: from, value: 0 }, { time: first.time, value: 0 }, ...course];
}

function bearing(face: Face, card: TankCard): HTMLElement[] {
  return card.bearing.map(({ of, text, oxygen, why, oxygenWhy }) =>
    h(
      "div",
      { class: "bearing" },
      h("p", {}, `${of === card.name ? "They" : `Those in ${of}`} ${text}; ${oxygen}.`),
      h(
        "div",
        { class: "folds" },
        whyFold(face, `bearing-${of}`, why),
        oxygenWhy !== null && whyFold(face, `oxygen-${of}`, oxygenWhy),
      ),
    ),
  );
}
