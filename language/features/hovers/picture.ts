import { spokenDay } from "../../book/dates.ts";
import type { WaterCard } from "../cards.ts";
import { picture, plain } from "../markdown.ts";
import { spark } from "../pictures/spark.ts";

/** So many days of readings are drawn. */
const drawnDays = 120;

/** A small picture of a parameter of late, with the same in words for who does not see it. */
export function waterPicture(tankName: string, { parameter, readings, course, limit }: WaterCard): string {
  const end = readings.at(-1)?.time ?? 0;
  const late = readings.filter(({ time }) => time > end - drawnDays);
  const first = late[0];
  const last = late.at(-1);
  if (first === undefined || last === undefined) return "";
  const svg = spark({
    points: late,
    course: course.filter(({ time }) => time > end - drawnDays),
    limitLow: limit?.low ?? null,
    limitHigh: limit?.high ?? null,
  });
  const lowest = late.reduce((a, b) => (b.low < a.low ? b : a));
  const highest = late.reduce((a, b) => ((b.high ?? Infinity) > (a.high ?? Infinity) ? b : a));
  const range = lowest.text === highest.text ? lowest.text : `${lowest.text} to ${highest.text}`;
  const alt = [
    `${parameter} in ${tankName}: ${late.length} readings from ${spokenDay(first.time, last.time)} to ${spokenDay(last.time)}`,
    range,
    `last ${last.text}`,
    limit === null ? "" : `limit ${limit.text}`,
  ];
  const drawn = picture(svg, alt.filter((part) => part !== "").join(", "));
  return `${drawn} ${plain([parameter, limit?.text].filter(Boolean).join(", "))}`;
}
