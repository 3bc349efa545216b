import * as z from "zod/mini";
import { head, said } from "./parts.ts";

/** What `git` prints. */
export const gitReport = z.object({
  ...head("git"),
  repository: z.string(),
  isWorktree: z
    .boolean()
    .check(said("one of several work trees of a repository, which share settings and hooks")),
  did: z.enum(["set-up", "undo", "status"]),
  written: z.boolean().check(said("false with --dry-run and --status: nothing was written")),
  parts: z.array(
    z.object({
      part: z.enum(["attributes", "merge", "diff", "hook"]),
      where: z.string().check(said("the file, or the section of the settings of this clone")),
      state: z
        .enum(["missing", "set", "old", "foreign"])
        .check(said("before; old: set by an earlier run, otherwise than now; foreign: not ours")),
      act: z
        .enum(["put", "renew", "keep", "take", "refuse", "none"])
        .check(said("what was, or would be, done")),
      lines: z.array(z.string()).check(said("what is, or would be, put there")),
      why: z.string().check(said("why it was refused; else empty")),
    }),
  ),
});
export type GitReport = z.infer<typeof gitReport>;
