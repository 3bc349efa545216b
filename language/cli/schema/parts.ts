import * as z from "zod/mini";

/** Parts that several reports have in common. */

export const said = (doc: string) => z.describe(doc);
export const whole = () => z.number().check(z.int());
export const isoDay = () => z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/), said("a day, YYYY-MM-DD"));

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
export const head = <const C extends string>(command: C) => ({
  standpipe: z.literal(1).check(said("the version of this form")),
  command: z.literal(command),
});
