import { spokenDay } from "../book/dates.ts";
import type { CourseCard, PublishedCard } from "./course-cards.ts";
import { topUpText } from "./courses-report.ts";

/** Courses in lines, for a hover and a terminal. */

/** How a course stands where its next dose does not tell it, what is out, what the curve comes to, what to add after a change. */
export function courseLines(course: CourseCard, day: number): string[] {
  const { stateText, parts, changeAfterText, isChangeAfterDone, figures, end, state } = course;
  const first = [
    state === "running" ? "" : stateText,
    course.case === "" ? "" : `case ${course.case}`,
    ...parts.map(({ text }) => text),
    changeAfterText === "" ? "" : `after the course: ${changeAfterText}`,
    state === "running" && !isChangeAfterDone ? `over on ${spokenDay(end, day)}` : "",
  ];
  const curve = [
    figures.insideText,
    figures.highestText === "" ? "" : `highest ${figures.highestText}`,
    figures.aboveText,
    figures.exposure === null ? "" : `exposure ${figures.exposureText}`,
  ];
  return [
    joined(first),
    joined(curve),
    state === "running" && course.topUps.length > 0 ? topUpText(course) : "",
  ].filter((line) => line !== "");
}

const joined = (parts: readonly string[]): string => parts.filter((part) => part !== "").join("; ");

/** What is published, each with where it is from. */
export function publishedLines({ ranges, notes, cautions }: PublishedCard): string[] {
  return [...ranges, ...notes, ...cautions].map(({ text, source }) => `${text} (${source})`);
}
