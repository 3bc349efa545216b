import * as z from "zod/mini";

/**
 * What `--json` prints, version 1. It only grows: a reader of version 1 may meet keys it does not know, and never misses one that stands
 * here. The command itself takes only the types from this file; the schemas are for its tests, and for `explain --schema`.
 */

const said = (doc: string) => z.describe(doc);
const whole = () => z.number().check(z.int());
const isoDay = () => z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/), said("a day, YYYY-MM-DD"));

export const place = z.object({
  file: z
    .string()
    .check(
      said(
        "as it was reached from the folder of the call, with / between folders; “stdin” for standard input",
      ),
    ),
  line: whole().check(said("from 1")),
  column: whole().check(said("from 1, in UTF-16 code units; a byte order mark is not counted")),
  endLine: whole(),
  endColumn: whole().check(said("just behind the last letter")),
});
export type Place = z.infer<typeof place>;

export const why = z.object({
  what: z.string().check(said("what the figure is")),
  value: z.string().check(said("the figure with its unit; empty where there is none")),
  formula: z.optional(z.string()),
  source: z.optional(z.string().check(said("what the formula is from"))),
  place: z.optional(place),
  get from(): z.ZodMiniArray<typeof why> {
    return z.array(why);
  },
});
export type WhyTree = z.infer<typeof why>;

export const severity = z.enum(["error", "warning", "information", "hint"]);

export const finding = z.object({
  code: z.string().check(said("stable; `standpipe explain CODE` is its page")),
  severity,
  message: z.string(),
  place,
  text: z.string().check(said("the line as it is written")),
  fixes: z.array(
    z.object({
      title: z.string(),
      isSure: z.boolean().check(said("the one to take without asking")),
      edits: z.array(z.object({ place, text: z.string().check(said("what stands there instead")) })),
    }),
  ),
  related: z.array(z.object({ place, message: z.string() })),
  why: z.optional(why),
});
export type FindingReport = z.infer<typeof finding>;

export const unread = z.array(
  z.object({ file: z.string(), message: z.string().check(said("why it could not be read")) }),
);

export const logbook = z.object({
  folder: z.string(),
  title: z.string().check(said("of the room; empty if it has none")),
  today: isoDay().check(said("the day that is today for this logbook")),
  files: whole(),
  entries: whole(),
  tanks: whole(),
});
export type LogbookReport = z.infer<typeof logbook>;

export const counts = z.object({ error: whole(), warning: whole(), information: whole(), hint: whole() });

/** The beginning of every report. */
const head = <const C extends string>(command: C) => ({
  standpipe: z.literal(1).check(said("the version of this form")),
  command: z.literal(command),
});

export const checkReport = z.object({
  ...head("check"),
  logbooks: z.array(logbook),
  findings: z.array(finding).check(said("as grave as --severity asks for, by logbook, file and place")),
  counts: counts.check(said("of all findings in the files asked for, shown or not")),
  unread: unread.check(said("files that could not be read; what stands in them is missing everywhere here")),
});
export type CheckReport = z.infer<typeof checkReport>;

export const explainReport = z.object({
  ...head("explain"),
  pages: z.array(
    z.object({
      code: z.string(),
      severity: severity.check(said("if nothing else is said")),
      since: z.string().check(said("the version it came with")),
      removed: z.optional(z.string()),
      title: z.string(),
      says: z.string(),
      todo: z.string(),
      raises: z.string().check(said("a log that raises it, the place marked by ^^^ in the comment below")),
      fine: z.string().check(said("a log that just does not")),
      source: z.optional(z.string()),
    }),
  ),
});
export type ExplainReport = z.infer<typeof explainReport>;

const litres = z
  .object({ low: z.number(), high: z.number() })
  .check(said("new water, the least and the most that will do"));

const work = z.object({
  act: z.string().check(said("what to write down when it is done, without the target")),
  of: z.string().check(said("what owes it: the tank, its system, or a gear that serves it")),
  due: z.nullable(isoDay()),
  late: whole().check(said("whole days past due; 0 if due on the day")),
  last: z.nullable(isoDay()).check(said("when it was last done; null if never")),
  text: z.string().check(said("`6 days late`, `today`, `1 of 3`")),
  litres: z.nullable(litres),
  place: place.check(said("where the duty is stated")),
});
export type WorkReport = z.infer<typeof work>;

