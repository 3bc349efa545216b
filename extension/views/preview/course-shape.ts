import * as z from "zod/mini";
import type { BathCard, CourseCard, Place } from "./shown.ts";

/** Courses of treatment and baths as the preview may be sent them. */

const figure = z.number();
const maybe = z.nullable(z.number());
const text = z.string();
const points = z.array(z.object({ time: figure, value: figure }));
const sourced = z.array(z.object({ text, source: text }));

/** @param place the shape of a place in a file */
export function courseShapes(place: z.ZodMiniType<Place>): {
  readonly course: z.ZodMiniType<CourseCard>;
  readonly bath: z.ZodMiniType<BathCard>;
} {
  const maybePlace = z.nullable(place);
  const course = z.object({
    remedy: text,
    title: text,
    unit: text,
    water: text,
    case: text,
    state: z.enum(["running", "complete", "cut"]),
    times: maybe,
    stateText: text,
    begin: figure,
    end: figure,
    target: z.nullable(z.object({ low: figure, high: figure, text })),
    ceiling: maybe,
    ceilingText: text,
    doses: z.array(
      z.object({
        number: figure,
        time: figure,
        isPlanned: z.boolean(),
        after: maybe,
        amount: text,
        text,
        changeOwed: figure,
        at: maybePlace,
      }),
    ),
    course: points,
    ahead: points,
    changes: z.array(z.object({ time: figure, fraction: figure, isPlanned: z.boolean() })),
    parts: z.array(
      z.object({ part: text, is: z.enum(["out", "in", "back early", "back"]), text, at: maybePlace }),
    ),
    changeAfterText: text,
    isChangeAfterDone: z.boolean(),
    withdrawalEnd: maybe,
    figures: z.object({
      exposure: maybe,
      exposureText: text,
      insideDays: maybe,
      insideText: text,
      highest: maybe,
      highestText: text,
      aboveDays: maybe,
      aboveText: text,
    }),
    topUps: z.array(z.object({ fraction: figure, text })),
    published: z.nullable(
      z.object({ substance: text, ranges: sourced, notes: sourced, cautions: sourced, caution: text }),
    ),
    at: place,
  });
  const bath = z.object({
    time: figure,
    tank: text,
    remedy: text,
    species: text,
    animals: maybe,
    lot: text,
    case: text,
    concentration: maybe,
    unit: text,
    text,
    stated: text,
    withdrawalEnd: maybe,
    at: maybePlace,
  });
  return { course, bath };
}
