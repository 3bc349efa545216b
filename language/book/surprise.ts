import type { Dimension } from "../quantity/dimension.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, nearestUnits, type Unit } from "../quantity/units.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import type { Compiled } from "./compile.ts";
import { didYouMean, nearest } from "./nearest.ts";
import { findParameter } from "./parameters.ts";
import type { Mend } from "./problem.ts";
import { describe, kindNoun, withArticle } from "./slot-words.ts";

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
    const isComma = pieces.kind[at] === Piece.comma;
    return said(
      `${kindNoun(pieces, at)} has no place here: ${word} takes ${describe(compiled)}`,
      isComma ? [{ title: "Delete the comma", text: "" }] : [],
    );
  }
  const text = pieces.word[at]!;
  const behind = pieces.end[at - 1]!;
  const comma: Mend = { title: "Put a comma before it", text: ",", start: behind, end: behind };
  if (around.afterParameter && findParameter(text) !== undefined)
    return said(`a comma is missing before “${text}”`, [comma]);
  const near = nearest(text, [...compiled.leads.keys(), ...compiled.choices.keys()]);
  const mends = [...near.map(replaceBy), ...(around.mayBeProse ? [quoting(pieces, at)] : [])];
  if (around.wantsProse) return said("prose stands in quotes", mends);
  if (near.length > 0)
    return said(`“${text}” says nothing in ${withArticle(word)}${didYouMean(near)}`, mends);
  if (list === true && !around.afterParameter) {
    return said(`“${text}” says nothing here: items are parted by commas, and prose stands in quotes`, [
      comma,
      ...mends,
    ]);
  }
  return said(`“${text}” says nothing in ${withArticle(word)}; it takes ${describe(compiled)}`, mends);
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
