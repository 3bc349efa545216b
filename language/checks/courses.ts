import { spokenDay } from "../book/dates.ts";
import { entryOf } from "../book/entry.ts";
import type { Remedy } from "../book/stations.ts";
import { filterDays, filterTests } from "../room/course-steps.ts";
import { type Course, changeAfterOf, coursesOf, endOfCourse, isDoneAfter } from "../room/dose-courses.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { plantsIn } from "../room/planted.ts";
import { type PartState, partsOf, returnedEarly, subjectOf } from "../room/taken-out.ts";
import { placeOfRow, whyEntry, whyStated } from "../room/why.ts";
import { doseCaution, stated } from "./doses.ts";
import type { RowFinding } from "./observe.ts";
import { above } from "./stock-fixes.ts";
import { percent } from "./words.ts";

/** What a course of treatment owes beside its doses: what is to be out, a change at its end, tests of the filter, plants kept from it. */

/** The findings of the courses of one water up to the end of a day: they follow from its own entries alone. */
export function courseFindings(logbook: Logbook, ledger: Ledger, day: number): RowFinding[] {
  if (ledger.doses.length === 0) return [];
  // Most remedies owe nothing of it: their doses are not looked at.
  return ledger.book.remedies
    .filter((remedy) => isOwing(ledger, remedy))
    .flatMap((remedy) => coursesOf(ledger, remedy, day))
    .flatMap((course) => [
      ...partFindings(logbook, course, day),
      ...changeAfterFindings(course, day),
      ...filterFindings(course, day),
      ...plantFindings(logbook, course),
    ]);
}

function isOwing(ledger: Ledger, remedy: Remedy): boolean {
  const { without, changeAfter, harms } = remedy;
  return (
    without.length > 0 ||
    !Number.isNaN(changeAfter) ||
    harms.includes("filter-bacteria") ||
    harmsPlants(ledger, remedy)
  );
}

const harmsPlants = ({ book }: Ledger, { harms }: Remedy): boolean =>
  harms.some((word) => word === "plant" || book.species.get(word)?.kind === "plant");

/** The entry of a dose, as findings refer to it. */
const entryOfDose = ({ doses }: Ledger, index: number) => ({
  time: doses.time[index]!,
  block: doses.block[index]!,
  row: doses.row[index]!,
});

function partFindings(logbook: Logbook, course: Course, day: number): RowFinding[] {
  const { ledger, remedy, given } = course;
  if (remedy.without.length === 0) return [];
  const span = { from: given[0]!.time, to: endOfCourse(course, day) };
  const at = entryOfDose(ledger, given[0]!.index);
  const parts = partsOf(logbook, ledger, remedy, span, day);
  const isLeft = ({ is, lateSince }: PartState): boolean => is === "in" || !Number.isNaN(lateSince);
  const left = parts.filter(isLeft);
  const found: RowFinding[] = [];
  if (left.length > 0)
    found.push({
      code: "course/not-removed",
      ...at,
      slots: ["remedy"],
      severity: () => "information",
      message: () =>
        `${remedy.name} is stated to be given without ${left.map(({ part }) => part).join(", ")}: ${left.map(whenOut).join("; ")}`,
      related: () => [stated(remedy)],
      fixes: (place) => {
        const target = targetWord(at);
        // What was taken out later needs no line before the dose.
        if (target === undefined || left.some(({ lateSince }) => !Number.isNaN(lateSince))) return [];
        return above(at, place, `${target} remove ${left.map(({ part }) => part).join(", ")}`);
      },
      why: () => ({
        what: `what is to be out for ${remedy.name}`,
        value: left.map(({ part }) => part).join(", "),
        from: [whyEntry(at), whyStated(remedy.place)],
      }),
    });
  for (const row of returnedEarly(logbook, ledger, remedy, span)) {
    if (row.day > day) continue;
    const moment = { time: row.time, block: row.block, row: row.id };
    found.push({
      code: "course/returned-early",
      ...moment,
      slots: ["part"],
      severity: () => "warning",
      message: () =>
        `${subjectOf(row)} is back in ${ledger.body?.name} before the course of ${remedy.name} is over: it runs until ${spokenDay(Math.floor(span.to), row.day)}. ${doseCaution}`,
      related: () => {
        const place = placeOfRow(at.block, at.row);
        return [
          ...(place === undefined ? [] : [{ place, message: "the course began here" }]),
          stated(remedy),
        ];
      },
      why: () => ({
        what: `end of the course of ${remedy.name}`,
        value: spokenDay(Math.floor(span.to)),
        formula: "last dose given, or still to be given, + interval; of a remedy without a repeat a day",
        from: [...given.map(({ index }) => whyEntry(entryOfDose(ledger, index))), whyStated(remedy.place)],
      }),
    });
  }
  return found;
}

