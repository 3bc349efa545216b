import type { Book } from "../book/book.ts";
import { everything, kindWords } from "../book/duty-words.ts";
import { Kind } from "../book/entries/registry.ts";
import { nameOf, noName } from "../book/interner.ts";
import type { Gear } from "../book/stations.ts";

/** Which gears an entry is about, beside its target: one by its name, or by its kind where it is. */

const byWord = new WeakMap<Book, ReadonlyMap<number, readonly Gear[]>>();
const none: readonly Gear[] = [];
const allName = nameOf(everything);

/** The gears by their kind in words, `kit` and `kits`; made once a book. */
function kindsOf(book: Book): ReadonlyMap<number, readonly Gear[]> {
  const known = byWord.get(book);
  if (known !== undefined) return known;
  const made = new Map<number, Gear[]>();
  for (const gear of book.gears)
    for (const word of kindWords(gear.sort)) {
      const name = nameOf(word);
      made.set(name, [...(made.get(name) ?? []), gear]);
    }
  byWord.set(book, made);
  return made;
}

/**
 * @param target the name of a station, or of a group its complement
 * @param subject what is named, or no name
 */
export function gearsMeant(book: Book, target: number, subject: number, kind: number): readonly Gear[] {
  const named = book.station(subject);
  if (named?.kind === "gear") return [named as Gear];
  const isLook = kind === Kind.check;
  if (subject === noName || subject === allName)
    return isLook ? book.gears.filter(({ on }) => isAt(book, target, on)) : none;
  const ofKind = kindsOf(book).get(subject);
  if (ofKind === undefined) return none;
  const here = ofKind.filter(({ on }) => isAt(book, target, on));
  // Of several filters nobody knows which was serviced; looked over are all.
  return isLook || here.length === 1 ? here : none;
}

function isAt(book: Book, target: number, on: string): boolean {
  if (target < 0) return book.groupTanks(~target)?.some(({ name }) => name === on) ?? false;
  const station = book.station(target);
  return station?.kind === "room" || (station !== undefined && station.name === on);
}
