import * as z from "zod/mini";
import { head, isoDay, place, said, severity, unread, whole } from "./parts.ts";

/** What `diff` prints. */

const revision = z.object({
  is: z.enum(["commit", "index", "files", "nothing"]).check(said("nothing: before the first commit")),
  name: z.string().check(said("as it was asked for")),
  commit: z.nullable(z.string()).check(said("its whole id; null for what is no commit")),
});

const side = z.nullable(
  z.object({
    file: z.string(),
    line: whole().check(said("from 1, in the file as it was on this side")),
    text: z.string().check(said("without its station, time and comment")),
    day: z.nullable(isoDay()),
    time: z.string().check(said("as it is written; empty where none is")),
  }),
);

export const change = z.object({
  is: z.enum(["added", "removed", "corrected", "moved"]),
  what: z
    .enum(["entry", "day", "definition", "property", "line"])
    .check(said("day: the text at the head of a day; line: what cannot be read")),
  of: z.string().check(said("a tank, a system, a gear, room, @group, or a definition as `tank dam`")),
  tanks: z.array(z.string()).check(said("the tanks that are meant; none for a definition")),
  day: z.nullable(isoDay()),
  word: z.string().check(said("the kind of entry, sheet for a row of a round, or the word of a property")),
  text: z.string(),
  parts: z
    .array(
      z.object({
        about: z.string(),
        before: z.nullable(z.string()),
        after: z.nullable(z.string()),
      }),
    )
    .check(said("what of it is another value; none of what is new or gone")),
  before: side,
  after: side,
});

const consequence = z.object({
  is: z.enum([
    "finding",
    "water",
    "dose",
    "stock",
    "case",
    "exposure",
    "quarantine",
    "shipping",
    "brood",
    "duty",
    "volume",
  ]),
  of: z.string().check(said("a tank, a system, a gear, or room")),
  text: z.string(),
  before: z.string().check(said("as it was shown; empty where it was not there")),
  after: z.string().check(said("as it is shown; empty where it is not there")),
  tone: z.enum(["better", "worse", "plain"]),
  code: z.nullable(z.string()).check(said("of a finding")),
  severity: z.nullable(severity),
  isSmall: z.boolean().check(said("left out of the text unless --all asks for it")),
  side: z.enum(["before", "after"]).check(said("on which side its place is")),
  place: z.nullable(place),
  changes: z
    .array(whole())
    .check(
      said(
        "indices of the changes it may follow from, the nearest first: of the same line, tank or water; of several it is not known which; 100 at most",
      ),
    ),
  moreChanges: whole().check(said("how many more there are")),
});

export const diffReport = z.object({
  ...head("diff"),
  from: revision,
  to: revision,
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      day: isoDay().check(said("as of which both sides are computed")),
      counts: z.object({
        added: whole(),
        removed: whole(),
        corrected: whole(),
        moved: whole(),
        comments: whole().check(said("lines that say the same beside other comments")),
        layout: whole().check(said("lines of which nothing but white space is another")),
        refiled: whole().check(said("lines that say the same in another file that was not renamed")),
      }),
      files: z.array(
        z.object({
          is: z.enum(["added", "removed", "renamed"]),
          file: z.string(),
          from: z.string().check(said("what it was called; empty if it was not renamed")),
        }),
      ),
      changes: z.array(change),
      consequences: z.array(consequence),
    }),
  ),
  unread,
});
export type DiffReport = z.infer<typeof diffReport>;
