import { dateInLine } from "./date-line.ts";
import { readFigure } from "./figure.ts";
import { unitSaid } from "./import-units.ts";
import { readCompactTime, readMoment, readTime } from "./moment.ts";

/** What a line of a table is, by what stands in its cells. */

export const isValue = (cell: string): boolean =>
  readFigure(cell, ".") !== undefined ||
  readFigure(cell, ",") !== undefined ||
  readMoment(cell) !== undefined ||
  readTime(cell) !== undefined;

export const hasValues = ({ cells }: { readonly cells: readonly string[] }): boolean => {
  const filled = cells.filter((cell) => cell !== "");
  return filled.filter(isValue).length >= Math.max(1, filled.length / 3);
};

export const isWhen = (cell: string): boolean =>
  readMoment(cell) !== undefined || readTime(cell) !== undefined;

export const isRuler = (cells: readonly string[]): boolean => {
  const filled = cells.filter((cell) => cell !== "");
  const ruled = filled.filter((cell) => /[-=_+]{2,}$/.test(cell) || /^[-=_+&*]+$/.test(cell));
  return filled.length > 0 && ruled.length >= filled.length * 0.7;
};

export function isHead(cells: readonly string[], columns: number): boolean {
  const named = cells.filter((cell) => cell !== "");
  if (named.length < Math.max(2, columns * 0.5)) return false;
  return named.filter((cell) => !isValue(cell)).length >= named.length * 0.8;
}

export function isUnitsRow(cells: readonly string[]): boolean {
  const named = cells.filter((cell) => cell !== "" && cell !== "&");
  // A head may be a unit as well: `pH`.
  if (
    named.length < 1 ||
    named.some((cell) => /^(?:date|datum|time|zeit|timestamp|tank|becken)\b/i.test(cell))
  )
    return false;
  const known = named.filter(
    (cell) =>
      unitSaid(cell) !== undefined ||
      /^(?:units?|[-[\]]+|[hmsdy]+(?:\W[hmsdy]+)*|psu|ntu|%.*|m|ft|v|volts?|meters?|psia?|psig|in(?:ches)? hg)$/i.test(
        cell,
      ),
  );
  return known.length >= named.length * 0.5;
}

/** How lines begin that hold nothing but a date, between rows that hold a time. */
export function dateLineOf(
  rows: readonly { readonly raw: string; readonly cells: readonly string[] }[],
  isRow: (row: { readonly cells: readonly string[] }) => boolean,
  start: number,
  delimiter: string,
): string | undefined {
  for (let at = 0; at + 1 < rows.length; at++) {
    const found = /^\s*(\S.*?date.*?[:=])\s*(\d{6}|\d{8}|\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4})\s*$/i.exec(
      rows[at]!.raw,
    );
    if (found !== null && isRow(rows[at + 1]!) && hasTimeOnly(rows[at + 1]!.cells)) return found[1]!;
    const first = /^\s*(date.*?[:=])\s*(\d{6}|\d{8}|\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4})\s*$/i.exec(
      rows[at]!.raw,
    );
    if (first !== null && isRow(rows[at + 1]!) && hasTimeOnly(rows[at + 1]!.cells)) return first[1]!;
  }
  // Above the first row a date and nothing else, and no date in any row.
  const isAlone = rows.slice(0, start).some(({ raw }) => dateInLine(raw, delimiter, "") !== undefined);
  const isDated = rows
    .slice(start)
    .some(
      ({ raw, cells }) =>
        dateInLine(raw, delimiter, "") === undefined && cells.some((cell) => readMoment(cell) !== undefined),
    );
  return isAlone && !isDated ? "" : undefined;
}

const hasTimeOnly = (cells: readonly string[]): boolean =>
  cells.some((cell) => readTime(cell) !== undefined || readCompactTime(cell) !== undefined) &&
  !cells.some((cell) => readMoment(cell) !== undefined);