function whenOut({ part, lateSince }: PartState): string {
  return Number.isNaN(lateSince)
    ? `nothing says that ${part} was taken out`
    : `${part} was taken out only on ${spokenDay(lateSince)}`;
}

/** The target of an entry as it is written: a group with its sign. */
function targetWord({ block, row }: Pick<RowFinding, "block" | "row">): string | undefined {
  const line = entryOf(block, row)?.line;
  if (line === undefined || line.is === "sheet" || line.target === undefined) return undefined;
  return block.text.slice(line.target.start, line.target.end);
}

function changeAfterFindings(course: Course, day: number): RowFinding[] {
  const { ledger, remedy, given, until } = course;
  const change = changeAfterOf(course, day);
  if (change === undefined || isDoneAfter(change)) return [];
  // It is owed from the day after the last interval, or from when the next course began without it.
  if (!(day > change.due) && !(until <= day + 1)) return [];
  const at = entryOfDose(ledger, given.at(-1)!.index);
  return [
    {
      code: "course/change-after",
      ...at,
      slots: [],
      severity: () => "warning",
      message: () =>
        `${percent(change.owed)} of the water of ${ledger.body?.name} is to be changed after the course of ${remedy.name}, by ${spokenDay(change.due, day)}; ${percent(change.done)} ${Number.isFinite(until) ? "was changed before the next course" : "was changed since the last dose"}`,
      related: () => [stated(remedy)],
      why: () => ({
        what: `new water since the last dose of ${remedy.name}`,
        value: percent(change.done),
        formula: "1 - product of (1 - f) of each change; owed by the last dose + interval",
        from: [whyEntry(at), whyStated(remedy.place)],
      }),
    },
  ];
}

function filterFindings({ ledger, remedy, given, until }: Course, day: number): RowFinding[] {
  if (!remedy.harms.includes("filter-bacteria")) return [];
  for (const [place, { index, time }] of given.entries()) {
    const end = Math.floor(time) + filterDays;
    // The days of one dose end where the next begin; of the last they must be over.
    const next = given[place + 1]?.time ?? until;
    if (Math.floor(next) <= end) continue;
    if (end >= day) return [];
    const missing = filterTests.filter((parameter) => {
      const series = ledger.readings[parameter.id];
      return (
        series === undefined ||
        !(series.time[series.from(time)]! < end + 1) ||
        series.from(time) >= series.length
      );
    });
    if (missing.length === 0) continue;
    const at = entryOfDose(ledger, index);
    const names = missing.map(({ name }) => name).join(" and ");
    return [
      {
        code: "course/filter-tests",
        ...at,
        slots: ["remedy"],
        severity: () => "information",
        message: () =>
          `${remedy.name} is stated to harm the bacteria of the filter: ${names} ${missing.length === 1 ? "was" : "were"} not tested in ${ledger.body?.name} in the ${filterDays} days after this dose`,
        related: () => [stated(remedy)],
        why: () => ({
          what: "tests after a remedy that harms the filter",
          value: `${names} not tested by ${spokenDay(end)}`,
          formula: `day of the dose + ${filterDays} d (common practice)`,
          from: [whyEntry(at), whyStated(remedy.place)],
        }),
      },
    ];
  }
  return [];
}

/** Plants that the book has in the water and the remedy is stated to harm: told of the first dose of a course. */
function plantFindings(logbook: Logbook, { ledger, remedy, given }: Course): RowFinding[] {
  const { book } = ledger;
  const harms = (plant: string): boolean =>
    remedy.harms.some(
      (word) => word === "plant" || (book.species.get(plant)?.traits.has(word) ?? word === plant),
    );
  if (!harmsPlants(ledger, remedy)) return [];
  const at = entryOfDose(ledger, given[0]!.index);
  const plants = plantsIn(logbook, ledger, given[0]!.time).filter(({ name }) => harms(name));
  if (plants.length === 0) return [];
  const names = plants.map(({ name }) => name).join(", ");
  return [
    {
      code: "dose/harms",
      ...at,
      slots: ["remedy"],
      severity: () => "warning",
      message: () =>
        `${remedy.name} is stated to harm ${remedy.harms.join(", ")}: ${names} ${plants.length === 1 ? "was" : "were"} planted in this water, and nothing says that ${plants.length === 1 ? "it was" : "they were"} taken out. ${doseCaution}`,
      related: () => [
        stated(remedy),
        ...plants.flatMap(({ row }) => {
          const place = placeOfRow(row.block, row.id);
          return place === undefined ? [] : [{ place, message: "planted here" }];
        }),
      ],
      why: () => ({
        what: `plants in ${ledger.body?.name}`,
        value: names,
        from: [
          ...plants.map(({ row }) => whyEntry({ block: row.block, row: row.id })),
          whyStated(remedy.place),
        ],
      }),
    },
  ];
}
