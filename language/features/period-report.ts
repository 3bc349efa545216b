import { isoOf, spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import { formatNumber } from "../quantity/format.ts";
import {
  figure,
  type Line,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  table,
  text,
} from "./document.ts";
import type { MissedCard, PeriodCard, WaterUsedCard, WorkSumCard } from "./period-cards.ts";
import { eventSections } from "./period-event-sections.ts";
import { noPanel, type Panel, panels } from "./pictures/panels.ts";
import { aboutPeriod, bookSection, lossSection } from "./stock-report.ts";

/** A week, a month or any days of a room as a report. */

export interface RoomPeriod {
  readonly title: string;
  readonly card: PeriodCard;
}

/** @param rooms of several, each section says whose it is */
export function periodReport(rooms: readonly RoomPeriod[]): Report {
  const [first] = rooms;
  return {
    title: "Report",
    about: first === undefined ? "" : aboutPeriod(rooms.length === 1 ? first.title : "", first.card),
    sections: sectionsOfRooms(rooms, sectionsOf),
  };
}

function sectionsOf(card: PeriodCard): readonly (Section | undefined)[] {
  const head = headSection(card);
  // Where nothing was written yet there is nothing to tell.
  if (card.log.begins === null || card.log.begins > card.to) return [head];
  return [
    head,
    workSection(card),
    missedSection(card),
    waterSection(card.water, card),
    { ...bookSection(card.stock), title: "Animals" },
    lossSection(card.stock),
    testSection(card),
    trendSection(card),
    ...eventSections(card),
  ];
}

function headSection(card: PeriodCard): Section {
  const { from, to, log } = card;
  const length = days(to - from + 1);
  const parts: Part[] = log.text === "" ? [] : [text(log.text, "strong")];
  if (log.begins === null || log.begins > to) return { title: "In short", note: length, parts };
  if (log.entries === 0)
    parts.push(text("Nothing was written in this time. What was due is told all the same.", "strong"));
  parts.push(list(shortLines(card)));
  const svg = pictureOf(card);
  if (svg !== "")
    parts.push({
      is: "picture",
      svg,
      alt: `Day by day: work done, duties late at the end of the day, new water in litres, deaths; ${isoOf(from)} to ${isoOf(to)}.`,
    });
  return { title: "In short", note: length, parts };
}

function shortLines({ work, water, stock, tests, trends, cases, log }: PeriodCard): (string | Line)[] {
  const { total } = work;
  const { mortality } = stock.total;
  return [
    `${counted(log.entries, "entry", "entries")} on ${days(log.days)}`,
    `Work: ${workText(total)}`,
    `Water: ${litres(water.litres)}, before ${litres(water.before)}`,
    `Animals: ${count(stock.total.opening)} at first, ${count(stock.total.closing)} at last; ${count(mortality.deaths)} died${mortality.against === null ? "" : `, before ${count(mortality.against.deaths)}`}`,
    tests.length === 0
      ? "No test outside limits"
      : `${counted(tests.length, "test", "tests")} outside limits`,
    ...(trends.turned.length > 0 ? [`${counted(trends.turned.length, "trend", "trends")} turned`] : []),
    `Cases: ${cases.opened.length} opened, ${cases.closed.length} closed, ${cases.open.length} open at the end`,
  ];
}

function workText({ done, inTime, late, lateDays, open, off }: WorkSumCard): string {
  if (done + open + off === 0) return "no duty was due, and none done";
  return [
    `${count(done)} done`,
    `${count(inTime)} in time`,
    ...(late > 0 ? [`${count(late)} late by ${days(lateDays ?? 0)} in the mean`] : []),
    ...(open > 0 ? [`${count(open)} due and not done by the end`] : []),
    ...(off > 0 ? [`${count(off)} done too rarely or too often`] : []),
  ].join(", ");
}

function pictureOf({ daily, from, to }: PeriodCard): string {
  const panel = (title: string, of: (day: PeriodCard["daily"][number]) => number): Panel[] =>
    daily.some((day) => of(day) > 0)
      ? [
          {
            ...noPanel,
            title,
            from,
            to: to + 1,
            columns: daily.map((day) => ({ day: day.day, value: of(day) })),
          },
        ]
      : [];
  return panels([
    ...panel("Duties done a day", ({ done }) => done),
    ...panel("Duties late at the end of the day", ({ late }) => late),
    ...panel("New water a day, L", (day) => day.litres),
    ...panel("Deaths a day", ({ died }) => died),
  ]);
}

function workSection({ work }: PeriodCard): Section {
  const { acts, places, total } = work;
  if (acts.length === 0)
    return { title: "Work", parts: [text("No duty was due in this time, and none was done.")] };
  const rows = (sums: readonly WorkSumCard[]) =>
    sums.map(({ name, done, inTime, late, lateDays, open, off }) => [
      name,
      count(done),
      count(inTime),
      late === 0 ? "" : count(late),
      lateDays === null ? "" : formatNumber(lateDays, 2),
      open === 0 ? "" : count(open),
      off === 0 ? "" : count(off),
    ]);
  const heads = ["done", "in time", "late", "days late", "not done", "too rare, too often"].map(figure);
  return {
    title: "Work",
    parts: [
      table(["work", ...heads], rows([...acts, { ...total, name: "all" }])),
      table(["place", ...heads], rows(places)),
      text(
        "Duties as stated. Done: days on which a duty was done. Days late: the mean of those that were late. Not done: due by the last day, from before it too, and not done by its end. Too rare, too often: duties of a number of times that were short, or over, on some day.",
        "faint",
      ),
    ],
  };
}

function missedSection({ work }: PeriodCard): Section | undefined {
  const { missed } = work;
  if (missed.length === 0) return undefined;
  return {
    title: "Late or not done",
    note: count(missed.length),
    parts: [
      table(
        ["place", "work", "stated", "what became of it"],
        together(missed).map(({ places, act, when, text: told, open }) => [
          places.join(", "),
          act,
          when,
          open !== null && open.late > 0 ? { text: told, tone: "warning" as const } : told,
        ]),
      ),
    ],
  };
}

/** Places of which the same is told of the same work are one line. */
function together(missed: readonly MissedCard[]): (MissedCard & { readonly places: readonly string[] })[] {
  const lines = new Map<string, MissedCard & { readonly places: string[] }>();
  for (const each of missed) {
    const key = JSON.stringify([each.act, each.when, each.text]);
    const known = lines.get(key);
    if (known === undefined) lines.set(key, { ...each, places: [each.place] });
    else known.places.push(each.place);
  }
  return [...lines.values()];
}

function waterSection(
  { places, sources, litres: sum, before, unknown }: WaterUsedCard,
  card: PeriodCard,
): Section {
  const title = "Water";
  if (places.length === 0)
    return { title, parts: [text("No water was changed or topped up, and none in the days before.")] };
  const cells = (each: { batch: number; flow: number; topUp: number; litres: number; before: number }) => [
    some(each.batch),
    some(each.flow),
    some(each.topUp),
    number(each.litres),
    number(each.before),
  ];
  const heads = ["batch", "flow", "top-up", "litres", "before"].map(figure);
  return {
    title,
    note: `${litres(sum)}, before ${litres(before)}`,
    parts: [
      table(
        ["from", ...heads],
        sources.map((each) => [each.source === "" ? "no source is defined" : each.source, ...cells(each)]),
      ),
      table(
        ["into", figure("times"), ...heads],
        places.map((each) => [each.place, count(each.times), ...cells(each)]),
      ),
      ...(unknown > 0
        ? [
            text(
              `Of ${counted(unknown, "change", "changes")} more nobody knows the litres: a volume is not stated.`,
            ),
          ]
        : []),
      text(`Before: the ${days(card.to - card.from + 1)} before.`, "faint"),
    ],
  };
}

function testSection({ tests }: PeriodCard): Section {
  const title = "Tests outside limits";
  if (tests.length === 0) return { title, parts: [text("None in this time.")] };
  return {
    title,
    note: count(tests.length),
    parts: [
      table(
        ["day", "where", "what", figure("reading"), "limit", "done after", "next test"],
        tests.map(({ day, place, parameter, reading, limit, done, next, isWithinNext }) => [
          spokenDay(day, day),
          place,
          parameter,
          reading,
          limit,
          done,
          next === "" ? "none yet" : isWithinNext === false ? { text: next, tone: "warning" as const } : next,
        ]),
      ),
      text("Done after: changes and doses in its water until the next test of the same.", "faint"),
    ],
  };
}

function trendSection({ trends }: PeriodCard): Section | undefined {
  const { turned, compared, tested } = trends;
  if (tested === 0) return undefined;
  return {
    title: "Trends that turned",
    parts: [
      turned.length > 0 ? list(turned.map((each) => each.text)) : text("None that the intervals tell."),
      text(
        `Tested here: ${tested}; with tests enough to compare, in this time and in as many days before: ${compared}. Turned: the 95 % intervals of the two do not meet. By Theil-Sen (Sen 1968), of what mixes on pairs of tests with the changes between taken out.`,
        "faint",
      ),
    ],
  };
}

const count = (value: number): string => formatNumber(value, 6);
const counted = (value: number, one: string, many: string): string =>
  `${count(value)} ${value === 1 ? one : many}`;
const number = (value: number): string => formatNumber(value, Math.max(3, String(Math.round(value)).length));
const litres = (value: number): string => `${number(value)} L`;
const some = (value: number): string => (value === 0 ? "" : number(value));
