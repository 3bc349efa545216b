import * as z from "zod/mini";
import { head, place, said, unread } from "./parts.ts";

/** What `standpipe work --json` prints. */

const figure = z.object({
  name: z.string(),
  title: z.string(),
  unit: z.string().check(said("empty for a plain number or for words")),
  best: z.nullable(
    z.number().check(said("from what was read; null where only a range was given, or for words")),
  ),
  low: z.nullable(z.number()),
  high: z.nullable(z.number().check(said("null with low a number: without an upper end"))),
  outside: z.optional(z.string().check(said("why there is no figure"))),
  text: z.string().check(said("as it is shown")),
});

export const workReport = z.object({
  ...head("work"),
  calculation: z.string(),
  title: z.string(),
  inputs: z.array(
    z.object({
      name: z.string(),
      title: z.string(),
      text: z.string().check(said("as it was understood, with its unit")),
      assumed: z.boolean().check(said("nothing was given, and this was taken")),
      from: z.optional(z.string().check(said("what of the log it was filled from"))),
      place: z.optional(place),
    }),
  ),
  problems: z.array(
    z.object({ input: z.string().check(said("the input it is about")), message: z.string() }),
  ),
  figures: z.array(figure),
  outside: z.optional(z.string().check(said("why there are no figures at all"))),
  entry: z.optional(z.string().check(said("what of it may be written into a log, without its target"))),
  formula: z.array(z.string()),
  range: z.string(),
  sources: z.array(z.string()),
  caution: z.optional(z.string()),
  unread,
});
export type WorkedReport = z.infer<typeof workReport>;

export const workListReport = z.object({
  ...head("work"),
  calculations: z.array(
    z.object({
      name: z.string(),
      title: z.string(),
      group: z.string(),
      answers: z.string(),
      inputs: z.array(
        z.object({
          name: z.string(),
          title: z.string(),
          unit: z.optional(z.string()),
          choices: z.optional(z.array(z.string())),
          form: z.optional(z.string()),
          low: z.optional(z.number()),
          high: z.optional(z.number()),
          needed: z.boolean(),
          otherwise: z.optional(z.string().check(said("what is taken where nothing is given"))),
        }),
      ),
      formula: z.array(z.string()),
      range: z.string(),
      sources: z.array(z.string()),
      caution: z.optional(z.string()),
    }),
  ),
});
export type WorkListReport = z.infer<typeof workListReport>;
