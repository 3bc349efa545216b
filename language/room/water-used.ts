import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, intsPerRow, unitOfAmount } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Station, Tank } from "../book/stations.ts";
import { UNITS } from "../quantity/units.ts";
import { amountOf } from "./amounts.ts";
import { flowChoice } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { stationsOf } from "./orders.ts";
import type { LogRow } from "./rare-rows.ts";
import { rowsBetween } from "./rows-between.ts";
import type { Period } from "./stock-book.ts";

/** Water that came into one tank, or one system, by one entry. */
export interface WaterUse {
  readonly day: number;
  readonly station: Station;
  /** A source water, or the tank whose water it was; empty where none is stated anywhere. */
  readonly source: string;
  readonly how: "batch" | "flow" | "top-up";
  /** NaN where it is said by a fraction, and the volume is not stated. */
  readonly litres: number;
}

const kinds: ReadonlySet<number> = new Set([Kind.change, Kind.topUp]);

/** Changes and top-ups of a period, in order of time; of a group each of its tanks. */
export function waterUsed(logbook: Logbook, { from, to }: Period): WaterUse[] {
  const { book } = logbook;
  return rowsBetween(logbook, from, to, kinds).flatMap((row) => {
    const object = row.facts.ints[row.row * intsPerRow + Col.object]!;
    const source = object === noName ? (book.waters[0]?.name ?? "") : wordOf(object);
    const isFlow = choiceOfRow(row.facts, row.row) === flowChoice;
    const how = row.kind === Kind.topUp ? "top-up" : isFlow ? "flow" : "batch";
    return stationsOf(logbook, row.facts.ints[row.row * intsPerRow + Col.target]!)
      .filter(({ kind }) => kind === "tank" || kind === "system")
      .map(
        (station): WaterUse => ({
          day: row.day,
          station,
          source,
          how,
          litres: litresOf(logbook, row, station),
        }),
      );
  });
}

function litresOf({ book }: Logbook, { facts, row }: LogRow, station: Station): number {
  const value = amountOf(facts, row);
  const code = unitOfAmount(facts, row);
  if (UNITS[code]?.dimension !== "fraction") return book.units.canonical(value, code, "volume");
  const volumeL =
    station.kind === "tank" ? (station as Tank).volumeL : (book.bodies[station.body]?.volumeL ?? Number.NaN);
  return book.units.canonical(value, code, "fraction") * volumeL;
}
