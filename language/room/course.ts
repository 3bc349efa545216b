import type { Facts } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import { kept, keptOfAnimals } from "./kept.ts";
import type { Ledger } from "./ledger.ts";
import type { Series } from "./series.ts";
import type { Holding, Stock } from "./stock.ts";

/**
 * The book of one species, or one lot, in one tank through time: which of the ledger's entries are about it. Kept until the ledger is
 * derived again, so that the number at any date is a binary search.
 */
export interface Course {
  readonly holding: Holding;
  readonly series: Series;
  /** Indexes in the series, in order of time. */
  readonly at: readonly number[];
  /** Animal-days up to each of them. */
  readonly days: readonly number[];
}

/** The courses of all species in all tanks of a water, by the index of the holding. */
export function courses(ledger: Ledger): readonly Course[] {
  return keptOfAnimals(ledger, "courses", () => coursesOf(ledger.stock, ledger.animals));
}

/** The courses of lots. The holding names a party where a species stands. */
export function lotCourses(ledger: Ledger): readonly Course[] {
  return kept(ledger, "lot courses", () => coursesOf(ledger.lotStock, ledger.lots));
}

function coursesOf(stock: Stock, series: Series): Course[] {
  const made = stock.all().map((holding) => ({
    holding,
    series,
    at: [] as number[],
    days: [] as number[],
  }));
  for (let at = 0; at < series.length; at++) {
    const course = made[series.tag[at]!]!;
    const last = course.at.at(-1);
    course.days.push(
      last === undefined
        ? 0
        : course.days.at(-1)! + there(series.second[last]!) * (series.time[at]! - series.time[last]!),
    );
    course.at.push(at);
  }
  return made;
}

/** How many of the entries of a course stand before a time. */
export function entriesBefore({ series, at }: Course, time: number): number {
  let low = 0;
  let high = at.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (series.time[at[middle]!]! < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The animals just before a time; NaN where the book knows nothing. */
export function animalsBefore(course: Course, time: number): number {
  const entries = entriesBefore(course, time);
  return entries === 0 ? Number.NaN : course.series.second[course.at[entries - 1]!]!;
}

/** Animals times days between two times; what nobody knows counts as none. */
export function animalDays(course: Course, from: number, to: number): number {
  return to <= from ? 0 : daysUntil(course, to) - daysUntil(course, from);
}

function daysUntil(course: Course, time: number): number {
  const { series, at, days } = course;
  const entries = entriesBefore(course, time);
  if (entries === 0) return 0;
  const last = at[entries - 1]!;
  return days[entries - 1]! + there(series.second[last]!) * (time - series.time[last]!);
}

/** Whether the number of a species just before a time rests on an estimate. */
export function isAboutBefore({ animals }: Ledger, course: Course, time: number): boolean {
  const entries = entriesBefore(course, time);
  return entries > 0 && animals.isAbout[course.at[entries - 1]!] === 1;
}

/** The row of an entry of a series; undefined if an edit took it away. */
export function factsAt(series: Series, at: number): { facts: Facts; row: number } | undefined {
  const block = series.block[at]!;
  const row = rowOfId(block, series.row[at]!);
  return row < 0 ? undefined : { facts: block.facts, row };
}

/** What the book knows: of nothing, none. */
export const there = (animals: number): number => (Number.isNaN(animals) ? 0 : animals);
