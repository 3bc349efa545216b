import { spokenDay } from "../../../language/book/dates.ts";
import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import type { Plot } from "../shared/chart/plot.ts";
import type { Stop } from "../shared/chart/stops.ts";
import { h } from "../shared/dom.ts";
import { type Face, folding, leadsTo, leadsToTank, section } from "./face.ts";
import type { LightCard, TankCard } from "./shown.ts";
import type { Made } from "./water.ts";

/**
 * The light over time with the algae and what was trimmed, one below the other, and the days before each change held against those after
 * it. Absent where no entry says anything of them.
 */
export function lightsPart(face: Face, card: TankCard): Made | undefined {
  const { light } = card;
  if (light === null) return undefined;
  const now = card.day + 1;
  const span = { from: now - face.days, to: now + Math.max(1, face.days * 0.04), now };
  const charts = new Charts(span.from, span.to, now);
  const strips = [
    ...lightStrip(face, card, light, span, charts),
    ...light.algae.map((each) => algaeStrip(face, card, each, light, span, charts)),
    ...trimStrip(face, card, light, span, charts),
  ];
  const axis = charts.axis(h("div", { class: "axis" }));
  charts.watch(axis);
  const marked = light.settings.length > 1 && light.algae.length > 0;
  const element = section(
    "light",
    "Light, algae, plants",
    ...strips,
    axis,
    marked && h("p", { class: "aside" }, "A stroke at the foot of a chart: the light was set anew."),
    ...light.changes.map((change, at) => changePart(face, card, change, at)),
  );
  return { element, charts };
}

type Span = Pick<Plot, "from" | "to" | "now">;

const empty = { readings: [], limit: null, target: null, course: [], ahead: [], changes: [], doses: [] };

/** Where the light was set anew, as strokes at the foot of the other charts. */
const strokes = ({ settings }: LightCard): Plot["changes"] =>
  settings.slice(1).map(({ time }) => ({ time, fraction: 0.6 }));

function strip(
  face: Face,
  charts: Charts,
  content: {
    readonly key: string;
    readonly title: string;
    readonly name: string;
    readonly plot: Plot;
    readonly stops: readonly Stop[];
    readonly valueHead: string;
    readonly rest: string;
  },
): HTMLElement {
  const { title, rest, ...shown } = content;
  const chart = charts.add(new Chart(face, { ...shown, heightPx: 72 }, rest));
  return h(
    "article",
    { class: "strip" },
    h("header", {}, h("h3", {}, title), chart.readout),
    chart.element,
    h("div", { class: "folds" }, chart.table()),
  );
}

function lightStrip(face: Face, card: TankCard, light: LightCard, span: Span, charts: Charts): HTMLElement[] {
  const { course, settings, text, since, unit } = light;
  if (course.length === 0) return [];
  const stops = settings.map(
    ({ time, value, text: words, isLamp, at }): Stop => ({
      time,
      value,
      text: words,
      remark: isLamp ? "" : "from then on",
      at,
    }),
  );
  const rest = since === null ? text : `${text} since ${spokenDay(since, card.day)}`;
  return [
    strip(face, charts, {
      key: "light",
      title: "Light a day",
      name: `light in ${card.name}, ${unit} a day`,
      plot: { ...span, ...empty, course, within: { low: 0, high: 0 } },
      stops,
      valueHead: "Light",
      rest,
    }),
  ];
}

function algaeStrip(
  face: Face,
  card: TankCard,
  { title, unit, most, ratings }: LightCard["algae"][number],
  light: LightCard,
  span: Span,
  charts: Charts,
): HTMLElement {
  const last = ratings.at(-1);
  const scale = unit === "" ? "rating from 0 to 4" : "share of the surface";
  return strip(face, charts, {
    key: `algae-${title}-${unit}`,
    title: `${title.charAt(0).toUpperCase()}${title.slice(1)}`,
    name: `${title} in ${card.name}, ${scale}`,
    plot: {
      ...span,
      ...empty,
      readings: ratings.map(({ time, low, high }) => ({ time, low, high, isOutside: false })),
      changes: strokes(light),
      within: { low: 0, high: unit === "" ? most : 0 },
    },
    stops: ratings.map(({ time, high, text, at }) => ({ time, value: high, text, remark: "", at })),
    valueHead: unit === "" ? "Rating" : "Share",
    rest: last === undefined ? "" : `${last.text}, ${spokenDay(Math.floor(last.time), card.day)}`,
  });
}

