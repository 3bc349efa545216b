import * as z from "zod/mini";
import { said, whole } from "./parts.ts";

/** The file of findings that are known: `check --write-baseline`. */

export const baselineEntry = z.object({
  code: z.string().check(z.regex(/^[a-z-]+\/[a-z-]+$/, "a code of a finding, as limit/above")),
  station: z.string().check(said("what the line is about; of a definition its kind and name")),
  day: z.string().check(z.regex(/^(?:\d{4}-\d{2}-\d{2})?$/, "a day, or nothing for a definition")),
  text: z.string().check(said("the line, white space evened out, without its comment")),
  count: whole().check(z.positive("a number above 0")),
});
export type BaselineEntry = z.infer<typeof baselineEntry>;

export const baselineFile = z.object({ standpipe: z.literal(1), baseline: z.array(baselineEntry) });
