import { headCellsOf } from "./cells.ts";
import { readFigure } from "./figure.ts";
import { readHead } from "./heads.ts";
import type { Mapping } from "./mapping.ts";
import { readMoment, readYearless } from "./moment.ts";
import { isMissing } from "./number.ts";

/** Tables whose heads are dates: a row is of a tank or of a parameter, or both, and goes on through the days. Each is read as a row a day. */

export interface Across {
  /** The place of the first date, from 0. */
  readonly from: number;
  /** All heads, as they stand. */
  readonly heads: readonly string[];
  /** The places of dates. */
  readonly dates: readonly number[];
  /** Heads between and behind the dates that are none. */
  readonly others: readonly string[];
}

/** Of a cell or a head alone: `2026-03-13`, `13 Mar`, `13.3.`, `3/13`; `1.3` and `10-20` are figures. */
export const isDateHead = (head: string): boolean =>
  readMoment(head) !== undefined ||
  (/[\p{L}/]|\.$|\.\s/u.test(head) && readYearless(head, 2000) !== undefined);

/** @param from the place of the first date, from 0 */
export function acrossOf(heads: readonly string[], from: number): Across {
  const places = heads.map((_, at) => at).filter((at) => at >= from && heads[at] !== "");
  return {
    from,
    heads,
    dates: places.filter((at) => isDateHead(heads[at]!)),
    others: places.filter((at) => !isDateHead(heads[at]!)).map((at) => heads[at]!),
  };
}

const linesLooked = 40;

/** Where among the lines the heads are dates, and nothing below them is one. */
export function findAcross(
  rows: readonly { readonly raw: string; readonly cells: readonly string[] }[],
  delimiter: string,
): { readonly at: number; readonly across: Across } | undefined {
  if (delimiter === "fixed") return undefined;
  for (let at = 0; at < Math.min(rows.length, linesLooked); at++) {
    const from = rows[at]!.cells.findIndex(isDateHead);
    if (from < 1 || !isDateHead(rows[at]!.cells[from + 1] ?? "")) continue;
    const across = acrossOf(headCellsOf(rows[at]!.raw, delimiter), from);
    if (across.others.length > across.dates.length / 2) continue;
    const below = rows.slice(at + 1, at + 1 + linesLooked);
    if (below.some(({ cells }) => cells.slice(0, from).some(isDateHead))) continue;
    const filled = below
      .flatMap(({ cells }) => across.dates.map((place) => cells[place] ?? ""))
      .filter((cell) => !isMissing(cell));
    if (filled.length === 0 || filled.some((cell) => readMoment(cell) !== undefined)) continue;
    const figures = filled.filter((cell) => readFigure(cell, ".") ?? readFigure(cell, ","));
    if (figures.length >= filled.length / 2) return { at, across };
  }
  return undefined;
}

/** The heads of the rows that are made of it. @param above what stands above the heads */
export function headsAcross({ heads, from }: Across, above: readonly string[]): readonly string[] {
  const own = heads.slice(0, from);
  // What is measured stands in the corner, or above.
  const measured = [...own, ...above].find((text) => readHead(text).parameter !== undefined);
  return [...own, "Date", measured ?? "Value"];
}

/** A row as a row for each of its dates. */
export function melted(cells: readonly string[], { from, heads, dates }: Across): (readonly string[])[] {
  const own = Array.from({ length: from }, (_, at) => cells[at] ?? "");
  return dates.map((at) => [...own, heads[at]!, cells[at] ?? ""]);
}

/** How a mapping reads heads that are dates; undefined if these are others. */
export function acrossBy(heads: readonly string[], table: Mapping["table"]): Across | undefined {
  if (table.across === undefined) return undefined;
  const across = acrossOf(heads, table.across.from - 1);
  return across.dates.length > 0 ? across : undefined;
}
