import type { Book } from "../book/book.ts";
import type { FoodKind } from "../book/definitions/food.ts";
import { Kind } from "../book/entries/registry.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Tank } from "../book/stations.ts";
import type { Logbook } from "./logbook.ts";
import { type SupplyRow, supplyRows } from "./supply-rows.ts";

/** What a tank was fed. */

/** One food of one feeding. */
export interface Meal extends SupplyRow {
  readonly food: string;
  /** Undefined for a food that is not defined, or states no kind. */
  readonly kindOfFood: FoodKind | undefined;
}

const feedings: ReadonlySet<number> = new Set([Kind.feed]);
const cleanings: ReadonlySet<number> = new Set([Kind.clean]);
const nothing = nameOf("none");

/** What a tank was fed from the beginning of a day to the end of another, in order of time: by itself, its system, or a group it is in. */
export function mealsOf(logbook: Logbook, tank: Tank, fromDay: number, untilDay: number): Meal[] {
  const { book } = logbook;
  const names = targetsOf(book, tank);
  return supplyRows(logbook, feedings, fromDay, untilDay)
    .filter(({ target, subject }) => names.has(target) && subject !== nothing)
    .map((row) => mealOf(book, row));
}

export function mealOf(book: Book, row: SupplyRow): Meal {
  const food = wordOf(row.subject);
  return { ...row, food, kindOfFood: book.foods.get(food)?.kind };
}

/** Days on which it was written that a tank gets nothing: `feed none`, the latest last. */
export function fastsOf(logbook: Logbook, tank: Tank, fromDay: number, untilDay: number): SupplyRow[] {
  const names = targetsOf(logbook.book, tank);
  return supplyRows(logbook, feedings, fromDay, untilDay).filter(
    ({ target, subject }) => names.has(target) && subject === nothing,
  );
}

/** Entries of which each is one time, however many foods it lists. @param ofFood which foods count */
export function timesFed(meals: readonly Meal[], ofFood: (meal: Meal) => boolean): Meal[] {
  const found: Meal[] = [];
  for (const meal of meals) {
    const last = found.at(-1);
    const isSame = last !== undefined && last.block === meal.block && last.entry === meal.entry;
    if (!isSame && ofFood(meal)) found.push(meal);
  }
  return found;
}

/** The cleanings that took a surface which the tank leaves for grazing. */
export interface GrazedCleaning {
  readonly row: SupplyRow;
  readonly parts: readonly string[];
}

/**
 * Days of a window on which a tank left something to graze on: at least one of the surfaces that it states as `grazed` was not cleaned on
 * that day. How fast they grow again nobody states, so the next day counts again: *common practice, no source*.
 */
export function grazedDays(logbook: Logbook, tank: Tank, fromDay: number, untilDay: number): number[] {
  if (tank.grazed.length === 0) return [];
  const taken = new Map<number, Set<string>>();
  for (const { row, parts } of grazedCleanings(logbook, tank, fromDay, untilDay)) {
    const known = taken.get(row.day) ?? new Set();
    for (const part of parts) known.add(part);
    taken.set(row.day, known);
  }
  const days: number[] = [];
  for (let day = Math.max(fromDay, orFirst(tank.from)); day <= untilDay && !(day > tank.until); day++)
    if ((taken.get(day)?.size ?? 0) < tank.grazed.length) days.push(day);
  return days;
}

const orFirst = (day: number): number => (Number.isNaN(day) ? Number.NEGATIVE_INFINITY : day);

export function grazedCleanings(
  logbook: Logbook,
  tank: Tank,
  fromDay: number,
  untilDay: number,
): GrazedCleaning[] {
  const names = targetsOf(logbook.book, tank);
  return supplyRows(logbook, cleanings, fromDay, untilDay).flatMap((row) => {
    if (!names.has(row.target)) return [];
    const parts = grazedPartsOf(tank, wordOf(row.subject));
    return parts.length === 0 ? [] : [{ row, parts }];
  });
}

/**
 * The grazed surfaces that a cleaned part takes: itself, `glass` each glass, `all` each of them. A cleaning without a part is the usual
 * one, which leaves what is stated to be left.
 */
export function grazedPartsOf({ grazed }: Tank, part: string): string[] {
  if (part === "all") return [...grazed];
  return grazed.filter((surface) => surface === part || (part === "glass" && surface.endsWith("-glass")));
}

const targets = new WeakMap<Book, Map<Tank, ReadonlySet<number>>>();

/** The targets that stand for a tank: its own name, its system's, and those of its groups as their complements. */
export function targetsOf(book: Book, tank: Tank): ReadonlySet<number> {
  let known = targets.get(book);
  if (known === undefined) {
    known = new Map();
    targets.set(book, known);
  }
  let names = known.get(tank);
  if (names === undefined) {
    const made = new Set([nameOf(tank.name)]);
    if (tank.system !== "") made.add(nameOf(tank.system));
    for (const [name, { tanks }] of book.groups) if (tanks.includes(tank)) made.add(~nameOf(name));
    known.set(tank, made);
    names = made;
  }
  return names;
}
