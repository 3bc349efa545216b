import { Chart } from "./chart.ts";
import { Charts } from "./charts.ts";
import { h } from "./dom.ts";
import { type Face, leadsTo, section } from "./face.ts";
import type { RemedyCard, TankCard } from "./shown.ts";
import type { Stop } from "./stops.ts";
import { endOf, type Made } from "./water.ts";

/** What is in the water of each remedy given: its course, the band to reach and the ceiling. Absent where none was given of late. */
export function remediesPart(face: Face, card: TankCard): Made | undefined {
  const given = card.remedies.filter(({ doses }) => doses.length > 0);
  if (given.length === 0) return undefined;
  const now = card.day + 1;
  const first = Math.min(...given.flatMap(({ doses }) => doses.map(({ time }) => time)));
  const next = Math.max(now, ...given.map((remedy) => remedy.next?.day ?? now));
  const back = Math.max(14, Math.min(face.days, now - first + 2));
  const charts = new Charts(now - back, next + Math.max(1, back * 0.08), now);
  const span = { from: now - back, to: next + Math.max(1, back * 0.08), now };
  const strips = given.map((remedy) => remedyStrip(face, card, remedy, span, charts));
  const axis = charts.axis(h("div", { class: "axis" }));
  const element = section("remedies", "In the water", ...strips, axis, caution(given));
  charts.watch(axis);
  return { element, charts };
}

function remedyStrip(
  face: Face,
  card: TankCard,
  remedy: RemedyCard,
  span: { readonly from: number; readonly to: number; readonly now: number },
  charts: Charts,
): HTMLElement {
  const { name, title, target, ceiling, nowText, next, unit } = remedy;
  const chart = charts.add(
    new Chart(
      face,
      {
        key: `remedy-${name}`,
        name: `${title === "" ? name : title} in ${card.name}${target === null ? "" : `, target ${target.text}`}`,
        plot: {
          ...span,
          readings: [],
          limit: ceiling === null ? null : { low: null, high: ceiling },
          target,
          course: remedy.course,
          ahead: [],
          changes: card.changes,
          doses: remedy.doses,
        },
        stops: stopsOf(remedy, card.day),
        heightPx: 96,
        valueHead: `In the water, ${unit}`,
      },
      nowText === "" ? "not known" : `${nowText} now`,
    ),
  );
  const facts = [
    target !== null && (["target", target.text] as const),
    ceiling !== null && (["ceiling", remedy.ceilingText] as const),
    next !== null && (["next dose", next.text] as const),
  ].filter((fact) => fact !== false);
  return h(
    "article",
    { class: "strip" },
    h("header", {}, h("h3", {}, leadsTo(face, remedy.at, `remedy-${name}`, "name", name)), chart.readout),
    chart.element,
    h(
      "dl",
      { class: "facts" },
      ...facts.map(([word, figure]) => h("div", {}, h("dt", {}, word), h("dd", {}, figure))),
    ),
    h("div", { class: "folds" }, chart.table()),
  );
}

function stopsOf({ doses, now, nowText }: RemedyCard, day: number): Stop[] {
  const stops: Stop[] = doses.map(({ time, after, text, at }) => ({
    time,
    value: after,
    text,
    remark: "after the dose",
    at,
  }));
  if (now !== null)
    stops.push({ time: endOf(day), value: now, text: nowText, remark: "computed for today", at: null });
  return stops;
}

function caution(remedies: readonly RemedyCard[]): HTMLElement {
  const words = [...new Set(remedies.map((remedy) => remedy.caution))].join(" ");
  return h("p", { class: "caution" }, words);
}