function trimStrip(face: Face, card: TankCard, light: LightCard, span: Span, charts: Charts): HTMLElement[] {
  const { trims } = light;
  const last = trims.at(-1);
  if (last === undefined) return [];
  const byDay = new Map<number, number>();
  for (const { time, grams } of trims)
    byDay.set(Math.floor(time), (byDay.get(Math.floor(time)) ?? 0) + (grams ?? 0));
  return [
    strip(face, charts, {
      key: "trims",
      title: "Trimmed",
      name: `plants trimmed in ${card.name}, g`,
      plot: {
        ...span,
        ...empty,
        columns: [...byDay].map(([day, value]) => ({ day, value })),
        changes: strokes(light),
      },
      stops: trims.map((each) => ({
        time: each.time,
        value: each.grams,
        text: each.text,
        remark: each.growthText === "" ? "" : `${each.growthText} since the trimming before`,
        at: each.at,
      })),
      valueHead: "Cut",
      rest: `${last.text}, ${spokenDay(Math.floor(last.time), card.day)}`,
    }),
  ];
}

type Change = LightCard["changes"][number];

function changePart(face: Face, card: TankCard, change: Change, at: number): HTMLElement {
  const { day, text, moreText, daysText, compared, meanwhile, sisters, remark, isClosed } = change;
  const key = `light-change-${day}-${at}`;
  const day1 = spokenDay(day, card.day);
  return h(
    "article",
    { class: "before-after" },
    h(
      "h3",
      {},
      leadsTo(face, change.at, key, "date", day1),
      `: ${text}${moreText === "" ? "" : `, ${moreText}`}`,
    ),
    h(
      "p",
      { class: "aside" },
      compared.length === 0
        ? `Nothing to compare: ${daysText}.`
        : `${daysText}${isClosed ? "" : "; the figures may change yet"}.`,
    ),
    compared.length > 0 && comparedTable(`Before and after ${day1}`, compared),
    h(
      "div",
      { class: "folds" },
      meanwhile.length > 0 &&
        folding(face, `${key}-else`, "figures", ["What else happened", unseen(day1)], () => [
          h("ul", { class: "tree" }, ...meanwhile.map((line) => h("li", {}, line))),
        ]),
      ...sisters.map((sister) =>
        folding(
          face,
          `${key}-${sister.tank}`,
          "figures",
          [`${sister.tank} beside it, its light as it was`, unseen(day1)],
          () => [
            comparedTable(`${sister.tank} in the same days`, sister.compared),
            h("p", {}, leadsToTank(face, sister.tank, `${key}-${sister.tank}-leads`)),
          ],
        ),
      ),
    ),
    remark !== "" && h("p", { class: "aside" }, remark),
  );
}

/** Folds of several changes have the same name; whoever hears them is told which. */
const unseen = (day: string): HTMLElement => h("span", { class: "unseen" }, `, ${day}`);

function comparedTable(caption: string, compared: Change["compared"]): HTMLElement {
  const heads = ["What", "Before", "After", "After is"];
  return h(
    "table",
    {},
    h("caption", { class: "unseen" }, caption),
    h("thead", {}, h("tr", {}, ...heads.map((word) => h("th", { scope: "col", class: "head" }, word)))),
    h(
      "tbody",
      {},
      ...compared.map(({ what, before, after, text, chanceText, isSure }) =>
        h(
          "tr",
          {},
          h("th", { scope: "row", class: "what" }, what),
          h("td", {}, before.text, h("span", { class: "aside" }, ` of\u00a0${before.count}`)),
          h("td", {}, after.text, h("span", { class: "aside" }, ` of\u00a0${after.count}`)),
          h(
            "td",
            { class: isSure ? "sure" : "" },
            text,
            chanceText !== "" && h("span", { class: "aside" }, `; ${chanceText}`),
          ),
        ),
      ),
    ),
  );
}
