import * as z from "zod/mini";
import { head, isoDay, logbook, place, said, unread, whole, why } from "./parts.ts";

/** Orders, packing, and the register of what was sold and shipped. */

const figure = () => z.nullable(z.number());
const day = () => z.nullable(isoDay());

const reason = z.object({
  is: z.string().check(said("quarantine, arrival, remedy, withdrawal, case, count, fasting or service")),
  until: day().check(said("the first day on which it is no longer against; null where nobody can say")),
  text: z.string(),
  why,
});

const free = z.object({
  tank: z.string(),
  species: z.string(),
  animals: z.number().check(said("by the book")),
  free: z.number().check(said("nothing but fasting against them, and no open order waits for them")),
  promised: z.number().check(said("of the species, to open orders, all tanks together")),
  from: day().check(said("the first day on which nothing is against it; null where nobody can say")),
  fromText: z.string(),
  reasons: z.array(reason),
  lots: z.array(z.object({ lot: z.string(), animals: z.number() })),
  at: z.nullable(place).check(said("the entry that says how many there are")),
});

const order = z.object({
  name: z.string(),
  title: z.string(),
  buyer: z.string(),
  due: day(),
  late: z.nullable(whole()).check(said("whole days past due")),
  carrier: z.string(),
  route: z.string(),
  missing: z.number(),
  from: day().check(said("the first day on which all that is missing can go")),
  text: z.string(),
  lines: z.array(
    z.object({
      species: z.string(),
      wanted: z.number(),
      gone: z.number().check(said("sold and shipped for it")),
      missing: z.number(),
      short: z.number().check(said("missing and in no tank")),
      from: day(),
      text: z.string(),
      sources: z.array(
        z.object({
          tank: z.string(),
          animals: z.number().check(said("left there by the orders that are due before")),
          from: day(),
          text: z.string(),
        }),
      ),
    }),
  ),
  at: place,
  why,
});

const share = { best: z.number(), low: z.number(), high: z.number(), text: z.string() };
const toll = z.object({
  by: z.string().check(said("all, species, carrier, route (of arrivals the supplier) or season")),
  name: z.string(),
  consignments: whole(),
  animals: z.number(),
  dead: z.number(),
  ...share,
  after: z
    .nullable(z.object({ alive: z.number(), lost: z.number(), ...share }))
    .check(said("lost in the seven days after, of those that came alive")),
});

export const ordersReport = z.object({
  ...head("orders"),
  days: z.array(
    z.object({
      ...logbook.shape,
      open: z.array(order).check(said("that wait for something, the first due first")),
      filled: z.array(order),
      free: z.array(free).check(said("what each tank holds")),
      sent: z.array(toll).check(said("dead on arrival of what was shipped, with the interval of Wilson")),
      unreported: whole().check(said("orders shipped of which no buyer has reported")),
      received: z.array(toll).check(said("dead on arrival of what came")),
    }),
  ),
  unread,
});
export type OrdersReport = z.infer<typeof ordersReport>;

export const packingReport = z.object({
  ...head("packing"),
  folder: z.string(),
  day: isoDay(),
  order: z.string(),
  buyer: z.string(),
  due: day(),
  carrier: z.string(),
  route: z.string(),
  bag: z.object({
    waterL: z.number(),
    gasL: z.number(),
    gas: z.enum(["oxygen", "air"]),
    hours: z.number(),
    temperatureC: z.number(),
    activity: z.number().check(said("oxygen used, times that of a fish at rest")),
    leastOxygenMgL: z.number(),
    mostTotalMgLN: figure().check(said("null for no bound, as below")),
    mostFreeMgLN: figure(),
    mostCo2MgL: figure(),
    mostLoadGPerL: figure(),
    taken: z.array(z.string()).check(said("what was not stated and is taken")),
  }),
  parts: z.array(
    z.object({
      species: z.string(),
      title: z.string(),
      tank: z.string(),
      lot: z.string(),
      animals: z.number(),
      weightG: figure(),
      weightText: z.string(),
      most: figure().check(said("to a bag by the bounds; null with the reason in mostText")),
      mostText: z.string(),
      bags: z.array(z.number()).check(said("animals in each bag; none where nobody can say")),
      arrival: z.nullable(
        z.object({
          loadGPerL: figure(),
          oxygenMgL: z.number(),
          hours: figure().check(said("until the oxygen has come down to its least")),
          totalMgLN: z.number(),
          freeMgLN: figure(),
          co2MgL: figure(),
          pH: figure(),
          airedFreeMgLN: figure().check(said("of the same water once its CO2 has gone to the air")),
          airedPH: figure(),
          unheld: z.array(z.string()),
        }),
      ),
      reasons: z.array(reason).check(said("what speaks against it on the day")),
      fedText: z.string(),
      isShipped: z.boolean().check(said("written down as shipped on the day; else what could go")),
      why,
    }),
  ),
  held: z
    .array(z.object({ species: z.string(), tank: z.string(), animals: z.number(), reasons: z.array(reason) }))
    .check(said("there, and not to go on the day")),
  lacking: z.array(z.object({ species: z.string(), animals: z.number() })),
  labels: z.array(
    z.object({
      species: z.string(),
      title: z.string(),
      animals: z.number(),
      lot: z.string(),
      bag: whole(),
      of: whole(),
      order: z.string(),
      buyer: z.string(),
      packed: isoDay(),
      fedText: z.string(),
      waterText: z.string(),
    }),
  ),
  published: z.array(z.object({ what: z.string(), text: z.string(), source: z.string() })),
  caution: z.string(),
  unread,
});
export type PackingReport = z.infer<typeof packingReport>;

export const registerReport = z.object({
  ...head("register"),
  registers: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      from: isoDay(),
      to: isoDay(),
      rows: z.array(
        z.object({
          day: isoDay(),
          how: z.enum(["sell", "ship"]),
          buyer: z.string(),
          order: z.string(),
          carrier: z.string(),
          species: z.string(),
          title: z.string(),
          animals: z.number(),
          lot: z.string(),
          tank: z.string(),
          treatments: z
            .array(z.object({ remedy: z.string(), day: isoDay() }))
            .check(said("the last dose of each remedy in its water within a year before")),
          quarantineEnd: day().check(
            said(
              "the first day after quarantine: by the clock of its tank, or since the last animal from outside came into it",
            ),
          ),
          at: z.nullable(place),
        }),
      ),
      totals: z.array(z.object({ species: z.string(), sold: z.number(), shipped: z.number() })),
    }),
  ),
  unread,
});
export type RegisterReport = z.infer<typeof registerReport>;
