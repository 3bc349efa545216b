import * as z from "zod/mini";
import { isoDay, place, said, whole } from "./parts.ts";

/** The light, the algae and the plants of a tank, and the days before and after a change of light. */

const figure = () => z.nullable(z.number());
const maybePlace = z.nullable(place);

const side = z.object({
  count: whole().check(said("readings, one a day")),
  low: figure().check(said("their median; equal to high but for censored readings")),
  high: figure(),
  text: z.string(),
});

const compared = z.object({
  what: z.string().check(said("a sort of algae, growth by what is trimmed, or what was tested")),
  isMain: z.boolean().check(said("algae, growth, nitrate or phosphate")),
  unit: z.string(),
  before: side,
  after: side,
  shift: z
    .nullable(z.object({ low: figure(), high: figure() }))
    .check(said("after is higher by (Hodges & Lehmann); null where readings are too few")),
  low: figure().check(said("the interval of the shift; null also for an end that readings leave open")),
  high: figure(),
  confidence: figure().check(said("of the interval, in per cent")),
  text: z.string(),
  isSure: z.boolean().check(said("the interval has the confidence asked for, and leaves one side only")),
  chanceText: z.string(),
});

export const lightChange = z.object({
  tank: z.string(),
  day: isoDay(),
  text: z.string().check(said("what was changed")),
  moreText: z.string(),
  days: whole().check(said("compared on each side")),
  daysText: z.string().check(said("which days, and why no more; or why none")),
  isClosed: z.boolean().check(said("the days after are all over")),
  compared: z.array(compared),
  meanwhile: z.array(z.string()).check(said("what else happened in these days")),
  sisters: z
    .array(z.object({ tank: z.string(), compared: z.array(compared) }))
    .check(said("tanks of the same water of which the light did not change meanwhile")),
  remark: z.string().check(said("what such a comparison cannot tell")),
  at: maybePlace,
});

export const light = z.object({
  text: z.string().check(said("as it is set; empty where no entry says")),
  since: z.nullable(isoDay()),
  at: maybePlace,
  unit: z.string().check(said("of the course")),
  course: z.array(z.object({ time: z.string(), value: z.number() })),
  settings: z.array(
    z.object({ time: z.string(), value: figure(), text: z.string(), isLamp: z.boolean(), at: maybePlace }),
  ),
  algae: z.array(
    z.object({
      sort: z.string().check(said("empty where none is named")),
      title: z.string(),
      unit: z.string().check(said("% of a share of the surface, empty of a rating from 0 to 4")),
      most: z.number(),
      ratings: z.array(
        z.object({ time: z.string(), low: z.number(), high: z.number(), text: z.string(), at: maybePlace }),
      ),
    }),
  ),
  trims: z.array(
    z.object({
      time: z.string(),
      grams: figure(),
      plant: z.string(),
      growthText: z.string().check(said("a week since the trimming before; empty where it cannot be told")),
      text: z.string(),
      at: maybePlace,
    }),
  ),
  changes: z.array(lightChange).check(said("of the last year, the latest first")),
});
