import type { Book } from "../../book/book.ts";
import type { Parameter } from "../../book/parameters.ts";
import { unitText, type Value } from "../../book/reading.ts";
import type { Filling } from "../../book/slots.ts";
import type { Dimension } from "../../quantity/dimension.ts";
import { formatNumber } from "../../quantity/format.ts";
import { convert, rebase } from "../../quantity/quantity.ts";
import { type Basis, findUnit, UNITS, type Unit } from "../../quantity/units.ts";
import { Mark, Piece } from "../../syntax/pieces.ts";

/** A number as it was written, and the same in the units in which others would write it. */

/** `10 US gal = 37.9 L = 8.33 imp gal`; a number alone where there is nothing else to say it in. */
export function numberText(
  book: Book,
  value: Value,
  filling: Filling,
  parameter: Parameter | undefined,
  code = value.unit,
): string {
  if (value.kind === Piece.sexed) {
    const { value: males, second: females, third: unsexed } = value;
    return `${males + females + unsexed} animals: ${males} males, ${females} females, ${unsexed} unsexed`;
  }
  const dimensions = dimensionsOf(filling, parameter);
  const unit = settled(book, code, dimensions, parameter);
  const own = marked(value, (number) => formatNumber(number, 6));
  if (unit === undefined) return [own, unitText(value)].filter((part) => part !== "").join(" ");
  const first = joined(own, unit.dimension === "pH" ? "" : symbolOf(book, unit, parameter));
  const others = sameIn(unit, parameter)
    .map((other) => saidIn(book, value, unit, other, parameter, code))
    .filter((text) => text !== undefined && text !== first);
  return [first, ...new Set(others)].join(" = ");
}

/** The unit as it is meant: a concentration without a basis counts what the parameter counts in this room. */
function symbolOf(book: Book, unit: Unit, parameter: Parameter | undefined): string {
  if (parameter?.basis === undefined || unit.basis !== undefined) return unit.symbol;
  return `${unit.symbol} ${book.units.shown(parameter).basis ?? parameter.basis}`;
}

const noUnit = -1;

/** What a number in a slot may be measured in. */
function dimensionsOf(filling: Filling, parameter: Parameter | undefined): readonly Dimension[] {
  if (parameter !== undefined) return [parameter.dimension];
  if (filling.is === "quantity") return filling.of;
  if (filling.is === "lengths") return ["length"];
  return filling.is === "count" ? ["count"] : [];
}

function settled(
  book: Book,
  code: number,
  dimensions: readonly Dimension[],
  parameter: Parameter | undefined,
): Unit | undefined {
  if (code >= 0) return UNITS[code];
  // What may be a plain number is one where no unit is written: a rating is no share.
  if (code === noUnit && dimensions.includes("count")) return undefined;
  for (const dimension of dimensions) {
    const unit = book.units.unitFor(code, dimension, parameter);
    if (unit !== undefined) return unit;
  }
  return undefined;
}

/** The units in which a figure is said elsewhere. */
const elsewhere: Partial<Record<Dimension, readonly string[]>> = {
  temperature: ["C", "F"],
  volume: ["L", "US gal", "imp gal"],
  length: ["cm", "in"],
  mass: ["mg", "g", "oz av"],
  hardness: ["dGH", "mg/L CaCO3", "meq/L"],
  conductivity: ["uS/cm", "mS/cm"],
  duration: ["d", "h"],
  flow: ["L/h", "US gal/h"],
  "volume-concentration": ["uL/L", "mL/L"],
};

/** By the element that is counted: as the ion, and as the element alone. */
const bases: readonly (readonly Basis[])[] = [
  ["NO3", "NO2", "NH4", "NH3", "N"],
  ["PO4", "P"],
];

function sameIn(unit: Unit, parameter: Parameter | undefined): Unit[] {
  const symbols =
    parameter?.basis !== undefined
      ? basesOf(parameter.basis).map((basis) => `mg/L ${basis}`)
      : parameter?.name === "KH"
        ? ["dKH", "mg/L CaCO3", "meq/L"]
        : (elsewhere[unit.dimension] ?? []);
  return symbols.flatMap((symbol) => findUnit(symbol) ?? []);
}

/** Of nitrate as NO3 and as N, of ammonia as N, NH3 and NH4: not one ion as another. */
function basesOf(basis: Basis): readonly Basis[] {
  const element = bases.find((each) => each.includes(basis))?.at(-1) ?? basis;
  if (basis === "N") return ["N", "NH3", "NH4"];
  return [...new Set([basis, element])];
}

function saidIn(
  book: Book,
  value: Value,
  unit: Unit,
  other: Unit,
  parameter: Parameter | undefined,
  code: number,
): string | undefined {
  const into = (number: number): number | undefined => {
    if (parameter?.basis === undefined) return convert(number, unit, other);
    // A concentration without a basis counts what the parameter counts in this room.
    return rebase(
      book.units.reading(parameter, number, code),
      parameter.basis,
      other.basis ?? parameter.basis,
    );
  };
  const size = Math.abs(into(value.value) ?? 0);
  // So small a figure says less than the one that was written.
  if (size < 0.01 && value.value !== 0) return undefined;
  const text = marked(value, (number) => formatNumber(into(number) ?? Number.NaN));
  return joined(text, other.symbol);
}

const signs: Partial<Record<number, string>> = {
  [Mark.below]: "<",
  [Mark.above]: ">",
  [Mark.atMost]: "<= ",
  [Mark.atLeast]: ">= ",
  [Mark.about]: "~",
};

/** A number, a range or the lengths of a box, with the sign it was written with. */
function marked({ kind, value, second, third, mark }: Value, text: (number: number) => string): string {
  if (kind === Piece.lengths)
    return [value, second, third]
      .filter((each) => !Number.isNaN(each))
      .map(text)
      .join(" x ");
  const high = mark === Mark.range ? `..${text(second)}` : "";
  return `${signs[mark] ?? ""}${text(value)}${high}`;
}

const joined = (number: string, symbol: string): string => (symbol === "" ? number : `${number} ${symbol}`);
