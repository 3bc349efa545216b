import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Logbook } from "./logbook.ts";
import type { LogRow } from "./rare-rows.ts";
import { rowsBetween } from "./rows-between.ts";
import type { Period } from "./stock-book.ts";

/** A purchase of food or a remedy. */
export interface Purchase {
  readonly row: LogRow;
  readonly name: string;
  readonly is: "food" | "remedy" | "other";
  /** NaN where none is written; of a range its middle. */
  readonly price: number;
  /** `EUR`; empty where a price has none. */
  readonly currency: string;
}

const kinds: ReadonlySet<number> = new Set([Kind.buy]);

/** The purchases of a period, in order of time. Of a price without a currency nobody knows which it is. */
export function purchases(logbook: Logbook, { from, to }: Period): Purchase[] {
  const { book } = logbook;
  return rowsBetween(logbook, from, to, kinds).map((row): Purchase => {
    const name = wordOf(row.facts.ints[row.row * intsPerRow + Col.subject]!);
    const is = book.foods.has(name) ? "food" : book.remedy(name) === undefined ? "other" : "remedy";
    const price = entryOf(row.block, row.id)?.item.price;
    if (price === undefined) return { row, name, is, price: Number.NaN, currency: "" };
    const middle = Number.isNaN(price.second) ? price.value : (price.value + price.second) / 2;
    const currency = price.unit === noUnit ? "" : (UNITS[price.unit]?.symbol ?? "");
    return { row, name, is, price: middle, currency };
  });
}
