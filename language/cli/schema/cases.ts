import * as z from "zod/mini";
import { bath, course } from "./course.ts";
import { exposureOfOne } from "./exposure.ts";
import { head, isoDay, logbook, place, said, unread, whole, why } from "./parts.ts";
import { quarantine } from "./quarantine.ts";
import { roomLosses } from "./room-losses.ts";

/** What `cases` prints. */

const figure = () => z.nullable(z.number());
const day = () => z.nullable(isoDay());

const item = {
  name: z.string(),
  episode: whole().check(said("from 1: a case that was closed and came back is told as one more")),
  since: isoDay(),
  closed: day(),
  outcome: z.string().check(said("recovered, died, euthanised or unresolved; empty where nothing is said")),
  state: z.string(),
  species: z.array(z.string()),
  text: z.string(),
  affected: figure().check(said("showing signs by the latest entry, less the dead since")),
  ever: z.number().check(said("affected at any time")),
  isLeast: z.boolean().check(said("`ever` is a least: not every entry says how many are new")),
  atRisk: figure().check(said("as stated, else by the book on the day of the first signs")),
  dead: z.number(),
  tanks: z.array(
    z.object({
      name: z.string(),
      title: z.string(),
      from: isoDay(),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  at: z.nullable(place),
};

export const caseItem = z.object(item);
export type CaseItemReport = z.infer<typeof caseItem>;

const line = z.object({
  day: isoDay(),
  clock: z.string(),
  kind: z.string(),
  text: z.string(),
  by: z
    .enum(["named", "linked", "after"])
    .check(said("it names the case; it belongs to it by tank and day; it names it after its close")),
  at: z.nullable(place),
});

const entire = z.object({
  ...item,
  episodes: z.array(z.object({ episode: whole(), since: isoDay(), closed: day() })),
  places: z.array(
    z.object({
      of: z.string(),
      species: z.string(),
      lot: z.string(),
      affected: z.number(),
      present: figure(),
      ever: z.number().check(said("that fell ill here")),
      atRisk: figure().check(said("here, and not of another tank of the case before")),
      dead: z.number(),
    }),
  ),
  rates: z.array(
    z.object({
      is: z.enum(["attack", "fatality", "mortality", "prevalence"]),
      title: z.string(),
      count: z.number(),
      outOf: z.number(),
      best: z.number().check(said("0 to 1")),
      low: z.number().check(said("Wilson 1927, 95 %")),
      high: z.number(),
      isLeast: z.boolean(),
      text: z.string(),
      why,
    }),
  ),
  unknown: z.string().check(said("why there is no attack rate; empty where there is one")),
  curve: z.array(
    z.object({
      day: isoDay(),
      fresh: z.number().check(said("found to be affected that day")),
      dead: z.number(),
      affected: figure().check(said("showing signs, on days on which somebody counted")),
      present: figure(),
      low: figure().check(said("of the share that shows signs, Wilson 1927, 95 %")),
      high: figure(),
      text: z.string(),
    }),
  ),
  signs: z.array(
    z.object({
      site: z.string().check(said("empty for what the vocabulary does not know")),
      word: z.string(),
      gloss: z.string(),
      grade: z.string(),
      first: isoDay(),
      last: isoDay(),
      times: whole(),
      at: z.nullable(place),
    }),
  ),
  courses: z.array(course),
  baths: z.array(bath),
  samples: z.array(
    z.object({
      text: z.string(),
      day: isoDay(),
      container: z.string(),
      laboratory: z.string(),
      state: z.string(),
      steps: z.array(line),
      caution: z.string(),
      at: z.nullable(place),
    }),
  ),
  results: z.array(z.object({ day: isoDay(), outcome: z.string(), note: z.string(), at: z.nullable(place) })),
  questions: z.array(line),
  exposure: z.nullable(exposureOfOne),
  entries: z.array(line),
});

export const casesReport = z.object({
  ...head("cases"),
  logbooks: z.array(
    z.object({
      ...logbook.shape,
      open: z.array(caseItem).check(said("the latest first")),
      closed: z.array(caseItem).check(said("with --all; the one closed last first")),
      case: z.optional(entire.check(said("the one that was asked for"))),
      quarantines: z.array(quarantine),
      losses: roomLosses,
    }),
  ),
  caution: z.string(),
  unread,
});
export type CasesReport = z.infer<typeof casesReport>;
