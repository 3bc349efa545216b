import { isoOf } from "../../../language/book/dates.ts";
import { Chart } from "../shared/chart/chart.ts";
import { Charts } from "../shared/chart/charts.ts";
import type { Stop } from "../shared/chart/stops.ts";
import { h } from "../shared/dom.ts";
import { bathsPart, courseFacts, type Given, publishedFold, topUpFold } from "./course.ts";
import { type Face, leadsTo, nothing, section } from "./face.ts";
import type { CaseCard, CourseCard } from "./shown.ts";
import type { Made } from "./water.ts";

/** The courses of a case wherever they were given, each with the curve of what was in its water, on one axis of time; and its baths. */
export function coursesPart(face: Face, { courses: card, day }: CaseCard): Made {
  const { courses, baths, caution } = card;
  if (courses.length + baths.length === 0) {
    const words =
      "No dose and no bath is written. A remedy is defined with what its label or the veterinarian says; under a day:";
    const element = section("courses", "Courses", nothing(words, "  h1  dose REMEDY 40 mg case NAME"));
    return { element, charts: undefined };
  }
  const now = day + 1;
  const from = Math.min(now, ...courses.map(({ begin }) => begin)) - 1;
  const to = Math.max(from + 7, ...courses.map((each) => lastOf(each) + 1));
  const charts = new Charts(from, to, now);
  const strips = courses.map((each) => strip(face, each, { from, to, now }, day, charts));
  const axis = courses.length === 0 ? [] : [charts.axis(h("div", { class: "axis" }))];
  const element = section(
    "courses",
    "Courses",
    ...strips,
    ...axis,
    ...bathsPart(face, baths, day),
    h("p", { class: "caution" }, caution),
  );
  for (const each of axis) charts.watch(each);
  return { element, charts };
}

/** What was given, what is to come, and the end of the curve. */
const lastOf = ({ end, doses, course }: CourseCard): number =>
  Math.max(end, ...doses.map(({ time }) => time), course.at(-1)?.time ?? end);

function strip(
  face: Face,
  card: CourseCard,
  span: { readonly from: number; readonly to: number; readonly now: number },
  day: number,
  charts: Charts,
): HTMLElement {
  const { remedy, title, water, target, ceiling, unit, begin, state, stateText } = card;
  const key = `${remedy} in ${water} since ${isoOf(begin)}`;
  const given: Given = {
    name: key,
    target,
    ceilingText: card.ceilingText,
    next: null,
    plan: { ...card, case: "" },
  };
  const chart = charts.add(
    new Chart(
      face,
      {
        key,
        name: `${title === "" ? remedy : title} in ${water}${target === null ? "" : `, target ${target.text}`}`,
        plot: {
          ...span,
          readings: [],
          limit: ceiling === null ? null : { low: null, high: ceiling },
          target,
          course: card.course,
          ahead: card.ahead.map(({ time, value }) => ({ time, best: value, low: value, high: value })),
          changes: card.changes,
          doses: card.doses,
        },
        stops: stopsOf(card),
        heightPx: 112,
        valueHead: `In the water, ${unit}`,
      },
      state === "running" ? stateText : state,
    ),
  );
  return h(
    "article",
    { class: "strip" },
    h(
      "header",
      {},
      h("h3", {}, leadsTo(face, card.at, `course-${key}`, "name", `${remedy} in ${water}`)),
      chart.readout,
    ),
    chart.element,
    courseFacts(face, given, day),
    h("div", { class: "folds" }, chart.table(), topUpFold(face, given), publishedFold(face, given)),
  );
}

function stopsOf({ doses, changes, course, ahead }: CourseCard): Stop[] {
  const of = Math.max(0, ...doses.map(({ number }) => number));
  const levelAt = (time: number): number | null =>
    [...course, ...ahead].findLast((point) => point.time <= time + 1e-6)?.value ?? null;
  const stops = [
    ...doses.map(
      ({ time, after, text, amount, number, isPlanned, at }): Stop => ({
        time,
        value: after,
        text: text === "" ? amount : text,
        remark: `dose ${number} of ${of}${isPlanned ? ", to come" : ""}`,
        at,
      }),
    ),
    ...changes
      .filter(({ fraction }) => fraction > 0)
      .map(
        ({ time, fraction, isPlanned }): Stop => ({
          time,
          value: levelAt(time),
          text: `change ${Math.round(fraction * 100)} %`,
          remark: isPlanned ? "to come" : "change",
          at: null,
        }),
      ),
  ];
  return stops.sort((a, b) => a.time - b.time);
}
