import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import {
  animalDays,
  animalsBefore,
  type Course,
  courses,
  entriesBefore,
  isAboutBefore,
  lotCourses,
  there,
} from "./course.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type LossWord, lossWords, type Movement, movements } from "./movement.ts";
import { namesOfParty } from "./party.ts";

/** Whole days, both included. */
export interface Period {
  readonly from: number;
  readonly to: number;
}

/** What came, went and is there: of one species, or one lot of it, in one tank, over a period. */
export interface StockRow {
  readonly tank: Tank;
  readonly species: string;
  /** Empty for all of the species. */
  readonly lot: string;
  readonly sums: Sums;
  readonly isAbout: boolean;
  /** Whether the book knows anything of them at the end of the period. */
  readonly isKnown: boolean;
  readonly ledger: Ledger;
  readonly course: Course;
}

/** Opening + arrived + born + moved in - lost - moved out - sold - shipped + found - unaccounted = closing. */
export interface Sums {
  opening: number;
  arrived: number;
  born: number;
  movedIn: number;
  readonly lost: Record<LossWord, number>;
  movedOut: number;
  sold: number;
  shipped: number;
  /** By a count, or by leaving without having been in the book: more than the book knew, and fewer. */
  found: number;
  unaccounted: number;
  closing: number;
  /** Animals times days, of the period. */
  animalDays: number;
}

/** The book of the whole room over a period, by tank and species; what nothing happened to and nothing is of is left out. */
export function stockBook(logbook: Logbook, period: Period): StockRow[] {
  return rowsOf(logbook, period, courses, ({ holding }) => ({ species: wordOf(holding.species), lot: "" }));
}

/** The same of the lots, by the entries that name them. */
export function lotBook(logbook: Logbook, period: Period): StockRow[] {
  return rowsOf(logbook, period, lotCourses, ({ holding }) => {
    const { species, lot } = namesOfParty(holding.species);
    return { species: wordOf(species), lot: wordOf(lot) };
  });
}

function rowsOf(
  logbook: Logbook,
  period: Period,
  coursesIn: (ledger: Ledger) => readonly Course[],
  name: (course: Course) => { species: string; lot: string },
): StockRow[] {
  const { stations } = logbook.book;
  const end = period.to + 1;
  const order = new Map(logbook.book.tanks.map((tank, at) => [tank.id, at]));
  return logbook.ledgers
    .flatMap((ledger) =>
      coursesIn(ledger).flatMap((course): StockRow[] => {
        if (entriesBefore(course, end) === 0) return [];
        const happened = movements(ledger, course, period.from, end);
        const sums = sumsOf(course, period, happened);
        if (happened.length === 0 && sums.opening === 0) return [];
        const tank = stations[course.holding.tank] as Tank;
        const isKnown = !Number.isNaN(animalsBefore(course, end));
        const named = name(course);
        const isAbout = named.lot === "" ? isAboutBefore(ledger, course, end) : course.holding.isAbout;
        return [{ tank, ...named, sums, isAbout, isKnown, ledger, course }];
      }),
    )
    .sort(
      (a, b) =>
        order.get(a.tank.id)! - order.get(b.tank.id)! ||
        compare(a.species, b.species) ||
        compare(a.lot, b.lot),
    );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function sumsOf(course: Course, { from, to }: Period, happened: readonly Movement[]): Sums {
  const sums: Sums = {
    ...noSums(),
    opening: there(animalsBefore(course, from)),
    closing: there(animalsBefore(course, to + 1)),
    animalDays: animalDays(course, from, to + 1),
  };
  for (const { is, animals, how, adjusted } of happened) {
    if (is === "lose") sums.lost[how!] += animals;
    else if (is !== "count") sums[columnOf[is]] += animals;
    if (adjusted > 0) sums.found += adjusted;
    else sums.unaccounted -= adjusted;
  }
  return sums;
}

const columnOf = {
  arrive: "arrived",
  hatch: "born",
  in: "movedIn",
  out: "movedOut",
  sell: "sold",
  ship: "shipped",
} as const;

export function noSums(): Sums {
  return {
    opening: 0,
    arrived: 0,
    born: 0,
    movedIn: 0,
    lost: Object.fromEntries(lossWords.map((word) => [word, 0])) as Record<LossWord, number>,
    movedOut: 0,
    sold: 0,
    shipped: 0,
    found: 0,
    unaccounted: 0,
    closing: 0,
    animalDays: 0,
  };
}

/** Several rows as one. */
export function addedUp(rows: readonly { readonly sums: Sums }[]): Sums {
  const total = noSums();
  for (const { sums } of rows) {
    for (const word of lossWords) total.lost[word] += sums.lost[word];
    for (const key of figureKeys) total[key] += sums[key];
  }
  return total;
}

const figureKeys = [
  "opening",
  "arrived",
  "born",
  "movedIn",
  "movedOut",
  "sold",
  "shipped",
  "found",
  "unaccounted",
  "closing",
  "animalDays",
] as const;

/** All animals lost, however. */
export const allLost = ({ lost }: Sums): number => lossWords.reduce((sum, word) => sum + lost[word], 0);

/** Animals in a tank at the end of a day. */
export interface Resident {
  readonly tank: Tank;
  readonly species: string;
  readonly animals: number;
  readonly isAbout: boolean;
}

/** Who is where at the end of a day, the day's entries counted. */
export function stockAt(logbook: Logbook, day: number): Resident[] {
  const { stations } = logbook.book;
  return logbook.ledgers.flatMap((ledger) =>
    courses(ledger).flatMap((course): Resident[] => {
      const animals = animalsBefore(course, day + 1);
      if (!(animals > 0)) return [];
      const tank = stations[course.holding.tank] as Tank;
      const isAbout = isAboutBefore(ledger, course, day + 1);
      return [{ tank, species: wordOf(course.holding.species), animals, isAbout }];
    }),
  );
}
