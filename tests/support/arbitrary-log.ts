import fc from "fast-check";
import { isoOf } from "../../language/book/dates.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import type { EntryKind } from "../../language/book/kind.ts";
import { type Parameter, parameters } from "../../language/book/parameters.ts";
import type { Filling, Namespace, Slot } from "../../language/book/slots.ts";
import type { Dimension } from "../../language/quantity/dimension.ts";
import { UNITS } from "../../language/quantity/units.ts";

/**
 * Logs at random, valid in every line: what is made follows the declarations of the entry kinds, so that a new kind is made too.
 * For properties that must hold of every log.
 */

/** What an arbitrary log defines; its days name nothing else. */
export const definitions = `room "Cellar"
  units       temperature C, volume L, gallon US, ppm mg/L, ammonia mg/L N
  quarantine  28 d
  limits      temperature 18..28 C, nitrate <= 50 mg/L

water tap "Mains"
  content  nitrate 6 mg/L, KH 5 dKH, GH 9 dGH, pH 7.6
water ro
  content  nitrate 0 mg/L, KH 0 dKH, GH 0 dGH

system rack-water
  sump    90 L
  limits  nitrate <= 40 mg/L
  every   3 d change 25..40 %

tank dam "Rainbowfish dam"
  inside     150 x 55 x 50 cm; filled 46 cm
  displaced  38 L
  role       show
  limits     nitrate <= 25 mg/L, pH 6.8..7.8
  every      7 d change 25..35 %
  at most    2 per 7 d feed dry
  at least   3 per 7 d feed frozen
tank b1
  volume  63 L
  from    2025-12-01
tank q1
  volume  48 L
  role    quarantine
tank r1
  volume  24 L
  system  rack-water
tank r2
  volume  24 L
  system  rack-water
tank r3
  volume  24 L
  system  rack-water

group rack = r1 .. r3
  every  2 d clean
group show = dam, b1
  every  14 d test nitrate, KH

species praecox "Melanotaenia praecox"
  kind    fish
  traits  scaleless
  needs   frozen at least 3 per 7 d, dry at most 2 per 7 d
species horn
  kind  snail
species cherry
  kind  shrimp

food cyclops
  kind  frozen
food flake
  kind  dry

remedy prazi "Flatworm remedy"
  target         2 mg/L
  ceiling        5 mg/L
  repeat         3 times every 7 d
  change-before  25 %
  half-life      3 d
  harms          snail, scaleless
remedy drops
  strength  10 mg/mL; drop 0.05 mL; target 1..3 mg/L

gear canister
  kind   filter
  on     dam
  every  28 d service
`;

const names: Readonly<Record<Namespace, readonly string[]>> = {
  tank: ["dam", "b1", "q1", "r1", "r2", "r3"],
  system: ["rack-water"],
  group: ["rack", "show"],
  water: ["tap", "ro"],
  species: ["praecox", "horn", "cherry"],
  food: ["cyclops", "flake"],
  remedy: ["prazi", "drops"],
  gear: ["canister"],
  case: ["flukes-1", "spot"],
  lot: ["a17"],
  order: ["o-12"],
  parameter: parameters.map((parameter) => parameter.name),
  any: ["fern", "moss"],
};

export type LineKind = "entry" | "sheet" | "row" | "comment" | "blank";

/** A line below the head of a day, its indentation included, without its end. */
export interface LogLine {
  readonly is: LineKind;
  readonly indent: string;
  /** What stands behind the indentation. */
  readonly text: string;
}

export interface LogDay {
  readonly head: string;
  readonly lines: readonly LogLine[];
}

export interface ArbitraryLog {
  readonly days: readonly LogDay[];
  readonly eol: "\n" | "\r\n";
}

const words = ["eggs", "on", "the", "mop", "clicks", "#3", "ürig", "水"];
const prose = fc
  .array(fc.constantFrom(...words), { minLength: 1, maxLength: 4 })
  .map((some) => `"${some.join(" ")}"`);
const figure = (least: number, most: number, places = 1): fc.Arbitrary<string> =>
  fc
    .integer({ min: Math.ceil(least * 10 ** places), max: Math.floor(most * 10 ** places) })
    .map((value) => String(value / 10 ** places));

/** Units of a dimension that a log may write; a portion and a pH are written without harm too. */
function unitsOf(dimension: Dimension): readonly string[] {
  return UNITS.filter(
    (unit) => unit.dimension === dimension && unit.symbol !== "" && unit.spellings.length > 0,
  )
    .filter((unit) => unit.basis === undefined)
    .map((unit) => unit.symbol);
}

