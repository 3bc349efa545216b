import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { kindOfRow } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Food, Remedy } from "../book/stations.ts";
import { median } from "../science/median.ts";
import { medianInterval } from "../science/median-interval.ts";
import type { FoodAmount } from "./food-amount.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { rowFinder } from "./rare-rows.ts";
import { openedUntil } from "./shelf-life.ts";
import { type Stocked, stockedOf, stockedRows } from "./stocked.ts";
import { isBefore, type RowMoment, type SupplyRow } from "./supply-rows.ts";

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
  /** The last day it is good by its pack, and by when it was opened; NaN where nobody can say. */
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

/**
 * Whether anything can be wrong with what is on hand: where nothing was weighed or bought, and nothing states until when it is good, a year
 * of feedings need not be added up.
 */
export function isStocked(logbook: Logbook, day: number): boolean {
  const { foods, remedies } = logbook.book;
  const isStated = ({ expires, opened }: Food | Remedy): boolean =>
    !Number.isNaN(expires) || !Number.isNaN(opened);
  return [...foods.values(), ...remedies].some(isStated) || findAnchors(logbook, day).length > 0;
}

const findAnchors = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  return kind === Kind.buy || kind === Kind.left;
});

/** Every food and remedy that is defined, bought, weighed or used, as of the end of a day. */
export function pantryOn(logbook: Logbook, day: number): readonly PantryItem[] {
  return keptFor(logbook, `pantry ${day}`, () => {
    const { book } = logbook;
    const found = stockedRows(logbook, day - lookBackDays + 1, day);
    const named = [...book.foods.keys(), ...book.remedies.map(({ name }) => name)].map(nameOf);
    const subjects = new Set([...named, ...found.keys()]);
    return [...subjects].map((subject) => itemOf(book, wordOf(subject), found.get(subject) ?? [], day));
  });
}

/**
 * One food or remedy as of the end of a day, or just before an entry of that day.
 * @param before the entry that does not count any more
 */
export function pantryItem(logbook: Logbook, name: string, day: number, before?: RowMoment): PantryItem {
  const make = (isIn: (row: Stocked) => boolean): PantryItem => {
    const rows = stockedOf(logbook, name, day - lookBackDays + 1, day);
    return itemOf(logbook.book, name, rows.filter(isIn), day);
  };
  if (before !== undefined) return make((row) => isBefore(row, before));
  return keptFor(logbook, `pantry ${name} ${day}`, () => make(() => true));
}

function itemOf(book: Book, name: string, rows: readonly Stocked[], day: number): PantryItem {
  const food = book.foods.get(name);
  const remedy = food === undefined ? book.remedy(name) : undefined;
  const lastLeft = rows.findLastIndex(({ kind }) => kind === Kind.left);
  const since = rows.slice(Math.max(0, lastLeft));
  const anchors = since.filter(({ isUse }) => !isUse);
  const first = anchors[0];
  // What was used before the first purchase was of something else.
  const used = first === undefined ? [] : since.slice(since.indexOf(first)).filter(({ isUse }) => isUse);
  const all = rows.filter(({ isUse }) => isUse);
  const unit = unitOf((anchors.length > 0 ? anchors : all).map(({ amount }) => amount));
  const inUnit = ({ amount }: Stocked): number => measureIn(amount, unit);
  // Asked for only where some entry says no amount.
  let known: number | undefined;
  const usual = (): number =>
    (known ??= median(all.flatMap((row) => (hasAmount(row.amount) ? [inUnit(row)] : []))));
  const usedBy = (row: Stocked): number => (hasAmount(row.amount) ? inUnit(row) : usual()) * row.times;
  const unknown = whyUnknown(first, unit, [...anchors, ...used], usual);
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
    unwritten: used.filter(({ amount }) => !hasAmount(amount)).length,
    use,
    daysLeft,
    runsOut: Number.isFinite(daysLeft.best) ? day + Math.ceil(daysLeft.best) : Number.NaN,
    expires: (food ?? remedy)?.expires ?? Number.NaN,
    openedUntil: openedUntil(food ?? remedy ?? notStated, food?.kind),
    lastUsed: all.at(-1),
  };
}

const notStated = { expires: Number.NaN, opened: Number.NaN, keepsDays: Number.NaN };

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
  first: Stocked | undefined,
  unit: string,
  counted: readonly Stocked[],
  usual: () => number,
): string {
  if (first === undefined) return "neither weighed nor bought in the last year";
  if (unit === "") return "weighed and bought in units that cannot be added";
  for (const { amount, isUse } of counted) {
    if (!hasAmount(amount)) {
      if (isUse && !Number.isNaN(usual())) continue;
      return amount.unknown;
    }
    if (!Number.isNaN(measureIn(amount, unit))) continue;
    return amount.unknown === "" ? `written in ${amount.symbol} and reckoned in ${unit}` : amount.unknown;
  }
  return "";
}

/** The median of whole weeks up to the day, from the first on in which it was used. */
function useOf(all: readonly Stocked[], usedBy: (row: Stocked) => number, day: number): Use | undefined {
  const first = all[0]?.day ?? Number.POSITIVE_INFINITY;
  const weeks = Math.min(weeksAtMost, Math.floor((day - first + 1) / 7));
  if (weeks < weeksAtLeast) return undefined;
  const totals = new Array<number>(weeks).fill(0);
  for (let at = all.length - 1; at >= 0; at--) {
    const week = Math.floor((day - all[at]!.day) / 7);
    if (week >= weeks) break;
    totals[week]! += usedBy(all[at]!);
  }
  const found = totals.some(Number.isNaN) ? undefined : medianInterval(totals, wantedCoverage);
  if (found === undefined) return undefined;
  const { low, high, coverage } = found;
  return { aDay: found.median / 7, low: low / 7, high: high / 7, coverage, weeks };
}

/** The tanks that an entry names, in words as it is written. */
export function targetWords({ target }: Pick<SupplyRow, "target">): string {
  return target < 0 ? `@${wordOf(~target)}` : wordOf(target);
}
