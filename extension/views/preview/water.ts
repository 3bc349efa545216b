import { isoOf, spokenDay } from "../../../language/book/dates.ts";
import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import type { Plot } from "../shared/chart/plot.ts";
import type { Stop } from "../shared/chart/stops.ts";
import { h } from "../shared/dom.ts";
import { type Face, folding, leadsTo, nothing, section } from "./face.ts";
import type { TankCard, WaterCard } from "./shown.ts";
import { whyFold } from "./why.ts";

/** The water: a chart for each parameter, all on one axis of time, with what follows from it in words below. */

/** Days back to choose from, and how far ahead goes with each. */
const stretches = [
  { days: 30, ahead: 10, text: "30 d" },
  { days: 120, ahead: 28, text: "120 d" },
  { days: 365, ahead: 60, text: "1 year" },
] as const;

export interface Made {
  readonly element: HTMLElement;
  /** To be told when it goes away. */
  readonly charts: Charts | undefined;
}

export function waterPart(face: Face, card: TankCard): Made {
  const water = card.water.filter((each) => each.readings.length > 0 || each.limit !== null);
  const tested = water.filter((each) => each.readings.length > 0);
  const untested = water.filter((each) => each.readings.length === 0);
  if (tested.length === 0) {
    const words = "No readings yet. Under a day:";
    const line = `  ${card.name}  test nitrate 18 mg/L, pH 7.2`;
    return {
      element: section("water", "Water", nothing(words, line), limitsLine(untested)),
      charts: undefined,
    };
  }
  const stretch = stretches.find(({ days }) => days === face.days) ?? stretches[1];
  const now = card.day + 1;
  const span = { from: now - stretch.days, to: now + stretch.ahead, now };
  const charts = new Charts(span.from, span.to, now);
  const ordered = [
    ...tested.filter((each) => isPressing(each, card.day)),
    ...tested.filter((each) => !isPressing(each, card.day)),
  ];
  const strips = ordered.map((each) => strip(face, card, each, span, charts));
  const [above, below] = [charts.axis(h("div", { class: "axis" })), charts.axis(h("div", { class: "axis" }))];
  const element = section(
    "water",
    "Water",
    choice(face),
    changesLine(face, card, span.from),
    above,
    ...strips,
    below,
    limitsLine(untested),
  );
  charts.watch(below);
  return { element, charts };
}

/** What comes first: what is outside its limit, or will be before long. */
export function isPressing({ readings, crossing }: WaterCard, today: number): boolean {
  const soon = crossing?.day ?? crossing?.earliest ?? null;
  return readings.at(-1)?.isOutside === true || (soon !== null && soon - today <= pressingDays);
}

const pressingDays = 30;

function choice(face: Face): HTMLElement {
  return h(
    "div",
    { class: "choice", role: "group", "aria-label": "Days shown" },
    ...stretches.map(({ days, text }) =>
      h(
        "button",
        {
          type: "button",
          "data-key": `days-${days}`,
          "aria-pressed": String(face.days === days),
          onclick: () => face.setDays(days),
        },
        text,
      ),
    ),
  );
}

/** What was changed last, and all that came in within the stretch. */
function changesLine(face: Face, { changes, day }: TankCard, from: number): HTMLElement | undefined {
  const last = changes.findLast((change) => change.fraction > 0);
  if (last === undefined) return undefined;
  const ago = day - Math.floor(last.time);
  const when = ago === 0 ? "today" : ago === 1 ? "yesterday" : `${ago} days ago`;
  const shown = changes.filter(({ time }) => time >= from).reverse();
  const row = ({ time, text, at }: TankCard["changes"][number], index: number): HTMLElement =>
    h(
      "tr",
      {},
      h("td", {}, leadsTo(face, at, `change-${index}`, "date", isoOf(Math.floor(time)))),
      h("td", { class: "figure" }, text),
    );
  return folding(face, "changes", "changes", [`Last changed ${when}: ${last.text}`], () => [
    h(
      "table",
      {},
      h("caption", { class: "unseen" }, "Water changed and topped up"),
      h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "Day"), h("th", { scope: "col" }, "New water"))),
      h("tbody", {}, ...shown.map(row)),
    ),
  ]);
}