/** So far a number of a dimension goes, in its everyday unit: figures stay within what a keeper writes. */
function quantity(dimension: Dimension, isSpan: boolean): fc.Arbitrary<string> {
  if (dimension === "count") return figure(0, 40, 0);
  const units = { fraction: ["%"], volume: ["L", "US gal", "gal", "mL"], concentration: ["mg/L", "ppm"] };
  const all = (units as Partial<Record<Dimension, readonly string[]>>)[dimension] ?? unitsOf(dimension);
  const one = fc.tuple(figure(1, 40), fc.constantFrom("", " "), fc.constantFrom(...all));
  const single = one.map(([value, space, unit]) => value + space + unit);
  if (!isSpan)
    return fc.oneof(
      { weight: 4, arbitrary: single },
      single.map((text) => `~${text}`),
    );
  const span = fc.tuple(figure(1, 20), figure(20, 40), fc.constantFrom(...all));
  return fc.oneof(
    { weight: 4, arbitrary: single },
    span.map(([low, high, unit]) => `${low}..${high} ${unit}`),
  );
}

const animals = fc.oneof(
  { weight: 4, arbitrary: figure(0, 30, 0) },
  figure(5, 30, 0).map((value) => `~${value}`),
  fc.tuple(figure(0, 5, 0), figure(6, 9, 0)).map(([low, high]) => `${low}..${high}`),
  fc.tuple(figure(0, 9, 0), figure(0, 9, 0), figure(0, 9, 0)).map((some) => some.join(".")),
);

/** A reading within what is possible, in the parameter's own unit or without one; now and then censored. */
function reading(parameter: Parameter): fc.Arbitrary<string> {
  const [low, high] = parameter.possible;
  const value = figure(Math.max(low, parameter.name === "pH" ? 5 : low), Math.min(high, low + 40));
  const unit = parameter.dimension === "pH" ? [""] : ["", ` ${parameter.unit.symbol}`];
  const signs = parameter.dimension === "temperature" ? [""] : ["", "", "", "<", ">"];
  return fc
    .tuple(fc.constantFrom(...signs), value, fc.constantFrom(...unit))
    .map(([sign, digits, symbol]) => sign + digits + symbol);
}

function fill(filling: Filling, isLed: boolean): fc.Arbitrary<string> {
  switch (filling.is) {
    case "quantity":
      return fc
        .constantFrom(...filling.of)
        .chain((dimension) =>
          dimension === "count" && filling.within !== undefined
            ? figure(...filling.within, 1)
            : quantity(dimension, filling.shape !== "one" && dimension !== "temperature"),
        );
    case "count":
      return animals;
    case "name":
      return fc.constantFrom(...filling.of.flatMap((space) => names[space]), ...(filling.also ?? []));
    case "choice":
      return fc.constantFrom(...filling.words);
    case "words":
      return fc.constantFrom(...filling.known);
    case "text":
      return isLed && filling.of !== undefined
        ? fc.oneof(prose, fc.constantFrom(...names[filling.of]))
        : prose;
    case "destination":
      return fc.constantFrom(...names.tank).map((name) => `-> ${name}`);
    case "date":
      return day.map(isoOf);
    case "lengths":
      return fc.constant("150 x 55 x 50 cm");
    case "reading":
      return fc.constant("7");
  }
}

function slotText(slot: Slot): fc.Arbitrary<string> {
  const text = fill(slot.filling, slot.lead !== undefined);
  return slot.lead === undefined ? text : text.map((value) => `${slot.lead} ${value}`);
}

/** One item of a list, or all slots of an entry without one. */
function itemText(slots: readonly Slot[]): fc.Arbitrary<string> {
  const [first, second] = slots;
  if (
    first?.filling.is === "name" &&
    first.filling.of[0] === "parameter" &&
    second?.filling.is === "reading"
  ) {
    return fc
      .constantFrom(...parameters)
      .chain((parameter) => reading(parameter).map((value) => `${parameter.name} ${value}`));
  }
  const parts = slots.map((slot) =>
    slot.required === undefined ? fc.option(slotText(slot), { nil: "" }) : slotText(slot),
  );
  return fc.tuple(...parts).map((texts) => texts.filter((text) => text !== "").join(" "));
}

function argumentsOf(kind: EntryKind): fc.Arbitrary<string> {
  if (kind.list !== true) return itemText(kind.slots);
  const each = itemText(kind.slots.filter((slot) => slot.each === true));
  const shared = itemText(kind.slots.filter((slot) => slot.each !== true));
  // An item that names nothing can only stand alone.
  const items = fc.array(
    each.filter((text) => text !== ""),
    { minLength: 1, maxLength: 3 },
  );
  return fc.tuple(items, shared).map(([some, rest]) => [some.join(", "), rest].filter(Boolean).join(" "));
}

const waterKinds = ["test", "change", "top-up", "dose"];

/** A target that the kind of entry may have. */
function targetOf(kind: EntryKind): fc.Arbitrary<string> {
  const tanks = fc.constantFrom(...names.tank);
  const groups = fc.constantFrom(...names.group).map((name) => `@${name}`);
  if (kind.word === "note") return fc.constantFrom("room", ...names.gear, ...names.tank, ...names.system);
  if (kind.word === "service") return fc.constantFrom("room", ...names.gear, ...names.tank, ...names.system);
  if (waterKinds.includes(kind.word)) return fc.oneof(tanks, groups, fc.constant("rack-water"));
  return fc.oneof({ weight: 4, arbitrary: tanks }, groups);
}

