import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf, noName } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "./ledger.ts";
import type { Moment } from "./observer.ts";
import { partyOf } from "./party.ts";
import type { Series } from "./series.ts";
import type { Holding } from "./stock.ts";
import { type Why, whyEntry } from "./why.ts";

/** The book of a species, or of one lot of it, in a tank. */
interface Booked {
  readonly series: Series;
  readonly holding: Holding | undefined;
  readonly isOfLot: boolean;
}

function booked(ledger: Ledger, tank: Tank, species: string, lot: string): Booked {
  return lot === ""
    ? { series: ledger.animals, holding: ledger.stock.known(tank.id, nameOf(species)), isOfLot: false }
    : {
        series: ledger.lots,
        holding: ledger.lotStock.known(tank.id, partyOf(nameOf(species), nameOf(lot))),
        isOfLot: true,
      };
}

/**
 * Why the book has so many animals of a species in a tank: the last count, and every arrival, birth, loss, move and sale since, each
 * with the number it leads to.
 * @param end how many of the ledger's entries about animals count; all where it is left out
 * @param lot of this lot alone
 */
export function whyAnimals(
  ledger: Ledger,
  tank: Tank,
  species: string,
  what: string,
  end = Number.POSITIVE_INFINITY,
  lot = "",
): Why {
  return whyBook(booked(ledger, tank, species, lot), what, end);
}

/** Why the book had so many just before an entry; undefined if the entry tells nothing here. */
export function whyAnimalsBefore(
  ledger: Ledger,
  at: Moment,
  tank: Tank,
  species: string,
  lot: string,
  what: string,
): Why | undefined {
  const book = booked(ledger, tank, species, lot);
  if (book.holding === undefined) return undefined;
  const end = book.series.find(at.time, at.block, at.row, book.holding.index);
  return end < 0 ? undefined : whyBook(book, what, end);
}

function whyBook({ series, holding, isOfLot }: Booked, what: string, end: number): Why {
  const from: Why[] = [];
  let book = Number.NaN;
  let isCounted = false;
  if (holding !== undefined) {
    for (let at = Math.min(end, series.length) - 1; at >= 0 && !isCounted; at--) {
      if (series.tag[at] !== holding.index) continue;
      if (from.length === 0) book = series.second[at]!;
      isCounted = isCount(series, at, isOfLot);
      from.unshift(whyMovement(series, at, isCounted));
    }
  }
  return {
    what,
    value: Number.isNaN(book) ? "not known" : number(book),
    formula: isCounted
      ? "last count + arrivals + births + moves in - losses - moves out - sales"
      : "arrivals + births + moves in - losses - moves out - sales; never counted",
    from,
  };
}

function whyMovement(series: Series, at: number, isCount: boolean): Why {
  const before = series.first[at]!;
  const after = series.second[at]!;
  const moved = after - (Number.isNaN(before) ? 0 : before);
  const value = isCount
    ? `= ${number(after)}`
    : `${moved < 0 ? "-" : "+"} ${number(Math.abs(moved))} = ${number(after)}`;
  return {
    ...whyEntry({ block: series.block[at]!, row: series.row[at]! }),
    value: Number.isNaN(after) ? "not known" : value,
  };
}

/** Whether an entry is a count of all that a book is about: the book rests on it. A count of a lot is none of the species. */
function isCount(series: Series, at: number, isOfLot: boolean): boolean {
  const block = series.block[at]!;
  const row = rowOfId(block, series.row[at]!);
  return (
    row >= 0 &&
    kindOfRow(block.facts, row) === Kind.count &&
    (isOfLot || block.facts.ints[row * intsPerRow + Col.lot] === noName)
  );
}

const number = (value: number): string => formatNumber(value, 6);
