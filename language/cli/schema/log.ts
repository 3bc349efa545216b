import * as z from "zod/mini";
import { said, whole } from "./parts.ts";

/** A logbook as items (`exchange/export/log-items.ts`): what `export --format json` and `ndjson` write, and `export --restore` reads. */

const text = z.string();
const written = text.check(
  said("as it stands in the log, white space made one blank; what `--restore` reads"),
);
const comment = z.optional(text.check(said("behind the line, from # on"), z.regex(/^#[^\r\n]*$/)));
const line = whole().check(said("in its file, from 1"));
const oneLine = text.check(z.regex(/^[^\r\n]*$/));

const value = z.object({
  slot: text.check(said("what it is of the entry: amount, source, reading")),
  of: z.optional(text.check(said("what the figure is of: a parameter, a remedy, a species"))),
  item: z.optional(whole().check(said("in an entry that lists several, from 0"))),
  written: text,
  word: z.optional(text.check(said("a name, a word, or the inside of a text"))),
  value: z.optional(z.number().check(said("as written; of a range its lower end, of a sexed count the sum"))),
  high: z.optional(z.number().check(said("the upper end of a range"))),
  unit: z.optional(text.check(said("as written"))),
  mark: z.optional(z.enum(["below", "above", "range", "at most", "at least", "about"])),
  males: z.optional(whole()),
  females: z.optional(whole()),
  unsexed: z.optional(whole()),
  lengths: z.optional(z.tuple([z.number(), z.number(), z.number()])),
  meant: z.optional(
    z
      .object({
        value: z.number(),
        high: z.optional(z.number()),
        unit: text,
        basis: z.optional(text.check(said("what a concentration counts: N, NO3"))),
      })
      .check(said("in the one unit such figures are counted in; absent where its unit is not settled")),
  ),
});

const lineOf = { line, comment };
const told = {
  ...lineOf,
  date: text,
  time: z.optional(oneLine.check(said("as written"))),
  at: oneLine.check(said("the target, as written")),
  tanks: z.array(text).check(said("the tanks that it means")),
  values: z.array(value),
  written: z.intersection(written, oneLine),
  note: z.optional(text),
};

export const logItem = z.discriminatedUnion("is", [
  z.object({ is: z.literal("log"), standpipe: z.literal(1), title: text }),
  z.object({
    is: z.literal("file"),
    path: text.check(said("from the logbook's folder, with / between folders")),
  }),
  z.object({ is: z.literal("definition"), ...lineOf, word: text, name: text, title: text, written: oneLine }),
  z.object({
    is: z.literal("property"),
    ...lineOf,
    of: text.check(said("the definition's word and name")),
    written: oneLine,
    words: z.array(text),
    values: z.array(value),
  }),
  z.object({ is: z.literal("day"), ...lineOf, date: text, written: oneLine }),
  z.object({
    is: z.literal("entry"),
    ...told,
    entry: oneLine.check(said("the word of its kind")),
    counts: z.boolean().check(said("false if a fault keeps it out of the book")),
  }),
  z.object({ is: z.literal("sheet"), ...lineOf, date: text, time: z.optional(oneLine), written: oneLine }),
  z.object({ is: z.literal("row"), ...told }),
  z.object({ is: z.enum(["comment", "unread"]), line, text: oneLine }),
]);
