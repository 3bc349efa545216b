import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, unitOfAmount } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Food, Remedy, Station } from "../book/stations.ts";
import { medianInterval } from "../science/median-interval.ts";
import { amountOf } from "./amounts.ts";
import { addedBy, productFor } from "./dose-amount.ts";
import { type FoodAmount, foodAmount } from "./food-amount.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { isBefore, type RowMoment, type SupplyRow, supplyRows } from "./supply-rows.ts";

/** What is on hand: weighed or bought, less what was used since, how long it lasts, and whether it is still good. */

export interface PantryItem {
  readonly name: string;
  readonly food: Food | undefined;
  readonly remedy: Remedy | undefined;
  /** What it is reckoned in: `g`, `mL`, `cube`; empty where nothing can be reckoned. */
  readonly unit: string;
  /** NaN where it cannot be reckoned: `unknown` says why. */
  readonly onHand: number;
  readonly unknown: string;
  /** The weighing or purchase that it is reckoned from, and purchases since. */
  readonly anchors: readonly SupplyRow[];
  /** What was used since, and how many of those entries say no amount: each counts as the usual one. */
  readonly used: number;
  readonly usedTimes: number;
  readonly unwritten: number;
  /** Used a day in the last weeks; undefined where it was used in too few of them to tell. */
  readonly use: Use | undefined;
  /** How long it lasts at that use; NaN where nobody can say, Infinity where nothing is used. */
  readonly daysLeft: { readonly best: number; readonly low: number; readonly high: number };
  /** The day on which it runs out; NaN where nobody can say. */
  readonly runsOut: number;
  /** The last day it is good by its pack, and by when it was opened; NaN where that is not stated. */
  readonly expires: number;
  readonly openedUntil: number;
  /** The last entry that used it; undefined where there is none in the last year. */
  readonly lastUsed: SupplyRow | undefined;
}

export interface Use {
  readonly aDay: number;
  readonly low: number;
  readonly high: number;
  readonly coverage: number;
  /** Weeks it is the median of. */
  readonly weeks: number;
}

/** What was weighed longer ago than this is no word on what is there now. */
const lookBackDays = 366;
const weeksAtMost = 8;
const weeksAtLeast = 3;
/** What the interval of the use is to cover, if the weeks are enough. */
const wantedCoverage = 0.9;

const kinds: ReadonlySet<number> = new Set([Kind.feed, Kind.dose, Kind.buy, Kind.left]);
const uses: ReadonlySet<number> = new Set([Kind.feed, Kind.dose]);

/** Every food and remedy that is defined, bought, weighed or used, as of the end of a day. */
export function pantryOn(logbook: Logbook, day: number): readonly PantryItem[] {
  return keptFor(logbook, `pantry ${day}`, () => {
    const { book } = logbook;
    const bySubject = new Map<number, SupplyRow[]>();
    for (const name of [...book.foods.keys(), ...book.remedies.map((each) => each.name)])
      bySubject.set(nameOf(name), []);
    for (const row of supplyRows(logbook, kinds, day - lookBackDays + 1, day)) {
      if (row.subject === none) continue;
      const known = bySubject.get(row.subject);
      if (known === undefined) bySubject.set(row.subject, [row]);
      else known.push(row);
    }
    return [...bySubject].map(([subject, rows]) => itemOf(logbook, wordOf(subject), rows, day));
  });
}

const none = nameOf("none");

/**
 * One food or remedy as of the end of a day, or just before an entry of that day.
 * @param before the entry that does not count any more
 */
export function pantryItem(logbook: Logbook, name: string, day: number, before?: RowMoment): PantryItem {
  if (before === undefined)
    return keptFor(logbook, `pantry ${name} ${day}`, () =>
      itemOf(logbook, name, rowsOf(logbook, name, day), day),
    );
  const rows = rowsOf(logbook, name, day).filter((row) => isBefore(row, before));
  return itemOf(logbook, name, rows, day);
}

const rowsOf = (logbook: Logbook, name: string, day: number): SupplyRow[] =>
  supplyRows(logbook, kinds, day - lookBackDays + 1, day, nameOf(name));

function itemOf(logbook: Logbook, name: string, rows: readonly SupplyRow[], day: number): PantryItem {
  const { book } = logbook;
  const food = book.foods.get(name);
  const remedy = food === undefined ? book.remedy(name) : undefined;
  const amounts = new Map(rows.map((row) => [row, amountIn(logbook, food, remedy, name, row)]));
  const lastLeft = rows.findLastIndex(({ kind }) => kind === Kind.left);
  const since = rows.slice(Math.max(0, lastLeft));
  const anchors = since.filter(({ kind }) => !uses.has(kind));
  const first = anchors[0];
  // What was used before the first purchase was of something else.
  const used =
    first === undefined ? [] : since.slice(since.indexOf(first)).filter(({ kind }) => uses.has(kind));
  const all = rows.filter(({ kind }) => uses.has(kind));
  const unit = unitOf((anchors.length > 0 ? anchors : all).map((row) => amounts.get(row)!));
  const inUnit = (row: SupplyRow): number => measureIn(amounts.get(row)!, unit);
  const usual = medianOf(all.flatMap((row) => (hasAmount(amounts.get(row)!) ? [inUnit(row)] : [])));
  const usedBy = (row: SupplyRow): number =>
    (hasAmount(amounts.get(row)!) ? inUnit(row) : usual) * timesOf(logbook, row);
  const unknown = whyUnknown(first, unit, [...anchors, ...used], amounts, usual);
  const total = used.reduce((sum, row) => sum + usedBy(row), 0);
  const onHand = unknown === "" ? anchors.reduce((sum, row) => sum + inUnit(row), 0) - total : Number.NaN;
  const use = useOf(all, usedBy, day);
  const left = (aDay: number | undefined): number =>
    aDay === undefined ? Number.NaN : Math.max(0, onHand) / aDay;
  const daysLeft = { best: left(use?.aDay), low: left(use?.high), high: left(use?.low) };
  return {
    name,
    food,
    remedy,
    unit,
    onHand,
    unknown,
    anchors,
    used: total,
    usedTimes: used.length,
    unwritten: used.filter((row) => !hasAmount(amounts.get(row)!)).length,
    use,
    daysLeft,
    runsOut: Number.isFinite(daysLeft.best) ? day + Math.ceil(daysLeft.best) : Number.NaN,
    expires: food?.expires ?? Number.NaN,
    openedUntil: food === undefined ? Number.NaN : food.opened + food.keepsDays,
    lastUsed: all.at(-1),
  };
}

