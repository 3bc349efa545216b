import { clockOf, isoOf, spokenDay } from "../book/dates.ts";
import { percent } from "../checks/words.ts";
import type { BathCard, CourseCard, CoursesCard, PublishedCard } from "./course-cards.ts";
import { caution, figure, type Line, list, type Part, type Section, table, text } from "./document.ts";
import { courseCurve, courseCurveWords } from "./pictures/course-curve.ts";

/** Courses of treatment as sections of a report: the laboratory sheet, the casebook. */

export function coursesSections(card: CoursesCard): Section[] {
  const sections = [
    ...card.courses.map((course) => courseSection(course, card.day)),
    bathsSection(card),
  ].filter((section) => section !== undefined);
  if (sections.length === 0)
    return [{ title: "Treatments", parts: [text("No dose and no bath is written.")] }];
  return [...sections, { title: "Mind", parts: [caution(card.caution)] }];
}

/** One course: the curve, the doses given and to come, what is to be out, the figures, what is published. */
export function courseSection(course: CourseCard, day: number): Section {
  const { remedy, title, water, stateText, begin, end } = course;
  const svg = courseCurve(course);
  const alt = courseCurveWords(course);
  const parts: Part[] = [
    text(`${stateText}.`, course.state === "cut" ? "warning" : "plain"),
    ...(svg === ""
      ? [text("What was in the water cannot be computed.", "faint")]
      : [{ is: "picture" as const, svg, alt }]),
    doseTable(course, day),
    list(factsOf(course, day)),
    ...(course.topUps.length === 0 ? [] : [text(topUpText(course), "faint")]),
    ...(course.published === null ? [] : publishedParts(course.published)),
  ];
  return {
    title: `${remedy}${title === "" ? "" : `, ${title}`}, in ${water}`,
    note: course.times === null ? `since ${spokenDay(begin)}` : `${spokenDay(begin)} to ${spokenDay(end)}`,
    parts,
  };
}

function doseTable({ doses, unit }: CourseCard, day: number): Part {
  const rows = doses.map(({ number, time, isPlanned, amount, after, text: made, changeOwed }) => [
    String(number),
    isPlanned ? `${spokenDay(Math.floor(time), day)}, to come` : writtenAt(time),
    changeOwed > 0 ? percent(changeOwed) : "",
    amount,
    after === null ? "not known" : made.split(",")[0]!,
  ]);
  return table(
    [figure("Dose"), "When", figure("Change before"), figure("Given"), figure(`In the water, ${unit}`)],
    rows,
  );
}

function writtenAt(time: number): string {
  const day = Math.floor(time);
  const clock = clockOf(time);
  return clock === "00:00" ? isoOf(day) : `${isoOf(day)} ${clock}`;
}

function factsOf(course: CourseCard, day: number): Line[] {
  const { target, ceilingText, figures, parts, changeAfterText, isChangeAfterDone, withdrawalEnd } = course;
  const fact = (text: string, note: string, isWrong = false): Line[] =>
    text === "" ? [] : [{ text, note, ...(isWrong ? { tone: "warning" as const } : {}) }];
  return [
    ...fact(course.case, "case"),
    ...fact(target?.text ?? "", "target, as stated"),
    ...fact(ceilingText, "ceiling, as stated"),
    ...fact(figures.insideText, "inside the target"),
    ...fact(figures.highestText, "highest"),
    ...fact(figures.aboveText, "by the curve", (figures.aboveDays ?? 0) > 0),
    ...fact(figures.exposureText, "exposure: the area under the curve up to the day"),
    ...parts.flatMap(({ text, is }) => fact(text, "to be out", is === "in" || is === "back early")),
    ...fact(changeAfterText, "after the course", !isChangeAfterDone && course.end < day),
    ...fact(withdrawalEnd === null ? "" : `not before ${spokenDay(withdrawalEnd)}`, "to leave"),
  ];
}

/** What is to be added after a change: target × litres replaced. */
export function topUpText({ topUps }: Pick<CourseCard, "topUps">): string {
  const amounts = topUps.map(({ fraction, text }) => `${percent(fraction)}: ${text}`).join(", ");
  return `To hold the target after a change, add what it took out, target × litres replaced, and not a whole dose: ${amounts}.`;
}

function publishedParts({ substance, ranges, notes, cautions, caution: words }: PublishedCard): Part[] {
  const line = ({ text, source }: { readonly text: string; readonly source: string }): Line => ({
    text,
    note: source,
  });
  return [
    text(`Published of ${substance}`, "strong"),
    list([...ranges, ...notes, ...cautions].map(line)),
    caution(words),
  ];
}

function bathsSection({ baths }: CoursesCard): Section | undefined {
  if (baths.length === 0) return undefined;
  const rows = baths.map((bath: BathCard) => [
    writtenAt(bath.time),
    bath.tank,
    `${bath.animals ?? "?"} ${bath.species}${bath.lot === "" ? "" : `, lot ${bath.lot}`}`,
    bath.remedy,
    bath.text,
    bath.stated,
  ]);
  return {
    title: "Baths and dips",
    note: String(baths.length),
    parts: [
      table(["When", "From", "Animals", "In", "Strength and time", "As stated"], rows),
      text("In a vessel apart: nothing of it came into the tank's water.", "faint"),
    ],
  };
}
