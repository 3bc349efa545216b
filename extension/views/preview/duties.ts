import { spokenDay } from "../../../language/book/dates.ts";
import { h, svg } from "../shared/dom.ts";
import { type Face, folding, leadsTo, nothing, section } from "./face.ts";
import type { DutyCard } from "./shown.ts";

/** Duties: how much of the interval is gone, by a bar, and in words how late they are or when they fall due. */

/** What is far off folds, beyond so many. */
const shownAtLeast = 3;

export function dutiesPart(
  face: Face,
  duties: readonly DutyCard[],
  ofTank: string,
  today: number,
): HTMLElement {
  if (duties.length === 0) {
    const words = "No duty is stated. In the definition of the tank:";
    return section("duties", "Due", nothing(words, `tank ${ofTank}`, "  every 7 d change 25..35 %"));
  }
  const rows = duties.map((duty, at) => dutyRow(face, duty, at, ofTank, today));
  const pressing = duties.filter((duty) => urgency(duty) !== "later").length;
  const shown = Math.max(pressing, Math.min(rows.length, shownAtLeast));
  const next = duties[shown];
  return section(
    "duties",
    "Due",
    h("ul", { class: "rows" }, ...rows.slice(0, shown)),
    next !== undefined &&
      folding(face, "later-duties", "more", [`${rows.length - shown} later`], () => [
        h("ul", { class: "rows" }, ...rows.slice(shown)),
      ]),
  );
}

export function dutyRow(face: Face, duty: DutyCard, at: number, ofTank: string, today: number): HTMLElement {
  const { act, of, when, last, lastAt, text, note } = duty;
  const key = `duty-${at}-${of}-${act}`;
  const done =
    last === null
      ? "never done"
      : `last ${Math.floor(last) === today ? "today" : `on ${spokenDay(Math.floor(last), today)}`}`;
  return h(
    "li",
    { class: `duty ${urgency(duty)}` },
    h(
      "span",
      {},
      leadsTo(face, duty.at, key, "words", of !== ofTank && h("span", { class: "of" }, `${of} `), act),
      h("span", { class: "aside" }, `${when}, `, leadsTo(face, lastAt, `${key}-last`, "last", done)),
      note !== undefined && h("span", { class: "aside" }, note),
    ),
    gauge(duty, today),
    h("span", { class: "when" }, text),
  );
}

function urgency({ late }: DutyCard): "late" | "now" | "soon" | "later" {
  if (late === null) return "later";
  if (late > 0) return "late";
  return late === 0 ? "now" : late >= -2 ? "soon" : "later";
}

const gaugeWidth = 72;
const gaugeHeight = 10;
/** Where on the bar it falls due; what is right of it is late. */
const duePx = 54;

function gauge(duty: DutyCard, today: number): SVGElement {
  const { form, times, timesStated } = duty;
  return svg(
    "svg",
    {
      class: "gauge",
      width: gaugeWidth,
      height: gaugeHeight,
      viewBox: `0 0 ${gaugeWidth} ${gaugeHeight}`,
      "aria-hidden": "true",
      focusable: "false",
    },
    ...(form === "every" ? bar(duty, today) : beads(times, timesStated)),
  );
}

function bar({ last, due, periodDays }: DutyCard, today: number): SVGElement[] {
  const from = last === null ? (due === null ? today : due - periodDays) : Math.floor(last);
  const share = periodDays > 0 ? (today - from) / periodDays : 0;
  const end = Math.min(gaugeWidth, Math.max(0, share * duePx));
  return [
    svg("path", { class: "gauge-rail", d: `M0 5H${gaugeWidth}` }),
    svg("path", { class: "gauge-gone", d: `M0 5H${Math.min(end, duePx)}` }),
    ...(end > duePx ? [svg("path", { class: "gauge-late", d: `M${duePx} 5H${end}` })] : []),
    svg("path", { class: "gauge-due", d: `M${duePx} 0V10` }),
  ];
}

/** A bead for each time: full where it was done. */
function beads(times: number, stated: number): SVGElement[] {
  const count = Math.min(8, Math.max(times, stated));
  return Array.from({ length: count }, (_, at) => {
    const look = at < times ? (at < stated ? "bead done" : "bead over") : "bead";
    return svg("circle", { class: look, cx: 5 + at * 9, cy: 5, r: 3 });
  });
}
