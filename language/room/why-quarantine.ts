import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Moment } from "./observer.ts";
import type { Quarantine } from "./quarantine.ts";
import type { PutOff, QuarantineArrival } from "./quarantine-period.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** Why a quarantine lasts as long as it does: what came in, what put it off, and what the room states. */

/** Of the clock itself. */
export const quarantineSource =
  "The clock counts from the last animal into the water: Australian Department of Agriculture, Fisheries and Forestry 2025, industry notice 41-2025. How many days is the keeper's to state";

/** What decided on the end comes first, then what came before it. */
export function whyQuarantine(book: Book, { putOff, end, signs }: Quarantine): Why {
  return {
    what: "quarantine",
    value: `until ${spokenDay(end)}${signs.length === 0 ? "" : " at the earliest"}`,
    formula: `${formulaOf(book)}${signs.length === 0 ? "" : "; while signs last, counted from the day that is asked for"}`,
    source: quarantineSource,
    from: [...putOff].reverse().map(whyPutOff).concat(stated(book)),
  };
}

/** How a row put the end off. */
export function whyPutOffTo(book: Book, putOff: PutOff): Why {
  const { from, to, at } = putOff;
  return {
    what: "quarantine",
    value: Number.isNaN(from)
      ? `until ${spokenDay(to)}`
      : `until ${spokenDay(to)}, before ${spokenDay(from)}`,
    formula: formulaOf(book),
    source: quarantineSource,
    from: [whyEntry(at), ...stated(book)],
  };
}

/** The clock that animals have of their own, whatever comes after them. */
export function whyArrival(book: Book, { end, at }: QuarantineArrival): Why {
  return {
    what: "its own clock",
    value: `until ${spokenDay(end)}`,
    formula: `day in + ${formatNumber(book.quarantineDays)} d, stated in the room`,
    source: quarantineSource,
    from: [whyEntry(at), ...stated(book, ["quarantine"])],
  };
}

export function whyFromOutside(book: Book, came: Moment & { readonly end: number }): Why {
  return {
    what: "animals from outside among them",
    value: `until ${spokenDay(came.end)}`,
    formula: `day of the last arrival + ${formatNumber(book.quarantineDays)} d, stated in the room`,
    source: quarantineSource,
    from: [whyEntry(came)],
  };
}

function whyPutOff({ to, at }: PutOff): Why {
  return { ...whyEntry(at), value: `until ${spokenDay(to)}` };
}

function formulaOf({ quarantineDays, clearDays }: Book): string {
  const all = `${formatNumber(quarantineDays)} d`;
  return Number.isNaN(clearDays)
    ? `last animal in, loss or sign of disease + ${all}; a dose does not put it off, as the room states no “clear”`
    : `the later of: last animal in + ${all}; last loss, sign of disease or dose + ${formatNumber(clearDays)} d`;
}

/** What the room states of it. */
function stated({ room, roomPlace }: Book, words: readonly string[] = ["quarantine", "clear"]): Why[] {
  if (room === undefined || roomPlace === undefined) return [];
  return room.properties
    .filter(({ word }) => words.includes(word))
    .map(({ start, end }) => whyStated({ block: roomPlace.block, start, end }));
}
