import * as z from "zod/mini";
import { dateOrders } from "./moment.ts";

/**
 * What the columns of a table are: kept as a small file beside the log, `NAME.map.json`, and used again. Version 1 only grows.
 *
 * Where dates are heads (`table.across`), each row is read once for each of them, as a row of the columns before them and two more: the date, at the place
 * `from`, and the figure below it, at the place after that.
 */

const said = (doc: string) => z.describe(doc);
const place = () => z.number().check(z.int(), z.minimum(1), said("the column, from 1"));
const head = () => z.string().check(said("what its head says: a table with another there is not read"));
const column = z.strictObject({ at: place(), head: head() });
export type ColumnAt = z.infer<typeof column>;

const unit = () => z.string().check(said("its unit, with the basis where one counts: `mg/L N`; `pH` for pH"));
const tankName = () => z.string().check(said("a tank or system of the log"));

const measured = z.strictObject({ parameter: z.string(), unit: unit() });
export type Measured = z.infer<typeof measured>;

const names = (what: string) => z.record(z.string(), z.string().check(said(what)));
const named = z.strictObject({ ...column.shape, names: names("a name of the log, or `ignore`") });
export type Named = z.infer<typeof named>;
const animals = {
  species: z.optional(z.string().check(said("of which species; else `of` tells"))),
  of: z.optional(named.check(said("the column that says of which species"))),
  tank: z.optional(tankName()),
};

const role = z.discriminatedUnion("as", [
  z.strictObject({
    ...column.shape,
    as: z.literal("test"),
    ...measured.shape,
    tank: z.optional(tankName()),
    sign: z.optional(column.check(said("a column of `<` and `>`"))),
    flags: z.optional(column.check(said("a column of marks, settled under `flags`"))),
  }),
  z.strictObject({ ...column.shape, as: z.literal("change"), unit: unit(), tank: z.optional(tankName()) }),
  z.strictObject({
    ...column.shape,
    as: z.literal("feed"),
    food: z.optional(z.string().check(said("what was fed; else `foods` tells"))),
    foods: z.optional(named.check(said("the column that says what was fed"))),
    unit: z.string(),
    tank: z.optional(tankName()),
  }),
  z.strictObject({
    ...column.shape,
    as: z.literal("fed"),
    names: names("a food of the log, or `ignore`"),
    tank: z.optional(tankName()),
  }),
  z.strictObject({ ...column.shape, as: z.literal("count"), ...animals }),
  z.strictObject({ ...column.shape, as: z.literal("lose"), ...animals }),
  z.strictObject({ ...column.shape, as: z.literal("note") }),
  z.strictObject({ ...column.shape, as: z.literal("ignored"), why: z.optional(z.string()) }),
]);
export type Role = z.infer<typeof role>;

export const mappingSchema = z.strictObject({
  standpipe: z.literal("import"),
  version: z.literal(1),
  for: z.optional(z.string().check(said("the table it was made for"))),
  table: z.strictObject({
    delimiter: z.string().check(z.regex(/^(?:.|fixed)$/s), said("one letter, or `fixed`")),
    edges: z.optional(z.array(z.number()).check(said("of fixed places, where each column ends"))),
    heads: z.number().check(z.int(), z.minimum(0), said("the line of the heads; 0 where there are none")),
    rows: z.number().check(z.int(), z.minimum(1), said("the line of the first row")),
    dateLine: z.optional(
      z
        .string()
        .check(
          said(
            "how a line begins that holds the date of the rows below it; empty where it holds nothing else",
          ),
        ),
    ),
    decimal: z.enum([".", ","]),
    missing: z.optional(z.array(z.string()).check(said("what else means that nothing was measured"))),
    across: z.optional(
      z.strictObject({
        from: place().check(z.minimum(2), said("the first column whose head is a date")),
        but: z.optional(z.array(z.string()).check(said("heads from there on that are no dates"))),
      }),
    ),
    fill: z.optional(
      z
        .array(column)
        .check(said("an empty cell of these says what the one above it does, up to an empty row")),
    ),
  }),
  time: z.strictObject({
    date: z.union([column, z.literal("line"), z.strictObject({ month: column, day: column })]),
    year: z.optional(
      z
        .union([z.number().check(z.int(), z.minimum(1900), z.maximum(2999)), column])
        .check(said("of dates that have none, or of a month and a day in columns of their own")),
    ),
    clock: z.optional(
      z
        .union([column, z.strictObject({ hour: column, minute: z.optional(column) })])
        .check(said("the time of day, where it has columns of its own")),
    ),
    order: z.enum([...dateOrders, "unix-s", "unix-ms", "serial-1900"]),
    isDayOnly: z.optional(z.boolean().check(said("times are left out: they are all midnight"))),
    zone: z
      .string()
      .check(
        said(
          "`as-written`: the clock of the table is that of the room; else the room's, as +02:00 or Europe/Berlin",
        ),
      ),
    from: z.optional(
      z.string().check(said("the clock of the table where it is not in the cells: UTC, +02:00")),
    ),
  }),
  tank: z.union([
    z.strictObject({ name: tankName() }),
    z.strictObject({
      column,
      names: z.record(z.string(), z.string().check(said("a tank, or `ignore`"))),
    }),
    z.strictObject({ by: z.literal("columns") }),
  ]),
  only: z.optional(
    z.array(z.strictObject({ ...column.shape, is: z.array(z.string()) })).check(said("which rows count")),
  ),
  long: z.optional(
    z.strictObject({
      parameter: column,
      value: column,
      sign: z.optional(column),
      flags: z.optional(column),
      unit: z.optional(column),
      means: z.record(z.string(), z.union([measured, z.literal("ignore")])),
    }),
  ),
  columns: z.array(role),
  flags: z.optional(z.record(z.string(), z.enum(["take", "below", "above", "leave-out"]))),
  thin: z.union([
    z.literal("none"),
    z.strictObject({
      hours: z.number().check(z.minimum(1), z.maximum(24), said("the first reading of each so many hours")),
      crossings: z.boolean().check(said("of a day also the lowest and highest beyond a limit of the tank")),
    }),
  ]),
});
export type Mapping = z.infer<typeof mappingSchema>;

/** A mapping from its text. Throws an error that says where it is wrong. */
export function readMapping(text: string): Mapping {
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\ufeff/, ""));
  } catch {
    throw new TypeError("this is no JSON");
  }
  const read = mappingSchema.safeParse(json);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new TypeError(`${issue?.path.join(".") || "the file"}: ${issue?.message ?? "not a mapping"}`);
}

export const mappingText = (mapping: Mapping): string => `${JSON.stringify(mapping, null, 2)}\n`;
