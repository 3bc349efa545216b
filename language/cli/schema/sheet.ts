import * as z from "zod/mini";
import { head, isoDay, logbook, said, unread, whole } from "./parts.ts";

/** The laboratory sheet of a case. */

const figure = () => z.nullable(z.number());
const day = () => z.nullable(isoDay());

const field = z.object({
  name: z.string(),
  text: z.nullable(z.string()).check(said("null where the log does not say")),
  missing: z.nullable(z.string()).check(said("where it would be stated; null where it is")),
});

const summary = z.object({
  tests: whole(),
  outside: whole().check(said("of the limit stated")),
  median: z.string().check(said("without its unit; empty without tests")),
  range: z.string(),
});

const stamp = {
  day: isoDay(),
  clock: z.nullable(z.string()).check(said("HH:MM; null where no time of day is known")),
};

export const sheetReport = z.object({
  ...head("sheet"),
  ...logbook.shape,
  case: z.string(),
  day: isoDay().check(said("all that is told was known by its end; of a closed case the day it was closed")),
  since: isoDay(),
  episode: whole().check(said("from 1: a case that came back is told from when it was opened again")),
  closed: day(),
  keeper: z.array(field),
  laboratory: field,
  asked: field,
  questions: z.array(z.string()),
  firstSign: field,
  tanks: z.array(
    z.object({
      name: z.string(),
      hasSigns: z.boolean(),
      isMovedTo: z.boolean().check(said("sick animals were moved there")),
      fields: z.array(field),
    }),
  ),
  animals: z.array(
    z.object({
      tank: z.string(),
      species: z.string(),
      title: z.string(),
      before: z
        .string()
        .check(said("by the book when the day of the first sign began; empty where it is not known")),
      atRisk: z.string().check(said("as the latest entry says, as sick")),
      sick: z.string(),
      dead: z.number().check(said("since the day of the first sign, without culls and what is missing")),
      now: z.string(),
      age: field,
      size: field,
    }),
  ),
  arrivals: z.array(
    z.object({
      day: isoDay(),
      how: z.enum(["arrived", "moved in", "hatched"]),
      tank: z.string(),
      species: z.string(),
      animals: z.number(),
      deadOnArrival: z.number(),
      from: z.string().check(said("the supplier; of a move the tank")),
      lot: z.string(),
      carrier: z.string(),
      apart: z.string().check(said("what is known of quarantine")),
    }),
  ),
  course: z.array(
    z.object({
      day: isoDay(),
      tank: z.string(),
      species: z.string(),
      lot: z.string(),
      affected: figure(),
      atRisk: figure(),
      new: figure(),
      isAbout: z.boolean(),
      signs: z.string().check(said("as written")),
      note: z.string(),
    }),
  ),
  signs: z.array(
    z.object({
      site: z.string(),
      sign: z.string(),
      gloss: z.string(),
      first: isoDay(),
      last: isoDay(),
      times: whole(),
    }),
  ),
  otherSigns: z.array(z.string()),
  rates: z
    .array(z.object({ title: z.string(), text: z.string() }))
    .check(said("with the interval of Wilson 1927, 95 %")),
  losses: z
    .array(
      z.object({
        day: isoDay(),
        tank: z.string(),
        species: z.string(),
        animals: z.number(),
        how: z.string(),
        isDeath: z.boolean().check(said("false for what was culled and what is missing")),
        note: z.string(),
      }),
    )
    .check(said("from 30 days before the first sign")),
  waters: z.array(
    z.object({
      of: z.string(),
      rows: z.array(
        z.object({
          parameter: z.string(),
          unit: z.string(),
          latest: z.nullable(z.object({ text: z.string(), day: isoDay() })),
          last30: summary,
          last90: summary,
          limit: z.string(),
        }),
      ),
      figures: z.array(z.object({ what: z.string(), text: z.string(), day: isoDay() })),
    }),
  ),
  sources: z.array(
    z.object({
      name: z.string(),
      title: z.string(),
      times: whole(),
      litres: z.number(),
      content: field,
      tests: z.string().check(said("of a tank that was filled from")),
    }),
  ),
  changes: z.array(
    z.object({ of: z.string(), day: isoDay(), text: z.string(), source: z.string(), barrel: z.string() }),
  ),
  feedings: z.array(
    z.object({
      tank: z.string(),
      last: field,
      often: field,
      foods: z.array(
        z.object({
          food: z.string(),
          title: z.string(),
          kind: z.string(),
          times: whole(),
          last: isoDay(),
        }),
      ),
    }),
  ),
  events: z.array(
    z.object({
      is: z.enum(["new", "care", "note"]),
      day: isoDay().check(said("of several of the same words the last")),
      times: whole(),
      text: z.string().check(said("as written")),
    }),
  ),
  treatments: z.array(
    z.object({
      of: z.string(),
      remedy: z.string(),
      title: z.string(),
      state: z.string(),
      fields: z.array(field),
      doses: z.array(
        z.object({
          ...stamp,
          amount: z.string().check(said("as written")),
          after: z.string().check(said("in the water after it; empty where it cannot be computed")),
        }),
      ),
    }),
  ),
  baths: z.array(
    z.object({ ...stamp, tank: z.string(), remedy: z.string(), animals: z.string(), text: z.string() }),
  ),
  exposed: z.object({
    window: z.string().check(said("how far contacts are followed; empty where there is nothing to begin at")),
    hold: z.array(z.object({ tank: z.string(), by: z.string(), since: isoDay(), text: z.string() })),
    back: z.array(z.object({ name: z.string(), last: isoDay(), text: z.string() })),
  }),
  samples: z.array(
    z.object({
      ...stamp,
      tank: z.string(),
      material: z.string(),
      species: z.string(),
      count: figure(),
      kept: z.string(),
      strengthPercent: z.nullable(z.object({ low: z.number(), high: z.number() })),
      volumes: figure().check(said("of fixative to one of tissue")),
      container: z.string(),
      laboratory: z.string(),
      note: z.string(),
      state: z.enum(["taken", "packed", "handed", "sent", "received", "result"]),
      missing: z.array(z.string()).check(said("what its line does not say")),
    }),
  ),
  custody: z.array(
    z.object({
      ...stamp,
      step: z.enum(["taken", "packed", "handed", "sent", "received"]),
      what: z.string(),
      carrier: z.string(),
      note: z.string(),
      since: z.string().check(said("since the step before")),
    }),
  ),
  results: z.array(z.object({ day: isoDay(), outcome: z.string(), text: z.string() })),
  missing: z
    .array(z.object({ of: z.string(), name: z.string(), missing: z.string() }))
    .check(said("all that the sheet asks for and nobody says, with where it would be stated")),
  unread,
});
export type SheetReport = z.infer<typeof sheetReport>;
