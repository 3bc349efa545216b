import { either } from "../quantity/nearest.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import type { Compiled } from "./compile.ts";
import type { Filling, Slot } from "./slots.ts";

/** Slots and pieces in the words of messages. */

/** What a signature takes, for messages: `an amount, batch or flow, from WATER`. */
export function describe(compiled: Compiled): string {
  if (compiled.slots.length === 0) return "no arguments";
  return compiled.slots
    .map((slot) => (slot.lead === undefined ? shortNoun(slot) : `“${slot.lead}” ${nounOf(slot.filling)}`))
    .join(", ");
}

function shortNoun(slot: Slot): string {
  return slot.filling.is === "choice" ? either(slot.filling.words) : nounOf(slot.filling);
}

/** What fills a slot, in words. */
export function nounOf(filling: Filling): string {
  switch (filling.is) {
    case "quantity":
      return withArticle(filling.noun);
    case "reading":
      return "its reading";
    case "count":
      return withArticle(filling.noun ?? "number of animals");
    case "name":
      return withArticle(filling.noun ?? filling.of.join(" or "));
    case "choice":
      return either(filling.words);
    case "words":
      return withArticle(filling.noun);
    case "text":
      return withArticle(filling.noun);
    case "destination":
      return "-> and a tank";
    case "date":
      return "a date";
    case "lengths":
      return "length x width x height";
  }
}

const withArticle = (noun: string): string => (/^[aeio]/.test(noun) ? `an ${noun}` : `a ${noun}`);

/** What a piece is, in words. */
export function kindNoun(pieces: Pieces, at: number): string {
  switch (pieces.kind[at]) {
    case Piece.quantity:
    case Piece.sexed:
      return `the number ${sourceForm(pieces, at)}`;
    case Piece.text:
    case Piece.openText:
      return "a text";
    case Piece.comma:
      return "a comma";
    case Piece.destination:
      return "an arrow";
    case Piece.dash:
      return "a dash";
    case Piece.time:
      return "a time of day";
    case Piece.date:
      return "a date";
    case Piece.group:
      return "a group";
    case Piece.semicolon:
      return "a semicolon";
    case Piece.equals:
      return "=";
    case Piece.lengths:
      return "what is so long and so wide";
    case Piece.nameRange:
      return "a range of names";
    case Piece.columnUnit:
      return "what is in brackets";
    default:
      return "this";
  }
}

const signs = ["", "<", ">", "", "<= ", ">= ", "~"];

/** The number as it was written, without its unit. */
export function numberForm(pieces: Pieces, at: number): string {
  const sign = signs[pieces.mark[at]!] ?? "";
  const range = pieces.mark[at] === Mark.range ? `..${pieces.second[at]}` : "";
  return `${sign}${pieces.value[at]}${range}`;
}

/** The number with its unit. */
export function sourceForm(pieces: Pieces, at: number): string {
  if (pieces.kind[at] === Piece.sexed) return `${pieces.value[at]}.${pieces.second[at]}.${pieces.third[at]}`;
  const unit = pieces.unit[at]!;
  const symbol = unit === noUnit ? "" : (ambiguousSpelling(unit) ?? UNITS[unit]?.symbol ?? "");
  return `${numberForm(pieces, at)} ${symbol}`.trim();
}
