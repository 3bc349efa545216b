import type { Book } from "../../book/book.ts";
import type { Parameter } from "../../book/parameters.ts";
import type { Dimension } from "../../quantity/dimension.ts";
import { UNITS } from "../../quantity/units.ts";

/** Units to offer behind a number: the room's own first, then those that a keeper writes, or all. */

/** Of a dimension with many units, those that a keeper writes. Common practice, no source. */
const usual: Partial<Record<Dimension, readonly string[]>> = {
  fraction: ["%"],
  volume: ["L", "mL", "US gal", "imp gal"],
  mass: ["mg", "g", "kg", "oz"],
  length: ["cm", "mm", "m", "inch"],
  duration: ["d", "h", "min"],
  concentration: ["mg/L", "g/L", "ug/L"],
  portion: ["cube", "pinch", "scoop", "drop", "pellet", "leaf", "slice", "tab"],
};

export function unitsFor(
  book: Book,
  dimensions: readonly Dimension[],
  parameter: Parameter | undefined,
  isWhole = false,
): { readonly symbol: string; readonly detail: string }[] {
  const found = new Map<string, string>();
  if (parameter !== undefined) found.set(book.units.shown(parameter).symbol, "usual here");
  for (const dimension of dimensions) {
    const own = book.units.unitFor(-1, dimension);
    if (own !== undefined && own.dimension === dimension) found.set(own.symbol, "usual here");
  }
  for (const dimension of dimensions) {
    const symbols = UNITS.filter(
      (unit) => unit.dimension === dimension && !isOtherBasis(unit.basis, parameter),
    ).map((unit) => unit.symbol);
    const first = usual[dimension]?.filter((symbol) => symbols.includes(symbol)) ?? [];
    for (const symbol of first.length > 0 && !isWhole ? first : symbols)
      if (symbol !== "" && !found.has(symbol)) found.set(symbol, dimension);
  }
  return [...found].map(([symbol, detail]) => ({ symbol, detail })).filter(({ symbol }) => symbol !== "pH");
}

/** A concentration counted as something else than its parameter may be: `mg/L N` is no unit of oxygen. */
const isOtherBasis = (basis: string | undefined, parameter: Parameter | undefined): boolean =>
  basis !== undefined &&
  parameter !== undefined &&
  parameter.dimension === "concentration" &&
  parameter.basis === undefined;
