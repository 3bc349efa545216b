import * as z from "zod/mini";
import { change } from "./diff.ts";
import { head, isoDay, said } from "./parts.ts";

/** What `history` prints. */
export const historyReport = z.object({
  ...head("history"),
  of: z.string().check(said("the line or name, as it was asked for")),
  value: z.nullable(z.string()),
  commits: z
    .array(
      z.object({
        commit: z.nullable(z.string()).check(said("its whole id; null for what is not committed yet")),
        day: z.nullable(isoDay()).check(said("on which it was written, where it was written")),
        author: z.string(),
        subject: z.string(),
        changes: z.array(change),
      }),
    )
    .check(said("the latest first")),
  isCut: z.boolean().check(said("the clone holds only the last commits: there may be more")),
});
export type HistoryReport = z.infer<typeof historyReport>;
