import * as z from "zod/mini";
import { head, isoDay, place, said, unread, why } from "./parts.ts";

/** What `stock` prints: the book of a period, or with `--register` the register of animals. */

const figure = () => z.nullable(z.number());
const animals = () => z.number().check(said("of an estimate, or a range, its middle"));
const interval = z.object({ best: z.number(), low: z.number(), high: z.number() });
const maybePlace = z.nullable(place);

const mortality = z.object({
  deaths: animals().check(said("found dead, jumped, euthanised, or lost without a word how")),
  ofAll: figure().check(said("deaths over the animals there at first and all that came in")),
  ofMean: figure().check(said("deaths over the mean number there")),
  perThousand: z.nullable(
    interval.check(said("deaths in 1000 animal-days, exact 95 % interval of Garwood 1936")),
  ),
  against: z.nullable(
    z
      .object({
        deaths: animals(),
        animalDays: z.number(),
        ratio: figure().check(said("null: none before")),
        low: z.number(),
        high: figure(),
        p: z.number().check(said("conditional test of two Poisson rates, twice the smaller tail")),
      })
      .check(said("against as many days before")),
  ),
});

const line = z.object({
  tank: z.string().check(said("empty where lines are of all tanks; so with the others")),
  species: z.string(),
  lot: z.string(),
  supplier: z.string(),
  opening: animals(),
  arrived: animals(),
  born: animals(),
  movedIn: animals(),
  found: animals().check(said("more than the book knew, by a count or by leaving")),
  lost: z.object({
    found: animals(),
    missing: animals(),
    jumped: animals(),
    culled: animals(),
    euthanised: animals(),
    lost: animals().check(said("without a word how")),
  }),
  movedOut: animals(),
  sold: animals(),
  shipped: animals(),
  unaccounted: animals().check(said("fewer than the book knew, by a count")),
  closing: animals().check(
    said("opening + arrived + born + movedIn + found - lost - movedOut - sold - shipped - unaccounted"),
  ),
  isAbout: z.boolean(),
  animalDays: z.number(),
  mortality,
  why: z.nullable(why),
});

const toll = z.object({
  by: z.enum(["supplier", "carrier"]),
  name: z.string(),
  consignments: z.number(),
  animals: animals(),
  dead: animals(),
  best: z.number().check(said("dead of all, 0 to 1, with the 95 % interval of Wilson 1927")),
  low: z.number(),
  high: z.number(),
  lostAfter: figure().check(said("in the seven days after, of those that came alive")),
});

const lot = z.object({
  lot: z.string(),
  title: z.string(),
  species: z.string(),
  supplier: z.string(),
  born: z.nullable(isoDay()),
  ageDays: figure(),
  homes: z.array(z.object({ tank: z.string(), animals: animals() })),
  life: z.nullable(
    z.object({
      since: isoDay(),
      animals: animals(),
      deaths: animals(),
      left: animals().check(said("sold, sent, culled, missing: last seen alive")),
      still: animals(),
      medianDays: figure().check(said("until half had died; null where more lived on")),
      table: z.array(
        z
          .object({
            days: z.number(),
            survival: z.number(),
            low: figure(),
            high: figure(),
            atRisk: z.number(),
          })
          .check(said("Kaplan & Meier 1958, 95 %")),
      ),
    }),
  ),
  unknown: z.string().check(said("why life is null")),
  at: maybePlace,
});

const stocking = z.object({
  tank: z.string(),
  grams: figure(),
  gramsPerLitre: figure(),
  unweighed: z.array(z.string()).check(said("species of which nobody knows what they weigh")),
  holdsText: z.string().check(said("as stated; empty where it is not")),
  oxygen: z.nullable(
    z.object({
      mgPerH: z.number().check(said("of the fish, at rest: Clarke & Johnston 1999")),
      heldMg: z.number().check(said("by the water at saturation")),
      hours: z.number(),
      without: z.array(z.string()),
      why,
    }),
  ),
  oxygenUnknown: z.string(),
  why,
});

const measured = z.object({
  tank: z.string(),
  species: z.string(),
  sexes: z.nullable(
    z.object({
      males: z.number(),
      females: z.number(),
      unsexed: z.number(),
      share: z.nullable(interval.check(said("males of those sexed, Wilson 1927"))),
      day: isoDay(),
      at: maybePlace,
    }),
  ),
  trends: z.array(
    z.object({
      what: z.enum(["score", "length", "weight"]),
      unit: z.string(),
      latest: z.number(),
      day: isoDay(),
      measurements: z.number(),
      perMonth: z.nullable(
        z
          .object({ best: z.number(), low: figure(), high: figure() })
          .check(said("over 30 days, Theil-Sen; null where it is not known")),
      ),
      unknown: z.string(),
      at: maybePlace,
    }),
  ),
});

const room = { folder: z.string(), title: z.string(), from: isoDay(), to: isoDay() };

/** The stock of one logbook. */
export const stockOfRoom = z.object({
  ...room,
  lines: z.array(line),
  total: line.check(said("of the whole room; moves within it are both in and out")),
  deadOnArrival: z.array(toll),
  lots: z.array(lot),
  tanks: z.array(stocking),
  measured: z.array(measured),
});

export const stockReport = z.object({
  ...head("stock"),
  by: z.enum(["tank", "species", "lot", "supplier"]),
  logbooks: z.array(stockOfRoom),
  unread,
});
export type StockReport = z.infer<typeof stockReport>;

export const stockRegisterReport = z.object({
  ...head("stock"),
  register: z.array(
    z.object({
      ...room,
      entries: z.array(
        z.object({
          day: isoDay(),
          is: z.enum(["arrival", "birth", "death", "sale"]),
          tank: z.string(),
          species: z.string(),
          animals: animals(),
          deadOnArrival: animals(),
          lot: z.string(),
          party: z.string().check(said("of an arrival the supplier, of a sale the buyer")),
          carrier: z.string(),
          detail: z.string().check(said("of a death how, of a sale its order")),
          note: z.string(),
          at: maybePlace,
        }),
      ),
      list: z.array(
        z.object({
          species: z.string(),
          title: z.string(),
          opening: animals(),
          arrived: animals(),
          born: animals(),
          died: animals(),
          sold: animals(),
          adjusted: animals().check(said("by counts: found less missing and unaccounted")),
          closing: animals(),
        }),
      ),
    }),
  ),
  unread,
});
export type StockRegisterReport = z.infer<typeof stockRegisterReport>;
