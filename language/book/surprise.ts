import type { Dimension } from "../quantity/dimension.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, nearestUnits, type Unit } from "../quantity/units.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import type { Compiled } from "./compile.ts";
import { findParameter } from "./parameters.ts";
import type { Mend } from "./problem.ts";
import { describe, kindNoun } from "./slot-words.ts";

/** What to say of a piece that fills no slot. */

export interface Said {
  readonly code: string;
  readonly message: string;
  readonly mends: readonly Mend[];
}

export interface Surrounding {
  /** The item it stands in names a parameter already. */
  readonly afterParameter: boolean;
  /** The entry takes a text that it does not have yet. */
  readonly wantsProse: boolean;
  /** All from here to the end could be put in quotes. */
  readonly mayBeProse: boolean;
  /** What to say of a number that is needed and missing; undefined if none is. */
  readonly lacksNumber: string | undefined;
  readonly lacksDestination: boolean;
  readonly lacksDate: boolean;
  /** The piece behind the last. */
  readonly end: number;
}

/** What a word behind a number without a unit may have been meant to be; undefined if it is like no unit. */
export function nearUnit(pieces: Pieces, at: number, wanted: readonly Dimension[]): Said | undefined {
  if (pieces.kind[at] !== Piece.word || at === 0) return undefined;
  if (pieces.kind[at - 1] !== Piece.quantity || pieces.unit[at - 1] !== noUnit) return undefined;
  const text = pieces.word[at]!;
  const fits = (unit: Unit): boolean => wanted.length === 0 || wanted.includes(unit.dimension);
  // What the ambiguous spellings near it may mean, too.
  const ambiguous = nearest(text, AMBIGUOUS.keys()).flatMap((spelling) => AMBIGUOUS.get(spelling) ?? []);
  const units = [...nearestUnits(text), ...ambiguous].filter(fits);
  const symbols = [...new Set(units.map((unit) => unit.symbol))].slice(0, 3);
  if (symbols.length === 0) return undefined;
  const message = `“${text}” is no unit that I know${didYouMean(symbols)}`;
  return { code: "unit/unknown", message, mends: symbols.map(replaceBy) };
}

/** What to say of a piece that has no place where it stands. */
export function surprise(compiled: Compiled, pieces: Pieces, at: number, around: Surrounding): Said {
  const { word, list } = compiled.signature;
  const said = (message: string, mends: readonly Mend[]): Said => ({
    code: "entry/unexpected",
    message,
    mends,
  });
  if (pieces.kind[at] !== Piece.word) {
    const isNumber = pieces.kind[at] === Piece.sexed || pieces.kind[at] === Piece.quantity;
    if (isNumber && around.lacksDate) return said("a date is written year, month, day: 2026-03-01", []);
    const isComma = pieces.kind[at] === Piece.comma;
    return said(
      `${kindNoun(pieces, at)} has no place here: ${word} takes ${describe(compiled)}`,
      isComma ? [{ title: "Delete the comma", text: "" }] : [],
    );
  }
  const text = pieces.word[at]!;
  const comma: Mend = { title: "Put a comma before it", text: ",", ...behind(pieces, at) };
  const hasWords = compiled.names.some((slot) => compiled.slots[slot]!.filling.is === "words");
  if (hasWords || (around.afterParameter && findParameter(text) !== undefined))
    return said(`a comma is missing before “${text}”`, [comma]);
  if (around.lacksDestination && around.lacksNumber === undefined)
    return whereTo(compiled, pieces, at, around.end);
  const near = nearest(text, [...compiled.leads.keys(), ...compiled.choices.keys()]);
  const mayQuote = around.mayBeProse || around.wantsProse;
  const mends = [...near.map(replaceBy), ...(mayQuote ? [quoting(pieces, at)] : [])];
  if (around.wantsProse && near.length === 0) return said("prose stands in quotes", [quoting(pieces, at)]);
  if (around.lacksNumber !== undefined)
    return said(`“${text}” is no number: ${word} needs ${around.lacksNumber}`, near.map(replaceBy));
  if (near.length > 0) return said(`“${text}” says nothing in “${word}”${didYouMean(near)}`, mends);
  if (list === true && !around.afterParameter) {
    return said(`“${text}” says nothing here: items are parted by commas, and prose stands in quotes`, [
      comma,
      ...mends,
    ]);
  }
  return said(`“${text}” says nothing in “${word}”; it takes ${describe(compiled)}`, mends);
}

/** A tank that animals were moved to, without the arrow. */
function whereTo(compiled: Compiled, pieces: Pieces, at: number, end: number): Said {
  const isTo = pieces.word[at] === "to" && at + 1 < end && pieces.kind[at + 1] === Piece.word;
  const name = isTo ? at + 1 : at;
  const arrow = `-> ${pieces.word[name]}`;
  return {
    code: "entry/unexpected",
    message: `where to is written with an arrow: ${compiled.signature.word} ... ${arrow}`,
    mends: [{ title: `Write “${arrow}”`, text: arrow, start: pieces.start[at]!, end: pieces.end[name]! }],
  };
}

/** The place right behind the piece before. */
function behind(pieces: Pieces, at: number): { start: number; end: number } {
  const end = pieces.end[at - 1]!;
  return { start: end, end };
}

/** Whether all from here to the end of the line could be put in quotes as its text. */
export function isProse(pieces: Pieces, at: number, end: number): boolean {
  if (end !== pieces.count) return false;
  for (let piece = at; piece < end; piece++) {
    if (pieces.kind[piece] === Piece.text || pieces.kind[piece] === Piece.openText) return false;
  }
  return true;
}

/** Puts the rest of the line in quotes. */
function quoting(pieces: Pieces, at: number): Mend {
  const start = pieces.start[at]!;
  const end = pieces.end[pieces.count - 1]!;
  return {
    title: "Put it in quotes",
    text: '"',
    start,
    end: start,
    also: { text: '"', start: end, end },
  };
}

const replaceBy = (text: string): Mend => ({ title: `Write “${text}”`, text });
