import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import { courses } from "./course.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Series } from "./series.ts";
import { settledTime } from "./water.ts";

/** How many animals the book had at a time that may be past. */

export interface Held {
  readonly tank: Tank;
  readonly ledger: Ledger;
  readonly species: string;
  /** By the book; more than 0. */
  readonly animals: number;
  /** The entry that says so, by its index in the ledger's series of animals. */
  readonly index: number;
  /** The holding, by its index. */
  readonly holding: number;
}

/**
 * What every tank held at a time.
 * @param until days, as `settledTime` gives them; what stands at or after it does not count
 */
export function bookAt(logbook: Logbook, until: number, onlySpecies?: string): Held[] {
  const { book } = logbook;
  const held: Held[] = [];
  for (const ledger of new Set(book.tanks.map((tank) => logbook.ledgerOf(tank)))) {
    const { animals } = ledger;
    for (const { holding, at } of courses(ledger)) {
      const species = wordOf(holding.species);
      if (onlySpecies !== undefined && species !== onlySpecies) continue;
      const index = lastBefore(animals, at, until);
      const tank = book.stations[holding.tank];
      if (index < 0 || tank?.kind !== "tank" || !(animals.second[index]! > 0)) continue;
      held.push({
        tank: tank as Tank,
        ledger,
        species,
        animals: animals.second[index]!,
        index,
        holding: holding.index,
      });
    }
  }
  const rank = (each: Held): number => book.tanks.indexOf(each.tank);
  return held.sort((a, b) => rank(a) - rank(b) || a.holding - b.holding);
}

/** The last of some entries of a series before a settled time; -1 if there is none. */
function lastBefore(series: Series, entries: readonly number[], until: number): number {
  let low = 0;
  let high = entries.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (settledTime(series, entries[middle]!) < until) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? -1 : entries[low - 1]!;
}
