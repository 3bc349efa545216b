import * as z from "zod/mini";
import { isoDay, place, said, whole } from "./parts.ts";

/** Courses of treatment and baths. */

const figure = () => z.nullable(z.number());
const isoTime = () => z.string().check(said("YYYY-MM-DDThh:mm, without a time zone"));
const points = z.array(z.object({ time: isoTime(), value: z.number() }));
const sourced = z.array(z.object({ text: z.string(), source: z.string() }));
const fraction = () => z.number().check(said("of all of the water, 0 to 1"));

export const course = z.object({
  remedy: z.string(),
  title: z.string(),
  unit: z.string().check(said("of all its concentrations")),
  water: z.string().check(said("the tank or system it is given in")),
  case: z.string().check(said("empty where none is named and none was open")),
  state: z.enum(["running", "complete", "cut"]),
  times: z.nullable(whole()).check(said("doses in all, as stated")),
  stateText: z.string(),
  begin: isoDay(),
  end: isoDay().check(said("when the interval after its last dose is over, of a running one as planned")),
  target: z.nullable(z.object({ low: z.number(), high: z.number(), text: z.string() })),
  ceiling: figure(),
  ceilingText: z.string(),
  doses: z.array(
    z.object({
      number: whole(),
      time: isoTime(),
      isPlanned: z.boolean(),
      after: figure().check(said("in the water just after it")),
      amount: z.string(),
      text: z.string(),
      changeOwed: fraction(),
      at: z.nullable(place),
    }),
  ),
  course: points.check(said("in the water up to the day")),
  ahead: points.check(said("from then on as planned")),
  changes: z.array(z.object({ time: isoTime(), fraction: fraction(), isPlanned: z.boolean() })),
  parts: z.array(
    z.object({
      part: z.string(),
      is: z.enum(["out", "in", "back early", "back"]),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  changeAfterText: z.string(),
  isChangeAfterDone: z.boolean(),
  withdrawalEnd: z.nullable(isoDay()),
  figures: z.object({
    exposure: figure().check(said("the area under the curve, unit times hours")),
    exposureText: z.string(),
    insideDays: figure(),
    insideText: z.string(),
    highest: figure(),
    highestText: z.string(),
    aboveDays: figure(),
    aboveText: z.string(),
  }),
  topUps: z.array(z.object({ fraction: fraction(), text: z.string() })),
  published: z.nullable(
    z.object({
      substance: z.string(),
      ranges: sourced,
      notes: sourced,
      cautions: sourced,
      caution: z.string(),
    }),
  ),
  at: place,
});
export type CourseReport = z.infer<typeof course>;

export const bath = z.object({
  time: isoTime(),
  tank: z.string(),
  remedy: z.string(),
  species: z.string(),
  animals: figure(),
  lot: z.string(),
  case: z.string(),
  concentration: figure().check(said("in the vessel; nothing of it is in the tank")),
  unit: z.string(),
  text: z.string(),
  stated: z.string(),
  withdrawalEnd: z.nullable(isoDay()),
  at: z.nullable(place),
});
export type BathReport = z.infer<typeof bath>;
