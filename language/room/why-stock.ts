import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf, noName } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "./ledger.ts";
import { type Why, whyEntry } from "./why.ts";

/**
 * Why the book has so many animals of a species in a tank: the last count, and every arrival, birth, loss, move and sale since, each
 * with the number it leads to.
 * @param end how many of the ledger's entries about animals count; all where it is left out
 */
export function whyAnimals(
  ledger: Ledger,
  tank: Tank,
  species: string,
  what: string,
  end = ledger.animals.length,
): Why {
  const { animals } = ledger;
  const holding = ledger.stock.known(tank.id, nameOf(species));
  const from: Why[] = [];
  let book = Number.NaN;
  let isCounted = false;
  if (holding !== undefined) {
    for (let at = end - 1; at >= 0 && !isCounted; at--) {
      if (animals.tag[at] !== holding.index) continue;
      if (from.length === 0) book = animals.second[at]!;
      isCounted = isCountOfAll(ledger, at);
      from.unshift(whyMovement(ledger, at, isCounted));
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

function whyMovement({ animals }: Ledger, at: number, isCount: boolean): Why {
  const before = animals.first[at]!;
  const after = animals.second[at]!;
  const moved = after - (Number.isNaN(before) ? 0 : before);
  const value = isCount
    ? `= ${number(after)}`
    : `${moved < 0 ? "-" : "+"} ${number(Math.abs(moved))} = ${number(after)}`;
  return {
    ...whyEntry({ block: animals.block[at]!, row: animals.row[at]! }),
    value: Number.isNaN(after) ? "not known" : value,
  };
}

/** A count of the species, and not of one lot of it: the book rests on it. */
function isCountOfAll({ animals }: Ledger, at: number): boolean {
  const block = animals.block[at]!;
  const row = rowOfId(block, animals.row[at]!);
  return (
    row >= 0 &&
    kindOfRow(block.facts, row) === Kind.count &&
    block.facts.ints[row * intsPerRow + Col.lot] === noName
  );
}

const number = (value: number): string => formatNumber(value, 6);
