import type { Book } from "../book/book.ts";
import type { Parameter } from "../book/parameters.ts";
import type { Limit } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";

/**
 * What a reading that cannot be was meant to be: the same digits with the point one or two places on, if that is possible, the
 * nearest to the last reading or to the limits first. Values are as they are written in the room's unit.
 */
export function likelySlips(
  book: Book,
  parameter: Parameter,
  canonical: number,
  last: number,
  limit: Limit | undefined,
): number[] {
  const written = book.units.fromReading(parameter, canonical);
  const unit = book.units.shown(parameter);
  const middle =
    limit === undefined || !Number.isFinite(limit.low + limit.high)
      ? Number.NaN
      : (limit.low + limit.high) / 2;
  const near = Number.isNaN(last) ? middle : last;
  const candidates: { value: number; far: number }[] = [];
  for (const factor of [0.1, 0.01, 10, 100]) {
    const value = Number((written * factor).toPrecision(12));
    const asCanonical = value * unit.factor + unit.offset;
    const low = parameter.possible[0] * parameter.unit.factor + parameter.unit.offset;
    const high = parameter.possible[1] * parameter.unit.factor + parameter.unit.offset;
    if (asCanonical < low || asCanonical > high) continue;
    candidates.push({ value, far: Number.isNaN(near) ? 0 : Math.abs(asCanonical - near) });
  }
  return candidates
    .sort((a, b) => a.far - b.far)
    .slice(0, 2)
    .map((candidate) => candidate.value);
}

export const numberText = (value: number): string => formatNumber(value, 6);
