import * as z from "zod/mini";
import { lightChange } from "./light.ts";
import { head, isoDay, place, said, unread, whole } from "./parts.ts";
import { stockOfRoom } from "./stock.ts";

/** What `report` prints: a week, a month or any days of a room. */

const maybePlace = z.nullable(place);
const maybeDay = () => z.nullable(isoDay());

const workSum = {
  done: whole().check(said("days on which a duty was done")),
  inTime: whole(),
  late: whole(),
  lateDays: z.nullable(z.number().check(said("mean of those that were late"))),
  open: whole().check(said("due by the last day and not done by its end")),
  off: whole().check(said("duties of a number of times that were short, or over, on some day")),
};

const litres = {
  batch: z.number(),
  flow: z.number(),
  topUp: z.number(),
  litres: z.number(),
  before: z.number().check(said("in as many days before")),
};

const rate = z.object({ best: z.number(), low: z.number(), high: z.number() });

const caseLine = z.object({
  name: z.string().check(said("empty for signs without a case")),
  places: z.array(z.string()),
  since: isoDay(),
  closed: maybeDay(),
  outcome: z.string(),
  text: z.string(),
});

export const periodReport = z.object({
  ...head("report"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      from: isoDay(),
      to: isoDay(),
      day: isoDay().check(said("today: what came of a test or a shipment counts up to its end")),
      log: z.object({
        entries: whole().check(said("one that lists several things is one")),
        days: whole().check(said("with entries")),
        begins: maybeDay(),
        text: z.string().check(said("what is missing of the log; empty where nothing is")),
      }),
      work: z.object({
        acts: z.array(z.object({ name: z.string(), ...workSum })),
        places: z.array(z.object({ name: z.string(), ...workSum })),
        total: z.object(workSum),
        missed: z.array(
          z.object({
            place: z.string(),
            act: z.string(),
            when: z.string(),
            late: z.array(z.object({ due: isoDay(), done: isoDay(), days: whole() })),
            open: z.nullable(z.object({ due: isoDay(), late: whole() })),
            daysOff: whole(),
            text: z.string(),
            at: maybePlace,
          }),
        ),
      }),
      water: z.object({
        places: z.array(z.object({ place: z.string(), times: whole(), ...litres })),
        sources: z.array(
          z.object({ source: z.string().check(said("empty where none is defined")), ...litres }),
        ),
        litres: z.number(),
        before: z.number(),
        unknown: whole().check(said("changes of which nobody knows the litres")),
      }),
      stock: stockOfRoom.check(said("the animals by species; deaths against as many days before")),
      tests: z.array(
        z.object({
          place: z.string(),
          parameter: z.string(),
          is: z.enum(["above", "below"]),
          day: isoDay(),
          reading: z.string(),
          limit: z.string(),
          done: z.string().check(said("changes and doses until the next test of the same")),
          next: z.string().check(said("empty where there was none yet")),
          isWithinNext: z.nullable(z.boolean()),
          at: maybePlace,
        }),
      ),
      trends: z.object({
        turned: z.array(
          z.object({
            place: z.string(),
            parameter: z.string(),
            is: z.enum(["rises", "falls", "level", "faster", "slower"]),
            unit: z.string(),
            now: rate.check(said("per day, 95 % interval")),
            before: rate,
            isProduction: z.boolean().check(said("with changes of water taken out")),
            text: z.string(),
          }),
        ),
        compared: whole().check(said("both periods have an interval")),
        tested: whole(),
      }),
      cases: z.object({ opened: z.array(caseLine), closed: z.array(caseLine), open: z.array(caseLine) }),
      remedies: z.array(
        z.object({
          remedy: z.string(),
          doses: whole(),
          amounts: z.array(z.object({ amount: z.number(), unit: z.string() })),
          unknown: whole(),
          baths: whole(),
        }),
      ),
      broods: z.array(
        z.object({
          species: z.string(),
          spawnings: whole(),
          laid: z.nullable(z.number()),
          hatched: z.nullable(z.number()),
          swimming: z.nullable(z.number()),
          hatches: whole(),
          swims: whole(),
          isAbout: z.boolean(),
        }),
      ),
      orders: z.array(
        z.object({
          order: z.string().check(said("empty for what went without an order")),
          how: z.enum(["sell", "ship"]),
          day: isoDay(),
          animals: z.number(),
          text: z.string(),
          dead: z
            .nullable(z.number())
            .check(said("as reported; of an order in several parts with the first")),
        }),
      ),
      spending: z.object({
        sums: z.array(
          z.object({
            currency: z.string().check(said("ISO 4217; empty where none is written")),
            is: z.enum(["food", "remedy", "other"]),
            amount: z.number(),
            purchases: whole(),
          }),
        ),
        unpriced: z.array(z.object({ name: z.string(), day: isoDay(), at: maybePlace })),
      }),
      gear: z.array(
        z.object({ gear: z.string(), times: whole(), text: z.string(), repaired: z.array(isoDay()) }),
      ),
      lights: z
        .array(lightChange)
        .check(said("changes of light whose days after were all over in this time")),
      notes: z.array(z.object({ day: isoDay(), place: z.string(), text: z.string(), at: maybePlace })),
      daily: z.array(
        z.object({ day: isoDay(), litres: z.number(), done: whole(), late: whole(), died: z.number() }),
      ),
    }),
  ),
  unread,
});
export type PeriodReport = z.infer<typeof periodReport>;
