import * as z from "zod/mini";
import { mappingSchema } from "../../exchange/import/mapping.ts";
import { head, said, unread, whole } from "./parts.ts";

const question = z.object({
  id: z.string().check(said("what --answer names: `unit:Temp`")),
  asks: z.string(),
  choices: z.array(z.string()).check(said("what may be answered; where none stand here it is to be typed")),
  hint: z.string().check(said("what speaks for an answer; empty where nothing does")),
});

export const importReport = z.object({
  ...head("import"),
  table: z.string().check(said("the table, as it was named")),
  said: z.string().check(said("of its letters, where they are not plain UTF-8; else empty")),
  refused: z.nullable(z.string()).check(said("why it is not imported")),
  questions: z.array(question).check(said("what is open; nothing is imported before all are answered")),
  columns: z
    .array(z.object({ at: whole(), head: z.string(), as: z.string(), why: z.string() }))
    .check(said("what each column is taken for; none where a mapping was given")),
  reasons: z.array(z.object({ about: z.string(), says: z.string(), sureness: z.enum(["sure", "likely"]) })),
  mapping: z.nullable(mappingSchema).check(said("what --write-map writes")),
  rows: z
    .nullable(
      z.object({
        read: whole(),
        imported: whole(),
        skipped: whole(),
        rejected: whole(),
        empty: whole(),
        known: whole(),
        thinned: whole(),
        leftOut: whole(),
        twice: whole(),
      }),
    )
    .check(said("read = imported + skipped + rejected; skipped = empty + known + thinned + leftOut + twice")),
  values: z
    .nullable(z.object({ found: whole(), written: whole(), known: whole(), thinned: whole() }))
    .check(
      said("readings and other entries of rows that are not rejected: found = written + known + thinned"),
    ),
  written: z.boolean().check(said("false after --dry-run, and where nothing was new")),
  files: z.array(z.object({ file: z.string(), new: z.boolean(), lines: whole() })),
  rejects: z.object({
    file: z.nullable(z.string()),
    rows: z.array(z.object({ line: whole(), why: z.string() })).check(said("the first hundred")),
  }),
  unread,
});
export type ImportReport = z.infer<typeof importReport>;
