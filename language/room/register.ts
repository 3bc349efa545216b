import { entryOf } from "../book/entry.ts";
import type { Remedy, Tank } from "../book/stations.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type Gone, goneUntil } from "./orders.ts";
import { lastDose } from "./past.ts";
import { lastFromOutside, quarantineUntil } from "./quarantine.ts";
import { settledUntil } from "./settled-until.ts";

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
  /**
   * The first day after quarantine: of a quarantine tank by its clock, of any other since the last animal that came from outside; NaN where
   * none came in two years.
   */
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
          quarantineEnd: quarantineEnd(logbook, tank, row.day, until),
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

function quarantineEnd(logbook: Logbook, tank: Tank, day: number, until: number): number {
  const ledger = logbook.ledgerOf(tank);
  const clock = tank.role === "quarantine" ? quarantineUntil(logbook, ledger, day, until) : undefined;
  return (clock ?? lastFromOutside(ledger, tank, day - arrivedDays, until))?.end ?? Number.NaN;
}
