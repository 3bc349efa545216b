import * as z from "zod/mini";
import type { ImportCounts, ImportProposal } from "../../../language/server/import-protocol.ts";

/** What the page of an import and its host say to each other: both ends check what they hear against these. */

type Checks<Type> = z.ZodMiniType<Type>;

const figure = z.number();
const text = z.string();

const decision: Checks<ImportProposal["decisions"][number]> = z.object({
  id: text,
  asks: text,
  choices: z.array(text),
  hint: text,
  isTypedToo: z.optional(z.boolean()),
  column: z.optional(figure),
  word: z.optional(text),
  value: z.optional(text),
  problem: text,
  samples: z.array(text),
}) as unknown as Checks<ImportProposal["decisions"][number]>;
export type Decision = ImportProposal["decisions"][number];

const previewRow: Checks<ImportProposal["preview"][number]> = z.object({
  line: figure,
  raw: text,
  is: z.enum(["imported", "known", "thinned", "twice", "empty", "left out", "rejected", "open"]),
  why: text,
  day: text,
  lines: z.array(text),
});
export type PreviewRow = ImportProposal["preview"][number];

const counts: Checks<ImportCounts["rows"]> = z.object({
  read: figure,
  imported: figure,
  skipped: figure,
  rejected: figure,
  empty: figure,
  known: figure,
  thinned: figure,
  leftOut: figure,
  twice: figure,
});
export type Counts = ImportCounts["rows"];

const form = z.object({
  name: text,
  rows: figure,
  said: text,
  columns: z.array(z.object({ at: figure, head: text, as: text, why: text, samples: z.array(text) })),
  reasons: z.array(z.object({ about: text, says: text, sureness: z.enum(["sure", "likely"]) })),
  decisions: z.array(decision),
  preview: z.array(previewRow),
  isSettled: z.boolean(),
  /** Mappings beside the log that are for it, and the one it is read by; empty where it is none of them. */
  maps: z.array(text),
  map: text,
  /** Why it cannot be read so; empty where it can. */
  problem: text,
});
export type Form = z.infer<typeof form>;

const file = z.object({ name: text, isNew: z.boolean(), lines: figure, isSaved: z.boolean() });

const done = z.object({
  name: text,
  rows: counts,
  files: z.array(file),
  /** The file of rejected rows; empty where none was rejected, or it is open without a name. */
  rejects: text,
  /** What the mapping would be called beside the log; empty where it cannot be kept, or lies there. */
  keep: text,
  /** What became of keeping it. */
  kept: text,
  /** Why it was not taken back; empty where nobody asked. */
  problem: text,
});
export type Done = z.infer<typeof done>;

export const toPageShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("working"), what: text, percent: z.nullable(figure) }),
  z.object({ say: z.literal("form"), form }),
  /** Of all rows; null while they are counted. */
  z.object({
    say: z.literal("counts"),
    percent: figure,
    counts: z.nullable(
      z.object({
        rows: counts,
        files: z.array(z.object({ name: text, isNew: z.boolean(), lines: figure })),
        rejects: z.array(z.object({ line: figure, why: text })),
      }),
    ),
  }),
  z.object({ say: z.literal("refused"), why: text }),
  z.object({ say: z.literal("done"), done }),
  /** The import was taken back. */
  z.object({ say: z.literal("back"), name: text }),
]);
export type ToPage = z.infer<typeof toPageShape>;
export type Counted = NonNullable<Extract<ToPage, { say: "counts" }>["counts"]>;

export const toHostShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("ready") }),
  /** An empty value takes the answer back. */
  z.object({ say: z.literal("answer"), id: text, value: text }),
  /** An empty name begins anew. */
  z.object({ say: z.literal("map"), name: text }),
  z.object({ say: z.enum(["import", "close", "again", "keep", "rejects", "save", "show", "back"]) }),
]);
export type ToHost = z.infer<typeof toHostShape>;
