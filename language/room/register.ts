import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { kindOfRow } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import type { Remedy, Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type Gone, goneUntil } from "./orders.ts";
import { lastDose } from "./past.ts";
import { settledUntil } from "./settled-until.ts";
import { settledTime } from "./water.ts";

/** What was sold and shipped, with what a buyer or an inspector asks of it: a row for each species of each entry and tank. */
export interface RegisterRow {
  readonly gone: Gone;
  readonly tank: Tank | undefined;
  readonly animals: number;
  /** As the entry names the buyer, else as its order does. */
  readonly buyer: string;
  readonly carrier: string;
  /** The last dose of each remedy in its water within a year before. */
  readonly treatments: readonly { readonly remedy: Remedy; readonly day: number }[];
  /** The first day after quarantine since the last animal that came from outside into its tank; NaN where none came in two years. */
  readonly quarantineEnd: number;
}

const treatedDays = 365;
const arrivedDays = 730;

/** Sales and shipments from a day to another, both counted, in order of time. */
export function registerOf(logbook: Logbook, from: number, to: number): RegisterRow[] {
  return goneUntil(logbook, to)
    .filter(({ row }) => row.day >= from)
    .flatMap((gone): RegisterRow[] => {
      const { row, order, stations } = gone;
      const item = entryOf(row.block, row.id)?.item;
      const known = logbook.book.orders.get(order);
      const base = {
        gone,
        animals: gone.animals / stations.length,
        buyer: item?.buyer?.text ?? (known?.buyer || known?.title) ?? "",
        carrier: item?.carrier?.text ?? (gone.how === "ship" ? (known?.carrier ?? "") : ""),
      };
      return stations.map((station): RegisterRow => {
        if (station.kind !== "tank")
          return { ...base, tank: undefined, treatments: [], quarantineEnd: Number.NaN };
        const tank = station as Tank;
        const ledger = logbook.ledgerOf(tank);
        const until = settledUntil(ledger, { time: row.time, block: row.block, row: row.row });
        return {
          ...base,
          tank,
          treatments: treatmentsBefore(ledger, until),
          quarantineEnd: quarantineEnd(ledger, tank, until),
        };
      });
    });
}

function treatmentsBefore(ledger: Ledger, until: number): RegisterRow["treatments"] {
  if (ledger.doses.length === 0) return [];
  return ledger.book.remedies.flatMap((remedy) => {
    const dose = lastDose(ledger, remedy, until);
    const day = dose < 0 ? Number.NaN : Math.floor(ledger.doses.time[dose]!);
    return day > until - treatedDays ? [{ remedy, day }] : [];
  });
}

function quarantineEnd({ book, animals, stock }: Ledger, tank: Tank, until: number): number {
  const holdings = stock.all();
  for (let at = animals.from(until) - 1; at >= 0 && animals.time[at]! > until - arrivedDays; at--) {
    if (holdings[animals.tag[at]!]?.tank !== tank.id || settledTime(animals, at) >= until) continue;
    const block = animals.block[at]!;
    const row = rowOfId(block, animals.row[at]!);
    if (row >= 0 && kindOfRow(block.facts, row) === Kind.arrive)
      return Math.floor(animals.time[at]!) + Math.round(book.quarantineDays);
  }
  return Number.NaN;
}