export const dayReport = z.object({
  ...logbook.shape,
  entriesToday: whole(),
  capacity: z
    .object({
      tanks: z.nullable(z.number()),
      litres: z.nullable(z.number()),
      minutes: z.nullable(z.number()),
    })
    .check(said("what one keeper can do in a day, as the room states it")),
  round: z
    .array(
      z.object({
        at: z.string(),
        kind: z.enum(["tank", "system", "room", "gear"]),
        title: z.string(),
        stage: z.enum(["fry", "healthy", "quarantine", "sick"]),
        work: z.array(work),
      }),
    )
    .check(said("what is due or late, by place, in the order of the round: fry, healthy, quarantine, sick")),
  prepare: z.nullable(litres).check(said("water for the whole round; null if no change is due")),
  doses: z.array(
    z.object({
      at: z.string(),
      remedy: z.string(),
      number: whole(),
      of: whole(),
      due: isoDay(),
      late: whole(),
      changeOwed: z.number().check(said("new water owed before it, as a fraction; 0 if none")),
      now: z
        .nullable(z.number())
        .check(said("what is in the water, in `unit`; null if it cannot be computed")),
      unit: z.string(),
      text: z.string(),
      caution: z.string(),
    }),
  ),
  remedies: z
    .array(
      z.object({
        at: z.string(),
        remedy: z.string(),
        now: z.nullable(z.number()),
        unit: z.string(),
        text: z.string(),
        last: isoDay().check(said("of the last dose")),
        withdrawalUntil: z
          .nullable(isoDay())
          .check(said("not to be shipped before; as the keeper states it")),
        caution: z.string(),
      }),
    )
    .check(said("what is still in the water, or was there too lately to ship")),
  water: z
    .array(
      z.object({
        at: z.string(),
        parameter: z.string(),
        is: z.enum(["above", "below", "heading"]),
        unit: z.string(),
        low: z.number(),
        high: z
          .nullable(z.number())
          .check(said("the ends of the last reading; null for above what the test can tell")),
        limit: z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()), text: z.string() }),
        reading: z.string(),
        day: isoDay().check(said("of the last reading")),
        level: z.string().check(said("now, by tests and changes; empty if it cannot be told")),
        crossing: z.nullable(
          z.object({
            day: z.nullable(isoDay()),
            earliest: z.nullable(isoDay()),
            latest: z.nullable(isoDay()),
            text: z.string(),
          }),
        ),
        regular: z.string().check(said("the change that is stated; empty if none is")),
        holding: z
          .string()
          .check(said("the change that would hold the limit; empty where none is needed or known")),
        changeBack: z
          .string()
          .check(said("the one change that would bring it back; empty where it is within")),
      }),
    )
    .check(said("out of its limit by the last reading, then heading for it, the soonest first")),
  sick: z.array(
    z.object({
      case: z.string().check(said("empty for signs without a case")),
      since: isoDay(),
      at: z.array(z.string()),
      species: z.string(),
      affected: z.nullable(z.number()),
      atRisk: z.nullable(z.number()),
      latest: z.nullable(isoDay()).check(said("when the sick were last written down")),
      signs: z.string(),
      place,
    }),
  ),
  coming: z
    .array(
      z.object({
        day: isoDay(),
        work: z.array(z.extend(work, { at: z.string() })),
        litres: z.nullable(litres),
      }),
    )
    .check(said("what falls due on each of the next days, if nothing of it is done before")),
  findings: counts,
});
export type DayReport = z.infer<typeof dayReport>;

export const todayReport = z.object({ ...head("today"), days: z.array(dayReport), unread });
export type TodayReport = z.infer<typeof todayReport>;

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
  changes: z.array(
    z.object({ time: isoTime(), fraction: z.number(), litres: z.number(), text: z.string(), at: place }),
  ),
  remedies: z.array(remedy),
  residents: z.array(resident),
  duties: z.array(duty),
  findings: z.array(
    z.object({ code: z.string(), severity, message: z.string(), day: z.nullable(isoDay()), at: place }),
  ),
  unread,
});
export type TankReport = z.infer<typeof tankReport>;

export const whyReport = z.object({
  ...head("why"),
  question: z.string(),
  folder: z.string().check(said("of the logbook that answers")),
  answer: why,
  caution: z.optional(z.string().check(said("shown with every figure of a remedy"))),
  unread,
});
export type WhyReport = z.infer<typeof whyReport>;

export const formatReport = z.object({
  ...head("format"),
  written: z.boolean().check(said("false with --check: nothing was written")),
  files: z.array(
    z.object({
      file: z.string(),
      changed: z.boolean().check(said("its layout is, or would be, another than it was")),
    }),
  ),
  unread: unread.check(
    said("files that were left alone: they could not be read as UTF-8, or not be written"),
  ),
});
export type FormatReport = z.infer<typeof formatReport>;

/** What each command prints with `--json`. */
export const reports = {
  why: whyReport,
  check: checkReport,
  today: todayReport,
  tank: tankReport,
  format: formatReport,
  explain: explainReport,
};

/** The same as JSON Schema, draft 2020-12. */
export function jsonSchema(): object {
  return z.toJSONSchema(z.union(Object.values(reports)));
}