const hasAmount = ({ value }: FoodAmount): boolean => !Number.isNaN(value);

/** Grams where everything has a weight, else the one unit in which all is written; empty where there are several. */
function unitOf(amounts: readonly FoodAmount[]): string {
  const written = amounts.filter(hasAmount);
  if (written.length === 0) return "";
  if (written.every(({ grams }) => !Number.isNaN(grams))) return "g";
  const symbols = new Set(written.map(({ symbol }) => symbol));
  return symbols.size === 1 ? written[0]!.symbol : "";
}

const measureIn = ({ grams, value, symbol }: FoodAmount, unit: string): number =>
  unit === "g" ? grams : symbol === unit ? value : Number.NaN;

function whyUnknown(
  first: SupplyRow | undefined,
  unit: string,
  counted: readonly SupplyRow[],
  amounts: ReadonlyMap<SupplyRow, FoodAmount>,
  usual: number,
): string {
  if (first === undefined) return "neither weighed nor bought in the last year";
  if (unit === "") return "weighed and bought in units that cannot be added";
  for (const row of counted) {
    const amount = amounts.get(row)!;
    if (!hasAmount(amount)) {
      if (uses.has(row.kind) && !Number.isNaN(usual)) continue;
      return amount.unknown;
    }
    if (!Number.isNaN(measureIn(amount, unit))) continue;
    return amount.unknown === "" ? `written in ${amount.symbol} and reckoned in ${unit}` : amount.unknown;
  }
  return "";
}

/** The entry of a group is one of each of its tanks; a concentration dosed is that of all the water. */
function timesOf(logbook: Logbook, { target }: SupplyRow): number {
  return target < 0 ? (logbook.book.groupTanks(~target)?.length ?? 0) : 1;
}

function amountIn(
  logbook: Logbook,
  food: Food | undefined,
  remedy: Remedy | undefined,
  name: string,
  row: SupplyRow,
): FoodAmount {
  const { units } = logbook.book;
  if (remedy === undefined || row.kind !== Kind.dose)
    return foodAmount(food, name, units, row.facts, row.row);
  const written = foodAmount(undefined, name, units, row.facts, row.row);
  if (written.symbol === "g" || written.symbol === "mL") return written;
  return doseAmount(logbook, remedy, row);
}

/** The product that a dose takes which says drops, or what it makes of the water: by the inverse of how doses are reckoned. */
function doseAmount(logbook: Logbook, remedy: Remedy, { facts, row, target }: SupplyRow): FoodAmount {
  const { book } = logbook;
  const station: Station | undefined = target < 0 ? book.groupTanks(~target)?.[0] : book.station(target);
  const volumeL = book.bodies[station?.body ?? -1]?.volumeL ?? Number.NaN;
  const value = amountOf(facts, row);
  const added = addedBy(remedy, book.units, value, unitOfAmount(facts, row), volumeL);
  if ("unknown" in added) return nothing(added.unknown);
  const isLiquid = remedy.unit === "uL/L" || !Number.isNaN(remedy.activeMgPerML);
  const product = productFor(remedy, added.added, volumeL, isLiquid ? "volume" : "mass");
  if ("unknown" in product) return nothing(product.unknown);
  const grams = isLiquid ? Number.NaN : product.product / 1000;
  return isLiquid
    ? {
        grams,
        value: product.product,
        symbol: "mL",
        unknown: `what a mL of ${remedy.name} weighs nobody states`,
      }
    : { grams, value: grams, symbol: "g", unknown: "" };
}

const nothing = (unknown: string): FoodAmount => ({
  grams: Number.NaN,
  value: Number.NaN,
  symbol: "",
  unknown,
});

/** The median of whole weeks up to the day, from the first on in which it was used. */
function useOf(all: readonly SupplyRow[], usedBy: (row: SupplyRow) => number, day: number): Use | undefined {
  const first = all[0]?.day ?? Number.POSITIVE_INFINITY;
  const weeks = Math.min(weeksAtMost, Math.floor((day - first + 1) / 7));
  if (weeks < weeksAtLeast) return undefined;
  const totals = new Array<number>(weeks).fill(0);
  for (const row of all) {
    const week = Math.floor((day - row.day) / 7);
    if (week < weeks) totals[week]! += usedBy(row);
  }
  const found = totals.some(Number.isNaN) ? undefined : medianInterval(totals, wantedCoverage);
  if (found === undefined) return undefined;
  const { median, low, high, coverage } = found;
  return { aDay: median / 7, low: low / 7, high: high / 7, coverage, weeks };
}

function medianOf(figures: readonly number[]): number {
  if (figures.length === 0) return Number.NaN;
  const sorted = [...figures].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** The tanks that an entry names, in words as it is written. */
export function targetWords({ facts, row }: SupplyRow): string {
  const target = facts.ints[row * intsPerRow + Col.target]!;
  return target < 0 ? `@${wordOf(~target)}` : wordOf(target);
}
