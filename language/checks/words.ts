import type { Book } from "../book/book.ts";
import type { Parameter } from "../book/parameters.ts";
import type { Limit } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";

/** Figures in the words of findings and hints, in the units of the room. */

/** A canonical reading with its unit: `18 mg/L`, `7.2`. */
export function readingText(book: Book, parameter: Parameter, canonical: number, significant = 3): string {
  const value = formatNumber(book.units.fromReading(parameter, canonical), significant);
  const { symbol } = book.units.shown(parameter);
  return parameter.dimension === "pH" ? value : `${value} ${symbol}`;
}

/** A reading with its ends: `<5 mg/L`, `3..4`. */
export function readingSpan(book: Book, parameter: Parameter, low: number, high: number): string {
  if (low === high) return readingText(book, parameter, low);
  if (high === Number.POSITIVE_INFINITY) return `>${readingText(book, parameter, low)}`;
  const [least] = parameter.possible;
  if (low === least * parameter.unit.factor + parameter.unit.offset)
    return `<${readingText(book, parameter, high)}`;
  return `${formatNumber(book.units.fromReading(parameter, low))}..${readingText(book, parameter, high)}`;
}

/** `at most 25 mg/L`, `23..27 C`. */
export function limitText(book: Book, limit: Limit): string {
  const { parameter, low, high } = limit;
  if (low === Number.NEGATIVE_INFINITY) return `at most ${readingText(book, parameter, high)}`;
  if (high === Number.POSITIVE_INFINITY) return `at least ${readingText(book, parameter, low)}`;
  return `${formatNumber(book.units.fromReading(parameter, low))}..${readingText(book, parameter, high)}`;
}

/** `1 day`, `3 days`. */
export function days(count: number): string {
  const text = formatNumber(count, 2);
  return text === "1" ? "1 day" : `${text} days`;
}

export const concentration = (value: number, unit: string): string => `${formatNumber(value, 3)} ${unit}`;

export const percent = (fraction: number): string => `${formatNumber(fraction * 100, 3)} %`;
