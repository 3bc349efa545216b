import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
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
    const holdings = ledger.stock.all();
    const wanted = new Map(
      holdings.flatMap((holding) => {
        const species = wordOf(holding.species);
        return onlySpecies === undefined || species === onlySpecies ? [[holding.index, species]] : [];
      }),
    );
    const { animals } = ledger;
    for (let index = animals.from(until) - 1; index >= 0 && wanted.size > 0; index--) {
      if (settledTime(animals, index) >= until) continue;
      const holding = animals.tag[index]!;
      const species = wanted.get(holding);
      if (species === undefined) continue;
      wanted.delete(holding);
      const tank = book.stations[holdings[holding]!.tank];
      if (tank?.kind === "tank" && animals.second[index]! > 0)
        held.push({ tank: tank as Tank, ledger, species, animals: animals.second[index]!, index, holding });
    }
  }
  const rank = (each: Held): number => book.tanks.indexOf(each.tank);
  return held.sort((a, b) => rank(a) - rank(b) || a.holding - b.holding);
}
