import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { type Facts, unitOfAmount } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Remedy, Station } from "../book/stations.ts";
import { amountOf } from "./amounts.ts";
import { firstFrom } from "./days.ts";
import { addedBy, productFor } from "./dose-amount.ts";
import { type FoodAmount, foodAmount } from "./food-amount.ts";
import type { Logbook } from "./logbook.ts";
import { type SupplyRow, supplyRowsIn } from "./supply-rows.ts";

/** What was bought, weighed and used of foods and remedies, by how much. */

export interface Stocked extends SupplyRow {
  /** A feeding or a dose; else a weighing or a purchase. */
  readonly isUse: boolean;
  readonly amount: FoodAmount;
  /** So often: the entry of a group is one of each of its tanks. */
  readonly times: number;
}

/**
 * By the number of the name, in order of time. What a block says of it is kept until the block or a definition changes: a year of a
 * large log is then a look at its days.
 */
export function stockedRows(logbook: Logbook, fromDay: number, untilDay: number): Map<number, Stocked[]> {
  const found = new Map<number, Stocked[]>();
  eachBlock(logbook, fromDay, untilDay, (ofBlock) => {
    for (const [subject, rows] of ofBlock) {
      const known = found.get(subject);
      if (known === undefined) found.set(subject, [...rows]);
      else for (const row of rows) known.push(row);
    }
  });
  for (const rows of found.values()) sortDays(rows);
  return found;
}

/** Those of one food or remedy. */
export function stockedOf(logbook: Logbook, name: string, fromDay: number, untilDay: number): Stocked[] {
  const subject = nameOf(name);
  const found: Stocked[] = [];
  eachBlock(logbook, fromDay, untilDay, (ofBlock) => {
    for (const row of ofBlock.get(subject) ?? []) found.push(row);
  });
  sortDays(found);
  return found;
}

function eachBlock(
  { dayGroups, book }: Logbook,
  fromDay: number,
  untilDay: number,
  visit: (ofBlock: Kept["bySubject"]) => void,
): void {
  for (let at = firstFrom(dayGroups, fromDay); at < dayGroups.length; at++) {
    const { day, blocks } = dayGroups[at]!;
    if (day > untilDay) break;
    for (const block of blocks) visit(stockedIn(book, block));
  }
}

/** A day need not be written in order of time. What is equal stays in place. */
function sortDays(rows: Stocked[]): void {
  for (let at = 1; at < rows.length; at++)
    if (rows[at]!.time < rows[at - 1]!.time) {
      rows.sort((a, b) => a.time - b.time);
      return;
    }
}

interface Kept {
  readonly facts: Facts;
  readonly book: Book;
  readonly bySubject: ReadonlyMap<number, readonly Stocked[]>;
}

const kept = new WeakMap<Block, Kept>();
const nothing = nameOf("none");
const kinds: ReadonlySet<number> = new Set([Kind.feed, Kind.dose, Kind.buy, Kind.left]);

function stockedIn(book: Book, block: Block): ReadonlyMap<number, readonly Stocked[]> {
  const { facts } = block;
  const known = kept.get(block);
  if (known?.facts === facts && known.book === book) return known.bySubject;
  const bySubject = new Map<number, Stocked[]>();
  for (const row of supplyRowsIn(block)) {
    if (!kinds.has(row.kind) || row.subject === nothing) continue;
    const times = timesOf(book, row);
    // What belongs to nothing does not count.
    if (times === 0) continue;
    const isUse = row.kind === Kind.feed || row.kind === Kind.dose;
    const stocked = { ...row, isUse, amount: amountIn(book, row), times };
    const rows = bySubject.get(row.subject);
    if (rows === undefined) bySubject.set(row.subject, [stocked]);
    else rows.push(stocked);
  }
  kept.set(block, { facts, book, bySubject });
  return bySubject;
}

function timesOf(book: Book, { target }: SupplyRow): number {
  return target < 0 ? (book.groupTanks(~target)?.length ?? 0) : Number(book.station(target) !== undefined);
}

function amountIn(book: Book, row: SupplyRow): FoodAmount {
  const name = wordOf(row.subject);
  const food = book.foods.get(name);
  const remedy = food === undefined ? book.remedy(name) : undefined;
  const written = foodAmount(food, name, book.units, row.facts, row.row);
  if (remedy === undefined || row.kind !== Kind.dose || written.symbol === "g" || written.symbol === "mL")
    return written;
  return doseAmount(book, remedy, row);
}

/** The product that a dose takes which says drops, or what it makes of the water: by the inverse of how doses are reckoned. */
function doseAmount(book: Book, remedy: Remedy, { facts, row, target }: SupplyRow): FoodAmount {
  const station: Station | undefined = target < 0 ? book.groupTanks(~target)?.[0] : book.station(target);
  const volumeL = book.bodies[station?.body ?? -1]?.volumeL ?? Number.NaN;
  const added = addedBy(remedy, book.units, amountOf(facts, row), unitOfAmount(facts, row), volumeL);
  if ("unknown" in added) return unknownAmount(added.unknown);
  const isLiquid = remedy.unit === "uL/L" || !Number.isNaN(remedy.activeMgPerML);
  const product = productFor(remedy, added.added, volumeL, isLiquid ? "volume" : "mass");
  if ("unknown" in product) return unknownAmount(product.unknown);
  if (!isLiquid) {
    const grams = product.product / 1000;
    return { grams, value: grams, symbol: "g", unknown: "" };
  }
  const unknown = `what a mL of ${remedy.name} weighs nobody states`;
  return { grams: Number.NaN, value: product.product, symbol: "mL", unknown };
}

const unknownAmount = (unknown: string): FoodAmount => ({
  grams: Number.NaN,
  value: Number.NaN,
  symbol: "",
  unknown,
});