const clock = fc
  .tuple(fc.integer({ min: 0, max: 23 }), fc.integer({ min: 0, max: 59 }))
  .map((some) => some.map((part) => String(part).padStart(2, "0")).join(":"));

/** An entry without its indentation: `08:40 dam change 30 % "text"`. */
export function entryText(kind: EntryKind): fc.Arbitrary<string> {
  return fc
    .tuple(
      fc.option(clock, { nil: undefined, freq: 4 }),
      targetOf(kind),
      argumentsOf(kind),
      fc.option(prose, { nil: "", freq: 5 }),
      fc.constantFrom("", "", "", "  # a comment", " "),
    )
    .map(
      ([time, target, rest, text, tail]) =>
        `${[time, target, kind.word, rest, kind.word === "note" ? "" : text].filter(Boolean).join(" ")}${tail}`,
    );
}

const anyEntry: fc.Arbitrary<LogLine[]> = fc
  .tuple(
    fc.constantFrom("  ", "  ", "  ", "\t", "    "),
    fc.constantFrom<EntryKind>(...entryKinds).chain(entryText),
  )
  .map(([indent, text]) => [{ is: "entry", indent, text }]);

const remark: fc.Arbitrary<LogLine[]> = fc.oneof(
  fc
    .constantFrom("# looked at all of them", "#")
    .map((text) => [{ is: "comment" as const, indent: "  ", text }]),
  fc.constantFrom("", "  ").map((indent) => [{ is: "blank" as const, indent, text: "" }]),
);

/** A sheet with its rows; the line below it is less indented. */
const sheet: fc.Arbitrary<LogLine[]> = fc
  .tuple(
    fc.uniqueArray(fc.constantFrom<Parameter | string>(...parameters, ...names.species), {
      minLength: 1,
      maxLength: 4,
    }),
    fc.uniqueArray(fc.constantFrom(...names.tank), { minLength: 0, maxLength: 3 }),
  )
  .chain(([columns, tanks]) => {
    const heads = columns.map((column) => (typeof column === "string" ? column : column.name));
    const cell = (column: Parameter | string): fc.Arbitrary<string> =>
      fc.oneof(
        { weight: 4, arbitrary: typeof column === "string" ? animals : reading(column) },
        fc.constant("-"),
      );
    const rows = tanks.map((tank) =>
      fc.tuple(...columns.map(cell), fc.option(prose, { nil: "", freq: 5 })).map(
        (cells): LogLine => ({
          is: "row",
          indent: "    ",
          text: [tank, ...cells].filter(Boolean).join("  "),
        }),
      ),
    );
    return fc
      .tuple(...rows)
      .map((made): LogLine[] => [{ is: "sheet", indent: "  ", text: `sheet ${heads.join("  ")}` }, ...made]);
  });

const firstDay = 20_454; // 2026-01-01
const day = fc.integer({ min: firstDay, max: firstDay + 89 });

const anyDay: fc.Arbitrary<LogDay> = fc
  .tuple(
    day,
    fc.option(prose, { nil: "", freq: 5 }),
    fc.array(
      fc.oneof(
        { weight: 10, arbitrary: anyEntry },
        { weight: 1, arbitrary: remark },
        { weight: 1, arbitrary: sheet },
      ),
      { maxLength: 6 },
    ),
  )
  .map(([date, title, parts]) => ({
    head: [isoOf(date), title].filter(Boolean).join(" "),
    lines: outOfSheets(parts.flat()),
  }));

/** Entries that follow a sheet stand no deeper than it, else they would be its rows. */
function outOfSheets(lines: readonly LogLine[]): LogLine[] {
  let isBelowSheet = false;
  return lines.map((line) => {
    if (line.is === "sheet") isBelowSheet = true;
    else if (line.is === "entry" && isBelowSheet) {
      isBelowSheet = false;
      return { ...line, indent: "  " };
    }
    return line;
  });
}

/** Days of a log, in any order. */
export const arbitraryLog: fc.Arbitrary<ArbitraryLog> = fc.record({
  days: fc.array(anyDay, { maxLength: 6 }),
  eol: fc.constantFrom("\n", "\r\n"),
});

export const lineText = ({ indent, text }: LogLine): string => indent + text;

/** The text of some days. */
export function textOfDays(days: readonly LogDay[], eol = "\n"): string {
  return days.map(({ head, lines }) => [head, ...lines.map(lineText), ""].join(eol)).join("");
}

/** The whole log as one file, definitions first. */
export function textOf({ days, eol }: ArbitraryLog): string {
  return definitions.replaceAll("\n", eol) + eol + textOfDays(days, eol);
}

/** The log over several files: definitions in one, days dealt out to the others. */
export function filesOfLog({ days, eol }: ArbitraryLog, parts = 2): Map<string, string> {
  const files = new Map([["0-definitions.tank", definitions.replaceAll("\n", eol)]]);
  for (let part = 0; part < parts; part++) {
    const dealt = days.filter((_, at) => at % parts === part);
    files.set(`${part + 1}.tank`, textOfDays(dealt, eol));
  }
  return files;
}
