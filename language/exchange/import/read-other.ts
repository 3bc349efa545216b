import { toCanonical } from "../../quantity/quantity.ts";
import { findUnit } from "../../quantity/units.ts";
import { withoutGuard } from "../formula.ts";
import { type Figure, figureText, rangeFlaw, readFigure } from "./figure.ts";
import { unitSaid } from "./import-units.ts";
import type { Role } from "./mapping.ts";
import { type Decimal, isMissing } from "./number.ts";
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
  /** Of a range the upper end; NaN where it is one figure. */
  readonly high: number;
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
    const words = `note ${quoted(withoutGuard(cell))}`;
    return [
      { words, means: { kind: "note", subject: words, amount: Number.NaN, high: Number.NaN, dimension: "" } },
    ];
  }
  if (role.as === "fed")
    return foodsIn(cell).flatMap((each) => {
      const food = nameFor(each, role.names, role.head);
      if (food === "ignore") return [];
      const means = {
        kind: "feed",
        subject: food,
        amount: Number.NaN,
        high: Number.NaN,
        dimension: "",
      } as const;
      return [{ words: `feed ${food}`, means }];
    });
  if (role.as === "count" || role.as === "lose") return animals(role, cells, cell, decimal);
  const figure = readFigure(cell, decimal);
  if (figure === undefined || !isIn(figure.mark, role.unit))
    throw new Reject(`“${cell.slice(0, 40)}” in “${role.head}” is no number`);
  refuseOf(cell, figure, role.head);
  if (figure.value === 0 && figure.high === undefined) return [];
  const unit = findUnit(role.unit);
  const inUnit = (value: number): number => (unit === undefined ? Number.NaN : toCanonical(value, unit.id));
  const means = {
    kind: role.as,
    subject: "",
    amount: inUnit(figure.value),
    high: figure.high === undefined ? Number.NaN : inUnit(figure.high.value),
    dimension: unit?.dimension ?? "",
  } as const;
  const written = figureText({ ...figure, high: figure.high?.text ?? "" });
  if (role.as === "change") return [{ words: `change ${written} ${role.unit}`, means }];
  const food = subjectOf(role.food, role.foods, cells, "food");
  if (food === "ignore") return [];
  return [
    {
      words: `feed ${food} ${written} ${pluralOf(role.unit, figure.high?.value ?? figure.value)}`,
      means: { ...means, subject: food },
    },
  ];
}

/** What cannot be how much it was. Throws `Reject`. */
function refuseOf(cell: string, figure: Figure, head: string): void {
  if (figure.censor === "<" || figure.censor === ">")
    throw new Reject(
      `“${cell.slice(0, 40)}” in “${head}” does not say how much: write about so much (~${figure.text}) or a range (25..35)`,
    );
  if (figure.value < 0) throw new Reject(`${cell} in “${head}” is less than nothing`);
  const flaw = rangeFlaw(cell, figure);
  if (flaw !== "") throw new Reject(flaw);
}

/** A food without an amount. */
function fedWithout(role: Extract<Role, { as: "feed" }>, cells: readonly string[]): readonly OtherRead[] {
  const cell = role.foods === undefined ? "" : (cells[role.foods.at - 1] ?? "");
  if (role.foods === undefined || isMissing(cell)) return [];
  const food = nameFor(cell, role.foods.names, role.foods.head);
  if (food === "ignore") return [];
  const means = { kind: "feed", subject: food, amount: Number.NaN, high: Number.NaN, dimension: "" } as const;
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
  const figure = sexed === undefined ? readFigure(cell, decimal) : undefined;
  if (figure !== undefined) refuseOf(cell, figure, role.head);
  const amount = sexed?.reduce((sum, each) => sum + each, 0) ?? figure?.value ?? Number.NaN;
  const high = figure?.high?.value ?? Number.NaN;
  if (
    !Number.isInteger(amount) ||
    !(Number.isNaN(high) || Number.isInteger(high)) ||
    (figure?.mark ?? "") !== ""
  )
    throw new Reject(`“${cell.slice(0, 40)}” in “${role.head}” is no number of animals`);
  if (!isCount && amount === 0 && Number.isNaN(high)) return [];
  const species = subjectOf(role.species, role.of, cells, "species");
  if (species === "ignore") return [];
  const written =
    figure === undefined ? cell : `${figure.censor}${amount}${Number.isNaN(high) ? "" : `..${high}`}`;
  return [
    {
      words: `${role.as} ${species} ${written}`,
      means: { kind: role.as, subject: species, amount, high, dimension: "" },
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
