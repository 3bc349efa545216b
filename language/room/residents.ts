import { wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import { settledTime } from "./water.ts";

/** A species that lived in a tank at a time. */
export interface Resident {
  readonly species: string;
  readonly animals: number;
  /** The day from which it was there without a break; -Infinity where that is before the days that are looked at. */
  readonly since: number;
}

/**
 * Who lived in a tank at a time, by the book as it was then.
 * @param until days; what stands at or after it does not count
 * @param from so far back it is asked since when they are there
 */
export function residentsOf(ledger: Ledger, tank: Tank, until: number, from: number): Resident[] {
  const holdings = ledger.stock.all();
  const { animals } = ledger;
  const open = new Set<number>();
  for (const { index, tank: id } of holdings) if (id === tank.id) open.add(index);
  const now = new Map<number, { species: string; animals: number; since: number }>();
  for (let at = animals.from(until) - 1; at >= 0 && open.size > 0; at--) {
    if (settledTime(animals, at) >= until) continue;
    const holding = animals.tag[at]!;
    if (!open.has(holding)) continue;
    const after = animals.second[at]!;
    if (!now.has(holding)) {
      if (!(after > 0)) {
        open.delete(holding);
        continue;
      }
      const species = wordOf(holdings[holding]!.species);
      now.set(holding, { species, animals: after, since: Number.NEGATIVE_INFINITY });
    }
    const day = Math.floor(animals.time[at]!);
    if (day < from) open.delete(holding);
    else if (!(animals.first[at]! > 0)) {
      now.get(holding)!.since = day;
      open.delete(holding);
    }
  }
  return [...now.values()].sort((a, b) => b.animals - a.animals);
}
