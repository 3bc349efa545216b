import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import { Mark, type MarkKind, Piece, type PieceKind, type Pieces } from "../syntax/pieces.ts";
import type { Compiled } from "./compile.ts";
import { type Matcher, unfilled } from "./match.ts";

/** What fills a slot, as an object: for definitions, and for the entry that is being looked at. */
export interface Value {
  readonly kind: PieceKind;
  readonly start: number;
  readonly end: number;
  /** A word, a name, or the inside of a text; else empty. */
  readonly text: string;
  /** The last name of a range of names. */
  readonly lastText: string;
  readonly value: number;
  readonly second: number;
  readonly third: number;
  readonly unit: number;
  readonly mark: MarkKind;
  /** The number of the word chosen, counted from 1. */
  readonly code: number;
}

/** The filled slots of one item, by the names of the slots. */
export type Item = Readonly<Record<string, Value | undefined>>;

export interface Filled {
  readonly items: readonly Item[];
  readonly note: Value | undefined;
}

/** The value of one piece. @param text the text that the piece's offsets are in */
export function readValue(pieces: Pieces, at: number, text: string, code = 0): Value {
  const kind = pieces.kind[at] as PieceKind;
  const start = pieces.start[at]!;
  const end = pieces.end[at]!;
  const isNumber =
    kind === Piece.quantity || kind === Piece.sexed || kind === Piece.lengths || kind === Piece.time;
  let inside = pieces.word[at]!;
  if (kind === Piece.text || kind === Piece.openText) inside = unquote(text.slice(start, end));
  else if (kind === Piece.quantity || kind === Piece.date || kind === Piece.time)
    inside = text.slice(start, end);
  return {
    kind,
    start,
    end,
    text: inside,
    lastText: kind === Piece.nameRange ? pieces.lastWord[at]! : "",
    value: isNumber ? pieces.value[at]! : Number.NaN,
    second: isNumber ? pieces.second[at]! : Number.NaN,
    third: isNumber ? pieces.third[at]! : Number.NaN,
    unit: isNumber && kind !== Piece.time ? pieces.unit[at]! : noUnit,
    mark: isNumber && kind !== Piece.time ? (pieces.mark[at] as MarkKind) : Mark.exact,
    code,
  };
}

/** What the matcher has just matched. */
export function filledBy(matcher: Matcher, compiled: Compiled, pieces: Pieces, text: string): Filled {
  const items: Item[] = [];
  for (let item = 0; item < matcher.items; item++) {
    const values: Record<string, Value> = {};
    compiled.slots.forEach((slot, at) => {
      const piece = matcher.pieceOf(compiled, item, at);
      if (piece !== unfilled)
        values[slot.name] = readValue(pieces, piece, text, matcher.codeOf(compiled, item, at));
    });
    items.push(values);
  }
  return { items, note: matcher.note === unfilled ? undefined : readValue(pieces, matcher.note, text) };
}

/** The inside of a quoted text. */
export function unquote(quoted: string): string {
  const closed = quoted.length > 1 && quoted.endsWith('"') && !/(?:^|[^\\])(?:\\\\)*\\"$/.test(quoted);
  return quoted.slice(1, closed ? -1 : undefined).replace(/\\(.)/g, "$1");
}

/** The text in quotes, as it is written in a log. Line ends become spaces: a text ends on its line. */
export function quote(text: string): string {
  return `"${text.replace(/[\r\n]+/g, " ").replace(/[\\"]/g, "\\$&")}"`;
}

/** The spelling of a value's unit, or an empty text. */
export function unitText(value: Value): string {
  return value.unit === noUnit ? "" : (ambiguousSpelling(value.unit) ?? UNITS[value.unit]?.symbol ?? "");
}
