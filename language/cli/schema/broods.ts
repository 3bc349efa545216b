import * as z from "zod/mini";
import { head, isoDay, place, said, unread, whole, why } from "./parts.ts";

/** What `broods` prints. */

const figure = () => z.nullable(z.number());
const maybeDay = () => z.nullable(isoDay());

const share = z.object({
  what: z.string().check(said("`hatched of laid`, `alive after 30 days, culls left out`")),
  count: z.number(),
  outOf: z.number(),
  isAbout: z.boolean().check(said("rests on an estimate: the interval tells of chance alone")),
  share: figure().check(said("null where more were counted than there can have been")),
  low: figure(),
  high: figure().check(said("95 %, Wilson 1927")),
  text: z.string(),
});

const inbreeding = z
  .nullable(z.object({ low: z.number(), high: z.number(), text: z.string(), why }))
  .check(
    said(
      "fractions, equal unless a parent is one of a group; null where a parent is not known, or the pedigree goes round",
    ),
  );

export const broodReport = z.object({
  name: z.string(),
  lot: z.string().check(said("empty for a brood without a name")),
  title: z.string(),
  species: z.string(),
  state: z.enum(["eggs", "hatched", "swimming", "gone", "lost"]),
  isOpen: z.boolean().check(said("there is something to wait for, or to rear")),
  stateText: z.string(),
  of: z.string().check(said("the tank of its eggs, or of its first young")),
  where: z
    .array(z.object({ tank: z.string(), count: z.number(), text: z.string() }))
    .check(said("animals by tank; empty for a brood without a name: nobody can follow it")),
  among: whole().check(said("of an entry without a lot: how many spawnings it may belong to")),
  stages: z.array(
    z.object({
      stage: z.enum(["laid", "alive", "hatched", "swimming", "living"]),
      day: isoDay(),
      count: figure(),
      isAbout: z.boolean(),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  shares: z.array(z.extend(share, { why })),
  expected: z.nullable(
    z.object({
      stage: z.enum(["hatch", "swim"]),
      by: z
        .enum(["own broods", "stated", "days alone"])
        .check(said("what it rests on; days alone where no temperature is known")),
      earliest: maybeDay(),
      likely: maybeDay(),
      latest: maybeDay().check(said("null where it is not in sight: too cold")),
      text: z.string(),
      is: z.enum(["ahead", "due", "late"]),
      degreeDays: z.nullable(z.object({ low: z.number(), high: z.number(), soFar: figure() })),
      why,
    }),
  ),
  took: z.array(
    z.object({
      stage: z.enum(["hatch", "swim"]),
      days: whole(),
      degreeDays: figure().check(said("above the base of the species; null where a day is not known")),
      meanC: figure(),
      text: z.string(),
    }),
  ),
  father: z.string(),
  mother: z.string(),
  line: z.string(),
  generation: z.string(),
  inbreeding,
  at: z.nullable(place),
});

const pair = z.object({
  name: z.string(),
  species: z.string(),
  father: z.string(),
  mother: z.string().check(said("empty where they are not named: then it is the tank that gives")),
  spawnings: whole(),
  interval: z.nullable(
    z.object({ median: z.number(), least: z.number(), most: z.number(), text: z.string() }),
  ),
  eggs: figure().check(said("the median of single spawnings")),
  young: figure(),
  eggsText: z.string(),
  youngText: z.string(),
  eggsAMonth: figure().check(said("in 30 days, from the first spawning to the last")),
  youngAMonth: figure(),
  shares: z.array(share),
  inbreeding: z.nullable(z.string()),
  at: z.nullable(place),
});

const lot = z.object({
  name: z.string(),
  title: z.string(),
  species: z.string(),
  sex: z.string(),
  line: z.string(),
  generation: z.string(),
  born: maybeDay(),
  brood: z.nullable(broodReport),
  entries: z.array(z.object({ day: isoDay(), text: z.string(), at: z.nullable(place) })),
  ancestors: z.array(
    z.object({
      name: z.string(),
      as: z.string().check(said("`father`, `father's mother`")),
      back: whole().check(said("generations back, from 1; five at most are told")),
      title: z.string(),
      species: z.string(),
      line: z.string(),
      generation: z.string(),
      isGroup: z.boolean().check(said("it is one of several, and nobody knows which")),
      inbreedingText: z.string(),
      at: z.nullable(place),
    }),
  ),
  inbreeding,
  young: z.array(z.object({ name: z.string(), text: z.string(), at: z.nullable(place) })),
});

export const broodsReport = z.object({
  ...head("broods"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      day: isoDay(),
      broods: z.array(broodReport).check(said("the open ones first; with a name asked for none but it")),
      pairs: z.array(pair),
      compared: z
        .array(
          z.object({
            species: z.string(),
            best: z.string(),
            other: z.string(),
            of: z.enum(["young", "eggs"]),
            p: figure().check(said("rank-sum test, times the number of pairs")),
            isApart: z.boolean(),
            text: z.string(),
          }),
        )
        .check(said("the pair that gave most at a spawning against each other pair of its species")),
      lot: z.nullable(lot).check(said("the lot asked for; null where none was")),
    }),
  ),
  caution: z.string(),
  unread,
});
export type BroodsReport = z.infer<typeof broodsReport>;
