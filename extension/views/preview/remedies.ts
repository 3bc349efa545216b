import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import type { Stop } from "../shared/chart/stops.ts";
import { h } from "../shared/dom.ts";
import { bathsPart, courseFacts, publishedFold, topUpFold } from "./course.ts";
import { type Face, leadsTo, section } from "./face.ts";
import type { RemedyCard, TankCard } from "./shown.ts";
import { endOf, type Made } from "./water.ts";

/**
 * What is in the water of each remedy given: its curve behind and, as planned, ahead, the band to reach and the ceiling; and the baths
 * of late, of which nothing is in it. Absent where none was given.
 */
export function remediesPart(face: Face, card: TankCard): Made | undefined {
  const given = card.remedies.filter(({ doses }) => doses.length > 0);
  if (given.length === 0 && card.baths.length === 0) return undefined;
  const now = card.day + 1;
  const first = Math.min(now, ...given.flatMap(({ doses }) => doses.map(({ time }) => time)));
  const next = Math.max(now, ...given.flatMap(({ plan }) => plannedUntil(plan)));
  const back = Math.max(14, Math.min(face.days, now - first + 2));
  const to = next + Math.max(1, (next - now + back) * 0.04);
  const charts = new Charts(now - back, to, now);
  const span = { from: now - back, to, now };
  const strips = given.map((remedy) => remedyStrip(face, card, remedy, span, charts));
  const axis = given.length === 0 ? [] : [charts.axis(h("div", { class: "axis" }))];
  const baths = bathsPart(face, card.baths, card.day);
  const element = section("remedies", "Remedies", ...strips, ...axis, ...baths, caution(card));
  for (const each of axis) charts.watch(each);
  return { element, charts };
}

/** The last that is still to come. */
function plannedUntil(plan: RemedyCard["plan"]): number[] {
  if (plan === null) return [];
  const planned = [...plan.doses, ...plan.changes].filter(({ isPlanned }) => isPlanned);
  return planned.map(({ time }) => time);
}

function remedyStrip(
  face: Face,
  card: TankCard,
  remedy: RemedyCard,
  span: { readonly from: number; readonly to: number; readonly now: number },
  charts: Charts,
): HTMLElement {
  const { name, title, target, ceiling, nowText, unit, plan } = remedy;
  const planned = plan?.doses.filter(({ isPlanned }) => isPlanned) ?? [];
  const chart = charts.add(
    new Chart(
      face,
      {
        key: `remedy-${name}`,
        name: `${title === "" ? name : title} in ${card.name}${target === null ? "" : `, target ${target.text}`}${planned.length === 0 ? "" : ", what is to come dashed"}`,
        plot: {
          ...span,
          readings: [],
          limit: ceiling === null ? null : { low: null, high: ceiling },
          target,
          course: remedy.course,
          ahead: plan?.ahead.map(({ time, value }) => ({ time, best: value, low: value, high: value })) ?? [],
          changes: [...card.changes, ...(plan?.changes.filter(({ isPlanned }) => isPlanned) ?? [])],
          doses: [...remedy.doses, ...planned],
        },
        stops: stopsOf(remedy, card),
        heightPx: 112,
        valueHead: `In the water, ${unit}`,
      },
      nowText === "" ? "not known" : `${nowText} now`,
    ),
  );
  return h(
    "article",
    { class: "strip" },
    h("header", {}, h("h3", {}, leadsTo(face, remedy.at, `remedy-${name}`, "name", name)), chart.readout),
    chart.element,
    courseFacts(face, remedy, card.day),
    h("div", { class: "folds" }, chart.table(), topUpFold(face, remedy), publishedFold(face, remedy)),
  );
}

/** Doses and changes, today, and what is still to come, in order of time. */
function stopsOf(remedy: RemedyCard, card: TankCard): Stop[] {
  const { doses, now, nowText, plan, course } = remedy;
  const numbers = new Map(plan?.doses.map(({ time, number }) => [time, number]));
  const of = plan?.times ?? 0;
  const first = course[0]?.time ?? Number.POSITIVE_INFINITY;
  const levelAt = (time: number): number | null =>
    course.findLast((point) => point.time <= time + 1e-6)?.value ?? null;
  const stops: Stop[] = [
    ...doses.map(({ time, after, text, at }): Stop => {
      const number = numbers.get(time);
      const which = number === undefined || of < 2 ? "after the dose" : `after dose ${number} of ${of}`;
      return { time, value: after, text, remark: which, at };
    }),
    ...card.changes
      .filter(({ time, fraction }) => time >= first && fraction > 0)
      .map(({ time, text, at }): Stop => ({ time, value: levelAt(time), text, remark: "change", at })),
  ];
  if (now !== null)
    stops.push({ time: endOf(card.day), value: now, text: nowText, remark: "computed for today", at: null });
  for (const { time, after, amount, number, changeOwed, isPlanned } of plan?.doses ?? []) {
    if (!isPlanned) continue;
    const change = changeOwed > 0 ? `change ${Math.round(changeOwed * 100)} %, then ` : "";
    const what = amount === "" ? "a dose" : amount;
    const remark = `dose ${number}${of < 2 ? "" : ` of ${of}`}, to come`;
    stops.push({ time, value: after, text: `${change}${what}`, remark, at: null });
  }
  for (const { time, fraction, isPlanned } of plan?.changes ?? [])
    if (isPlanned && !stops.some((stop) => stop.time === time)) {
      const value = plan!.ahead.findLast((point) => point.time <= time + 1e-6)?.value ?? null;
      stops.push({
        time,
        value,
        text: `change ${Math.round(fraction * 100)} %`,
        remark: "to come",
        at: null,
      });
    }
  return stops.sort((a, b) => a.time - b.time);
}

function caution({ remedies }: TankCard): HTMLElement {
  const words = [...new Set(remedies.map((remedy) => remedy.caution))].join(" ");
  return h("p", { class: "caution" }, words === "" ? bathCaution : words);
}

/** What stands under baths alone. */
const bathCaution = "Computed from what you stated; follow the label, local rules and a veterinarian.";
