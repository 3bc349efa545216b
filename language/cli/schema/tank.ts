import * as z from "zod/mini";
import { caseItem } from "./cases.ts";
import { bath, course } from "./course.ts";
import { light } from "./light.ts";
import { head, isoDay, place, said, severity, unread, whole, why } from "./parts.ts";
import { quarantine } from "./quarantine.ts";

/** The card of a tank. */

const isoTime = () =>
  z
    .string()
    .check(
      z.regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/),
      said("a time on the keeper's clock, YYYY-MM-DDThh:mm"),
    );
const figure = () => z.nullable(z.number());
const span = z.object({ best: z.number(), low: figure(), high: figure(), text: z.string() });
const points = z.array(z.object({ time: isoTime(), value: z.number() }));

const parameter = z.object({
  parameter: z.string(),
  title: z.string(),
  unit: z.string().check(said("of all figures here; empty for pH")),
  limit: z.nullable(
    z.object({
      low: figure(),
      high: figure(),
      text: z.string(),
      by: z.string().check(said("what states it: `tank dam`")),
      at: place,
    }),
  ),
  readings: z
    .array(
      z.object({
        time: isoTime(),
        low: z.number(),
        high: figure().check(said("equal to low for a plain reading; null for above what the test can tell")),
        text: z.string(),
        isOutside: z.boolean().check(said("out of its limit")),
        of: z.string().check(said("where it was taken: the tank or the system")),
        at: place,
      }),
    )
    .check(said("of the last year, in order of time")),
  level: z.nullable(span).check(said("today, by tests and changes; null if it cannot be told")),
  production: z.nullable(span).check(said("per day, with the changes taken out")),
  productionUnknown: z.string().check(said("why there is no production to tell")),
  course: points.check(said("what readings, changes and production make together, up to today")),
  ahead: z
    .array(z.object({ time: isoTime(), best: z.number(), low: z.number(), high: z.number() }))
    .check(said("where it goes from today if water is changed as stated")),
  crossing: z.nullable(
    z.object({
      day: z.nullable(isoDay()),
      earliest: z.nullable(isoDay()),
      latest: z.nullable(isoDay()),
      text: z.string(),
    }),
  ),
  regular: z.nullable(
    z.object({
      everyDays: z.number(),
      fraction: z.number(),
      text: z.string(),
      steady: figure().check(said("the level before each change in the end")),
      steadyText: z.string(),
      at: place,
    }),
  ),
  holdingText: z.string(),
  changeBackText: z.string(),
  why: z.nullable(why),
});

const remedy = z.object({
  name: z.string(),
  title: z.string(),
  unit: z.string(),
  target: z.nullable(z.object({ low: z.number(), high: z.number(), text: z.string() })),
  ceiling: figure(),
  ceilingText: z.string(),
  now: figure().check(said("in the water today, by dilution and half-life")),
  nowText: z.string(),
  course: points,
  doses: z.array(z.object({ time: isoTime(), after: figure(), text: z.string(), at: place })),
  next: z.nullable(
    z.object({ day: isoDay(), number: whole(), of: whole(), changeOwed: z.number(), text: z.string() }),
  ),
  plan: z.nullable(course).check(said("its latest course, with what is still to come")),
  caution: z.string(),
  at: place,
});

const resident = z.object({
  species: z.string(),
  title: z.string(),
  kind: z.string(),
  animals: z.number(),
  isAbout: z.boolean(),
  text: z.string(),
  counted: z.nullable(isoDay()),
  at: z.nullable(place),
});

const duty = z.object({
  act: z.string(),
  when: z.string(),
  of: z.string().check(said("what owes it: the tank, its system or gear")),
  periodDays: z.number(),
  last: z.nullable(isoDay()),
  due: z.nullable(isoDay()).check(said("null where nothing is owed")),
  late: z.nullable(whole()),
  times: whole(),
  timesStated: whole(),
  form: z.enum(["every", "at least", "at most"]),
  text: z.string(),
  at: place,
  lastAt: z.nullable(place),
});

export const tankReport = z.object({
  ...head("tank"),
  name: z.string(),
  title: z.string(),
  day: isoDay().check(said("the day it is true for")),
  at: z.nullable(place).check(said("its definition")),
  role: z.string(),
  where: z.string(),
  note: z.string(),
  volumeL: figure(),
  volumeText: z.string(),
  system: z.nullable(
    z.object({
      name: z.string(),
      title: z.string(),
      volumeL: figure(),
      tanks: z.array(z.string()),
      at: z.nullable(place),
    }),
  ),
  water: z.array(parameter),
  rounds: z
    .array(
      z.object({
        what: z.string(),
        text: z.string().check(said("the figure, or why there is none")),
        isKnown: z.boolean(),
        beside: z.string().check(said("a threshold, or another way to reckon it; may be empty")),
        calculation: z.string().check(said("`standpipe work CALCULATION --page` is its page")),
        caution: z.string(),
        time: isoTime(),
        at: z.nullable(place),
        why,
      }),
    )
    .check(said("what the readings of the latest rounds say together")),
  changes: z.array(
    z.object({ time: isoTime(), fraction: z.number(), litres: z.number(), text: z.string(), at: place }),
  ),
  remedies: z.array(remedy),
  baths: z.array(bath),
  residents: z.array(resident),
  cases: z.array(caseItem).check(said("open, of which sick are in its water; the latest first")),
  quarantine: z.nullable(quarantine).check(said("the clock of its water; null where none runs")),
  light: z.nullable(light).check(said("null for a system, and where no entry says anything of it")),
  populations: z
    .array(
      z.object({
        of: z.string().check(said("the tank")),
        species: z.string(),
        animals: z.number(),
        text: z.string(),
        came: z.string().check(said("in the last 30 days")),
        went: z.string(),
        course: z.array(z.object({ time: isoTime(), value: z.number() })),
        entries: z.array(
          z.object({ time: isoTime(), after: z.number(), text: z.string(), at: z.nullable(place) }),
        ),
        why,
      }),
    )
    .check(said("animals over the last year, by species")),
  bearing: z.array(
    z.object({ of: z.string(), text: z.string(), oxygen: z.string(), why, oxygenWhy: z.nullable(why) }),
  ),
  duties: z.array(duty),
  findings: z.array(
    z.object({ code: z.string(), severity, message: z.string(), day: z.nullable(isoDay()), at: place }),
  ),
  unread,
});
export type TankReport = z.infer<typeof tankReport>;