function strip(
  face: Face,
  card: TankCard,
  water: WaterCard,
  span: Pick<Plot, "from" | "to" | "now">,
  charts: Charts,
): HTMLElement {
  const { parameter, title, limit, readings, unit } = water;
  const last = readings.at(-1)!;
  const place = card.system === null ? card.name : card.system.name;
  const plot: Plot = {
    ...span,
    readings,
    limit,
    target: null,
    course: water.production === null ? [] : water.course,
    ahead: water.ahead,
    changes: card.changes,
    doses: [],
  };
  const chart = charts.add(
    new Chart(
      face,
      {
        key: parameter,
        name: `${title} in ${place}${limit === null ? "" : `, limit ${limit.text}`}`,
        plot,
        stops: stopsOf(card, water),
        heightPx: isPressing(water, card.day) ? 148 : limit === null ? 58 : 84,
        valueHead: unit === "" ? title : `${title}, ${unit}`,
      },
      `${last.text}, ${spokenDay(Math.floor(last.time), card.day)}`,
    ),
  );
  return h(
    "article",
    { class: `strip${last.isOutside ? " out" : ""}${isPressing(water, card.day) ? " pressing" : ""}` },
    h(
      "header",
      {},
      h("h3", {}, title),
      limit !== null && leadsTo(face, limit.at, `limit-${parameter}`, "bound", limit.text),
      chart.readout,
    ),
    chart.element,
    facts(water),
    h("div", { class: "folds" }, chart.table(), whyFold(face, parameter, water.why)),
  );
}

/** The last moment of a day, of which it still is one. */
export const endOf = (day: number): number => day + 1 - 1e-6;

/** The stops of the cursor: readings, what is in the water today, and when it meets its limit. */
export function stopsOf({ day, name, system }: TankCard, water: WaterCard): Stop[] {
  const stops: Stop[] = water.readings.map(({ time, low, high, text, isOutside, of, at }) => {
    const remarks = [
      isOutside && "outside the limit",
      of !== name && of !== system?.name && `tested in ${of}`,
    ];
    return { time, value: high ?? low, text, remark: remarks.filter(Boolean).join(", "), at };
  });
  const { level, crossing, limit } = water;
  if (level !== null)
    stops.push({
      time: endOf(day),
      value: level.best,
      text: level.text,
      remark: "computed for today",
      at: null,
    });
  if (crossing?.day != null && crossing.day > day) {
    const value = limit?.high ?? limit?.low ?? null;
    stops.push({
      time: crossing.day,
      value,
      text: limit?.text ?? "",
      remark: `meets its limit ${crossing.text}`,
      at: null,
    });
  }
  return stops;
}

/** What follows, as pairs of a word and a figure. */
export function factsOf(water: WaterCard): (readonly [word: string, figure: string])[] {
  const { level, production, crossing, regular, holdingText, changeBackText } = water;
  const facts: [string, string][] = [];
  if (crossing !== null) facts.push(["meets its limit", crossing.text]);
  if (holdingText !== "") facts.push(["a change that holds it", holdingText]);
  if (changeBackText !== "") facts.push(["a change back within it", changeBackText]);
  if (production !== null) {
    if (level !== null) facts.push(["computed for today", level.text]);
    facts.push([production.best < 0 ? "changes a day by" : "made a day", production.text]);
  }
  if (regular !== null && regular.steadyText !== "")
    facts.push([`in the long run at ${regular.text}`, regular.steadyText]);
  return facts;
}

function facts(water: WaterCard): HTMLElement | undefined {
  const found = factsOf(water);
  if (found.length === 0)
    return water.productionUnknown === "" ? undefined : h("p", { class: "aside" }, water.productionUnknown);
  return h(
    "dl",
    { class: "facts" },
    ...found.map(([word, figure]) => h("div", {}, h("dt", {}, word), h("dd", {}, figure))),
  );
}

function limitsLine(untested: readonly WaterCard[]): HTMLElement | undefined {
  if (untested.length === 0) return undefined;
  const each = untested.map(({ parameter, limit }) => `${parameter} ${limit?.text ?? ""}`);
  return h("p", { class: "aside" }, `Limited but never tested: ${each.join(", ")}`);
}
