import { Kind } from "../book/entries/registry.ts";
import { floatsPerRow, kindOfRow, Num, unitOfAmount } from "../book/facts.ts";
import type { Tank } from "../book/stations.ts";
import { UNITS } from "../quantity/units.ts";
import type { Reading } from "../science/censored.ts";
import { amountOf } from "./amounts.ts";
import { firstFrom } from "./days.ts";
import { tanksMeant, targetOf, targetsOf } from "./light-changes.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";
import { subjectOf } from "./taken-out.ts";

/** What was seen of the algae in a tank, and what was cut of its plants. */

export interface AlgaeRating {
  readonly row: LogRow;
  /** Empty where the entry names none. */
  readonly sort: string;
  /** From 0 to 4, or a share in per cent. */
  readonly isShare: boolean;
  readonly reading: Reading;
}

export interface Trim {
  readonly row: LogRow;
  readonly plant: string;
  /** NaN where the entry has no mass. */
  readonly grams: number;
}

const findPlantWork = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  return kind === Kind.algae || kind === Kind.trim;
});

/** The rows of one kind about a tank from the beginning of a day to the end of another. */
function rowsAbout(logbook: Logbook, tank: Tank, from: number, to: number, kind: number): LogRow[] {
  const all = findPlantWork(logbook, Number.POSITIVE_INFINITY);
  const meant = targetsOf(logbook, tank);
  const found: LogRow[] = [];
  for (let at = firstFrom(all, from); at < all.length && all[at]!.day <= to; at++) {
    const row = all[at]!;
    if (row.kind === kind && meant.has(targetOf(row))) found.push(row);
  }
  return found;
}

export function algaeRatings(logbook: Logbook, tank: Tank, from: number, to: number): AlgaeRating[] {
  return rowsAbout(logbook, tank, from, to, Kind.algae).flatMap((row): AlgaeRating[] => {
    const code = unitOfAmount(row.facts, row.row);
    const isShare = UNITS[code]?.dimension === "fraction";
    const most = isShare ? 100 : 4;
    const ends = [0, 1].map((at) => {
      const value = row.facts.floats[row.row * floatsPerRow + (at === 0 ? Num.amount : Num.high)]!;
      return isShare ? 100 * logbook.book.units.canonical(value, code, "fraction") : value;
    });
    const [low, high] = [ends[0]!, Number.isNaN(ends[1]!) ? ends[0]! : ends[1]!];
    if (Number.isNaN(low) || low < 0 || high > most) return [];
    const is = low === high ? "figure" : "between";
    return [{ row, sort: subjectOf(row), isShare, reading: { low, high, is } }];
  });
}

export function trims(logbook: Logbook, tank: Tank, from: number, to: number): Trim[] {
  return rowsAbout(logbook, tank, from, to, Kind.trim).map((row) => {
    const code = unitOfAmount(row.facts, row.row);
    const milligrams =
      UNITS[code]?.dimension === "mass"
        ? logbook.book.units.canonical(amountOf(row.facts, row.row), code, "mass")
        : Number.NaN;
    // What was cut in several tanks at once is of none of them.
    const isOne = tanksMeant(logbook, row).length === 1;
    return { row, plant: subjectOf(row), grams: isOne ? milligrams / 1000 : Number.NaN };
  });
}

/** What grew from one day of trimming to the next: what was cut on the later one, over the days between. */
export interface Growth {
  readonly day: number;
  readonly since: number;
  readonly gramsAWeek: number;
}

/** Of trims in order of time; a day of which a mass is missing tells nothing, and the next counts from it. */
export function growths(all: readonly Trim[]): Growth[] {
  const byDay = new Map<number, number>();
  for (const { row, grams } of all) byDay.set(row.day, (byDay.get(row.day) ?? 0) + grams);
  const days = [...byDay];
  return days.slice(1).flatMap(([day, grams], at): Growth[] => {
    const since = days[at]![0];
    return Number.isNaN(grams) ? [] : [{ day, since, gramsAWeek: (7 * grams) / (day - since) }];
  });
}
