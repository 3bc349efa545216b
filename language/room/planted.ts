import { Kind } from "../book/entries/registry.ts";
import { kindOfRow } from "../book/facts.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";
import { partRowsByWater, stationsOf, subjectOf } from "./taken-out.ts";

/** Plants of a water, by the entries that planted them and took them out. */

export interface Planted {
  readonly name: string;
  /** The entry that planted it last. */
  readonly row: LogRow;
}

const findPlants = rowFinder((facts, row) => kindOfRow(facts, row) === Kind.plant);

function plantsByWater(logbook: Logbook): ReadonlyMap<number, readonly LogRow[]> {
  return keptFor(logbook, "plants", () => {
    const byWater = new Map<number, LogRow[]>();
    for (const row of findPlants(logbook, Number.POSITIVE_INFINITY))
      for (const body of new Set(stationsOf(logbook, row).map((station) => station.body)))
        byWater.set(body, [...(byWater.get(body) ?? []), row]);
    return byWater;
  });
}

/** The plants in a water on the day of a time: what was planted up to then, and not taken out since. In shared water those of all its tanks. */
export function plantsIn(logbook: Logbook, ledger: Ledger, time: number): Planted[] {
  const body = ledger.body?.id ?? -1;
  const planted = (plantsByWater(logbook).get(body) ?? []).filter((row) => row.time <= time);
  if (planted.length === 0) return [];
  const day = Math.floor(time);
  const moves = (partRowsByWater(logbook).get(body) ?? []).filter((row) => row.day <= day);
  const last = new Map<string, LogRow>();
  for (const row of planted) last.set(subjectOf(row), row);
  return [...last].flatMap(([name, row]): Planted[] => {
    const moved = moves.findLast(
      (each) => ["plants", "plant", name].includes(subjectOf(each)) && each.time >= row.time,
    );
    return moved?.kind === Kind.remove ? [] : [{ name, row }];
  });
}
