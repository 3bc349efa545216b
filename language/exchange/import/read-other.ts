import { toCanonical } from "../../quantity/quantity.ts";
import { findUnit } from "../../quantity/units.ts";
import { unitSaid } from "./import-units.ts";
import type { Role } from "./mapping.ts";
import { type Decimal, isMissing, readNumber } from "./number.ts";
import { oneLine } from "./one-line.ts";

/** What a row says besides readings: changes, feeds, counts, losses, notes. */

/** Why a row is rejected. */
export class Reject extends Error {}

export interface Meaning {
  readonly kind: "change" | "feed" | "count" | "lose" | "note";
  /** The food or species; empty where there is none. */
  readonly subject: string;
  /** Canonical in its dimension, or a number of animals; NaN where nothing is said. */
  readonly amount: number;
  /** Of the amount; empty where it has no unit. */
  readonly dimension: string;
}

export interface OtherRead {
  readonly words: string;
  readonly means: Meaning;
}

/** Several foods in one cell. */
export const foodsIn = (cell: string): string[] =>
  cell
    .split(/\s*[,;+&/]\s*/)
    .map((each) => each.trim())
    .filter((each) => each !== "");

/** Nothing where the cell is empty, or says none. Throws `Reject`. */
export function otherOf(
  role: Exclude<Role, { as: "test" }>,
  cells: readonly string[],
  decimal: Decimal,
): readonly OtherRead[] {
  const cell = cells[role.at - 1] ?? "";
  if (role.as === "ignored") return [];
  if (isMissing(cell)) return role.as === "feed" ? fedWithout(role, cells) : [];
  if (role.as === "note") {
    const words = `note ${quoted(cell)}`;
    return [{ words, means: { kind: "note", subject: words, amount: Number.NaN, dimension: "" } }];
  }
  if (role.as === "fed")
    return foodsIn(cell).flatMap((each) => {
      const food = nameFor(each, role.names, role.head);
      if (food === "ignore") return [];
      const means = { kind: "feed", subject: food, amount: Number.NaN, dimension: "" } as const;
      return [{ words: `feed ${food}`, means }];
    });
  if (role.as === "count" || role.as === "lose") return animals(role, cells, cell, decimal);
  const number = readNumber(cell, decimal);
  if (number === undefined || number.censor !== "" || !isIn(number.mark, role.unit))
    throw new Reject(`“${cell.slice(0, 40)}” in “${role.head}” is no number`);
  if (number.value < 0) throw new Reject(`${cell} in “${role.head}” is less than nothing`);
  if (number.value === 0) return [];
  const unit = findUnit(role.unit);
  const amount = unit === undefined ? Number.NaN : toCanonical(number.value, unit.id);
  const means = { kind: role.as, subject: "", amount, dimension: unit?.dimension ?? "" } as const;
  if (role.as === "change") return [{ words: `change ${number.text} ${role.unit}`, means }];
  const food = subjectOf(role.food, role.foods, cells, "food");
  if (food === "ignore") return [];
  return [
    {
      words: `feed ${food} ${number.text} ${pluralOf(role.unit, number.value)}`,
      means: { ...means, subject: food },
    },
  ];
}

/** A food without an amount. */
function fedWithout(role: Extract<Role, { as: "feed" }>, cells: readonly string[]): readonly OtherRead[] {
  const cell = role.foods === undefined ? "" : (cells[role.foods.at - 1] ?? "");
  if (role.foods === undefined || isMissing(cell)) return [];
  const food = nameFor(cell, role.foods.names, role.foods.head);
  if (food === "ignore") return [];
  const means = { kind: "feed", subject: food, amount: Number.NaN, dimension: "" } as const;
  return [{ words: `feed ${food}`, means }];
}

/** `2 cubes`, as a keeper writes it. */
function pluralOf(symbol: string, value: number): string {
  if (value === 1 || findUnit(symbol)?.dimension !== "portion") return symbol;
  return [`${symbol}s`, `${symbol}es`].find((each) => findUnit(each)?.symbol === symbol) ?? symbol;
}

/** `14`, `~20`, `3.5.2` by sex. */
function animals(
  role: Extract<Role, { as: "count" | "lose" }>,
  cells: readonly string[],
  cell: string,
  decimal: Decimal,
): readonly OtherRead[] {
  const isCount = role.as === "count";
  const sexed = isCount && /^\d{1,5}\.\d{1,5}\.\d{1,5}$/.test(cell) ? cell.split(".").map(Number) : undefined;
  const about = isCount ? (/^(?:~|≈|ca\.?|about)\s*(?=\d)/i.exec(cell)?.[0] ?? "") : "";
  const number = sexed === undefined ? readNumber(cell.slice(about.length), decimal) : undefined;
  const amount = sexed?.reduce((sum, each) => sum + each, 0) ?? number?.value ?? Number.NaN;
  if (amount < 0) throw new Reject(`${cell} in “${role.head}” is less than nothing`);
  if (!Number.isInteger(amount) || (number !== undefined && `${number.censor}${number.mark}` !== ""))
    throw new Reject(`“${cell.slice(0, 40)}” in “${role.head}” is no number of animals`);
  if (!isCount && amount === 0) return [];
  const species = subjectOf(role.species, role.of, cells, "species");
  if (species === "ignore") return [];
  const written = sexed === undefined ? `${about === "" ? "" : "~"}${amount}` : cell;
  return [
    {
      words: `${role.as} ${species} ${written}`,
      means: { kind: role.as, subject: species, amount, dimension: "" },
    },
  ];
}

function isIn(mark: string, unit: string): boolean {
  if (mark === "") return true;
  const said = unitSaid(mark);
  if (said === undefined) return false;
  return said.is === "unit" ? said.unit.symbol === unit : said.choices.includes(unit);
}

/** The food or species of a row: that of the mapping, or what its column says. */
function subjectOf(
  own: string | undefined,
  by:
    | { readonly at: number; readonly head: string; readonly names: Readonly<Record<string, string>> }
    | undefined,
  cells: readonly string[],
  what: string,
): string {
  if (own !== undefined) return own;
  if (by === undefined) throw new Reject(`the mapping names no ${what} for it`);
  const cell = cells[by.at - 1] ?? "";
  if (isMissing(cell)) throw new Reject(`no ${what}: “${by.head}” is empty`);
  return nameFor(cell, by.names, by.head);
}

function nameFor(cell: string, names: Readonly<Record<string, string>>, head: string): string {
  if (!Object.hasOwn(names, cell))
    throw new Reject(`the mapping does not know “${cell.slice(0, 40)}” in “${head}”`);
  return names[cell]!;
}

/** Text as a log holds it: on one line, in quotes. */
const quoted = (text: string): string => `"${oneLine(text).replace(/[\\"]/g, "\\$&")}"`;
