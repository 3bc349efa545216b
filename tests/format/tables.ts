import { readFileSync, writeFileSync } from "node:fs";
import process from "node:process";
import { fileURLToPath } from "node:url";
import { definitionKinds } from "../../language/book/definitions/registry.ts";
import { entryKinds } from "../../language/book/entries/registry.ts";
import type { EntryKind } from "../../language/book/kind.ts";
import { parameters } from "../../language/book/parameters.ts";
import type { PropertyKind } from "../../language/book/property.ts";
import type { Filling, Slot } from "../../language/book/slots.ts";
import type { Dimension } from "../../language/quantity/dimension.ts";
import { AMBIGUOUS, UNITS } from "../../language/quantity/units.ts";

/**
 * The tables of FORMAT.md, made of the declarations that the code reads by, so that page and code cannot part:
 *
 *     node tests/format/tables.ts
 *
 * writes them into the page; a test holds the page against them.
 */

const page = fileURLToPath(new URL("../../language/FORMAT.md", import.meta.url));
export const begin = "<!-- The tables below are made by tests/format/tables.ts. -->";

const code = (text: string): string => `\`${text}\``;
const row = (...cells: string[]): string =>
  `| ${cells.map((cell) => cell.replaceAll("|", "\\|")).join(" | ")} |`;
const table = (heads: string[], rows: string[][]): string =>
  [row(...heads), row(...heads.map(() => "---")), ...rows.map((cells) => row(...cells))].join("\n");

const either = (words: readonly string[]): string => words.map(code).join(" or ");
const some = (words: readonly string[]): string =>
  words.length === 0 ? "" : `, as ${words.map(code).join(" ")}`;

/** What fills a slot: `*fraction or volume*`, `batch or flow`. */
function fills(filling: Filling, isLed: boolean): string {
  switch (filling.is) {
    case "quantity": {
      const form =
        filling.shape === "one" ? " (one figure)" : filling.shape === "bound" ? " (or a bound)" : "";
      return `*${filling.noun}*${form}`;
    }
    case "reading":
      return filling.shape === "limit" ? "*range or bound*" : "*reading*";
    case "count":
      return `*${filling.noun ?? "number of animals"}*`;
    case "name": {
      const names = filling.of.filter((of) => of !== "any").join(" or ");
      if (!filling.of.includes("any")) return `*${names}*`;
      const named = names === "" ? "a word" : `a ${names} or another word`;
      return `*${filling.noun ?? "name"}* (${named}${some(filling.also ?? [])})`;
    }
    case "choice":
      return either(filling.words);
    case "words":
      return `*${filling.noun}*, ... (words${some(filling.known)})`;
    case "text":
      return `*${filling.noun}*${isLed ? "" : " in quotes"}`;
    case "destination":
      return "`->` *tank*";
    case "date":
      return "*date*";
    case "lengths":
      return "*length* `x` *width* `x` *height*";
  }
}

function slotText(slot: Slot): string {
  const isLed = slot.lead !== undefined;
  const text = (isLed ? `${code(slot.lead!)} ` : "") + fills(slot.filling, isLed);
  return slot.required === undefined ? `[${text}]` : text;
}

function arguments_(kind: EntryKind): string {
  if (kind.slots.length === 0) return "";
  const each = kind.slots.filter((slot) => slot.each === true).map(slotText);
  const shared = kind.slots.filter((slot) => slot.each !== true).map(slotText);
  return [kind.list === true ? `${each.join(" ")}, ...` : each.join(" "), ...shared]
    .filter((part) => part !== "")
    .join(" ");
}

const targets = { tank: "tank", water: "tank, system" };

function entryTable(): string {
  return table(
    ["entry", "arguments; in brackets what may be left out", "target", "as a duty"],
    entryKinds.map((kind: EntryKind) => [
      code(kind.word),
      arguments_(kind),
      kind.target === undefined ? "any" : targets[kind.target],
      kind.duty ? "yes" : "",
    ]),
  );
}

function propertyTakes({ form, slots }: PropertyKind): string {
  if (form === "every") return "time in whole days, then an entry without its target";
  if (form === "at")
    return "`least` or `most`, a number, `per`, a time in whole days, then an entry without its target";
  if (form === "needs")
    return "food or kind of food, `at least` or `at most`, a number, `per`, a time in whole days; parted by commas";
  if (form === "units") return "pairs of what is measured and its unit, parted by commas";
  return slots.map(slotText).join(" ");
}

function propertyTable(): string {
  return table(
    ["in", "property", "takes", "example"],
    Object.values(definitionKinds).flatMap((kind) =>
      kind.properties.map((property) => [
        code(kind.word),
        code(property.word) + (property.many === true ? ", more than once" : ""),
        propertyTakes(property) + (property.list === true && property.form === undefined ? ", ..." : ""),
        code(property.examples[0] ?? property.word),
      ]),
    ),
  );
}

function parameterTable(): string {
  return table(
    ["parameter", "also written", "unit if none is written", "can be at all"],
    parameters.map((parameter) => [
      code(parameter.name),
      parameter.aliases.map(code).join(" "),
      parameter.dimension === "pH"
        ? ""
        : code(parameter.unit.symbol) + (parameter.basis === undefined ? "" : ` as ${parameter.basis}`),
      parameter.possible.join(".."),
    ]),
  );
}

const sorts: Partial<Record<Dimension, string>> = {
  temperature: "temperature",
  volume: "volume",
  length: "length",
  mass: "mass",
  concentration: "concentration, by mass",
  "volume-concentration": "concentration, volume in volume",
  hardness: "hardness and alkalinity",
  conductivity: "conductivity",
  fraction: "fraction",
  duration: "time",
  flow: "flow",
  illuminance: "illuminance",
  "light-flux": "photon flux",
  power: "power",
  redox: "redox potential",
  portion: "portions",
  price: "price",
  count: "number",
};

function unitTable(): string {
  return table(
    ["what is measured", "units, each with its spellings"],
    Object.entries(sorts).map(([dimension, name]) => [
      name,
      UNITS.filter((unit) => unit.dimension === dimension && unit.spellings.length > 0)
        .map((unit) =>
          [...new Set([unit.symbol, ...unit.spellings])]
            .filter((text) => text !== "")
            .map(code)
            .join(" "),
        )
        .join("; "),
    ]),
  );
}

function ambiguousTable(): string {
  const bySense = new Map<string, string[]>();
  for (const [spelling, units] of AMBIGUOUS) {
    const sense = units.map((unit) => code(unit.symbol)).join(" or ");
    bySense.set(sense, [...(bySense.get(sense) ?? []), code(spelling)]);
  }
  return table(
    ["written", "may mean"],
    [...bySense].map(([sense, spellings]) => [spellings.join(" "), sense]),
  );
}

/** The tables, from their first line to the end of the page. */
export function tables(): string {
  return [
    begin,
    "### Entries",
    entryTable(),
    "### Properties",
    propertyTable(),
    "### Parameters of a test",
    parameterTable(),
    "### Units",
    unitTable(),
    "### Spellings that may mean several units",
    `${ambiguousTable()}\n`,
  ].join("\n\n");
}

export const pageText = (): string => readFileSync(page, "utf8");

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const text = pageText();
  const at = text.indexOf(begin);
  writeFileSync(page, (at < 0 ? text : text.slice(0, at)) + tables());
}
