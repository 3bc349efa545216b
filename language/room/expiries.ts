import { spokenDay } from "../book/dates.ts";
import type { Gear, Place, ShelfLife } from "../book/stations.ts";
import { dutyOn } from "./due.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type PantryItem, pantryOn } from "./pantry.ts";
import { goodUntil } from "./shelf-life.ts";

/** What is due to be replaced: by the day on its pack, by when it was opened, by how long it lasts. */

export interface Expiry {
  readonly name: string;
  readonly title: string;
  readonly sort: "food" | "remedy" | "gear";
  /** The last day on which it is good; of what lasts, the day it is due to be replaced. */
  readonly day: number;
  /** Whole days past that day; 0 on it, below 0 before it. */
  readonly late: number;
  readonly by: "expires" | "opened" | "lasts";
  /** `good until 31 March by its pack`. */
  readonly why: string;
  /** Where it is stated. */
  readonly place: Place;
}

/** So many days ahead it is told. A choice of this tool: time to order a new one. */
export const expiryAheadDays = 14;
/** What was fed last longer ago than this is not in use any more. */
export const inUseDays = 28;

/**
 * What is past its day on a day, or will be within some, the earliest first. A food is told of while it is fed or on hand, a remedy or a gear
 * while it is defined, unless the reckoning of a remedy says that none is left.
 */
export function expiriesOn(logbook: Logbook, day: number, ahead = expiryAheadDays): readonly Expiry[] {
  return keptFor(logbook, `expiries ${day} ${ahead}`, () =>
    [
      ...pantryOn(logbook, day).flatMap((item) => ofShelf(item, day)),
      ...logbook.book.gears.flatMap((gear) => gearExpiry(logbook.ledgerOf(gear), gear, day) ?? []),
    ]
      .filter(({ late }) => late >= -ahead)
      .sort((a, b) => a.day - b.day || (a.name < b.name ? -1 : 1)),
  );
}

function ofShelf(item: PantryItem, day: number): Expiry[] {
  const { name, food, remedy } = item;
  const of = food ?? remedy;
  const good = of === undefined ? undefined : goodUntil(of, food?.kind);
  if (of === undefined || good === undefined || !isThere(item, day - good.day, day)) return [];
  return [
    {
      name,
      title: of.title,
      sort: food === undefined ? "remedy" : "food",
      late: day - good.day,
      ...good,
      why: goodText(of, good, day),
      place: placeOfProperty(of.place, good.by),
    },
  ];
}

/** What is used up is not told of; a food that is past its day only while somebody feeds it or some is known to be there. */
function isThere({ onHand, food, lastUsed }: PantryItem, late: number, day: number): boolean {
  if (!Number.isNaN(onHand)) return onHand > 0;
  return food === undefined || late <= 0 || (lastUsed !== undefined && lastUsed.day > day - inUseDays);
}

/** Of a gear the earlier of its own day and of how long it lasts. @param ledger that of the gear */
export function gearExpiry(ledger: Ledger, gear: Gear, day: number): Expiry | undefined {
  const shelf = gearShelf(ledger, gear, day);
  const life = gear.duties.find(({ isLife }) => isLife);
  const due = life === undefined ? Number.NaN : dutyOn(ledger, life, day).due;
  const base = { name: gear.name, title: gear.title, sort: "gear" as const };
  if (life !== undefined && Number.isFinite(due) && !(due > (shelf?.day ?? Number.NaN))) {
    const why = `lasts ${life.form.periodDays} d: to be replaced on ${spokenDay(due, day)}`;
    return { ...base, day: due, late: day - due, by: "lasts", why, place: life.place };
  }
  if (shelf === undefined || gear.place === undefined) return undefined;
  const place = placeOfProperty(gear.place, shelf.by);
  return { ...base, ...shelf, late: day - shelf.day, why: goodText(gear, shelf, day), place };
}

/** How long a gear is good by what is stated; what was replaced after the day that is stated is another one. */
export function gearShelf(ledger: Ledger, gear: Gear, day: number): ReturnType<typeof goodUntil> {
  const good = goodUntil(gear);
  const last = ledger.duties.lastReplaced(gear, day);
  return good === undefined || last > good.day ? undefined : good;
}

/** `good until 31 March by its pack`, `opened on 1 January and good until 31 March`. */
export function goodText(
  { opened }: ShelfLife,
  good: NonNullable<ReturnType<typeof goodUntil>>,
  day: number,
): string {
  const until = `good until ${spokenDay(good.day, day)}`;
  return good.by === "expires" ? `${until} by its pack` : `opened on ${spokenDay(opened, day)} and ${until}`;
}

/** Where a definition states a property; its name where it does not. */
export function placeOfProperty(name: Place, word: string): Place {
  const found = name.block.definition?.properties.find((each) => each.word === word);
  return found === undefined ? name : { block: name.block, start: found.start, end: found.end };
}
