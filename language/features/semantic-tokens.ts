import type { Book } from "../book/book.ts";
import { compile } from "../book/compile.ts";
import { kindNumber, kindOf } from "../book/entries/registry.ts";
import { findParameter } from "../book/parameters.ts";
import type { Block } from "../book/source.ts";
import { parseBlock } from "../syntax/parser.ts";
import { Piece } from "../syntax/pieces.ts";
import { type LaidLine, laidLines, type PieceAt, problemsOf } from "./layout.ts";
import { type NameUse, usesIn } from "./names.ts";
import type { Span, View } from "./view.ts";

/**
 * What each piece of a file is, for colours: names by what they name, words by what they do. A line that no grammar reads has none, and keeps
 * the colours of the plain grammar.
 */

/** Own types, each with the standard type whose colour it has where a theme says nothing of it. */
export const tokenTypes = {
  date: "number",
  time: "number",
  definition: "keyword",
  property: "property",
  entry: "function",
  tank: "class",
  system: "class",
  gear: "class",
  group: "namespace",
  species: "type",
  food: "struct",
  remedy: "struct",
  water: "struct",
  case: "label",
  lot: "label",
  order: "label",
  parameter: "parameter",
  /** `from`, `at`, `per`: what introduces an argument. */
  lead: "keyword",
  /** One of a few words, or a word of an open vocabulary. */
  word: "enumMember",
  quantity: "number",
  unit: "keyword",
  text: "string",
  comment: "comment",
} as const;

export type TokenType = keyof typeof tokenTypes;

/** `definition` where a name is given or a day begins; `undefined` where one stands for nothing that is defined. */
export const tokenModifiers = ["definition", "undefined"] as const;
export type TokenModifier = (typeof tokenModifiers)[number];

export interface SemanticToken extends Span {
  readonly type: TokenType;
  readonly modifier: TokenModifier | undefined;
}

/** The tokens of a file, or of the blocks a stretch touches, in order. None overlap, none goes over a line. */
export function semanticTokens(view: View, within?: Span): SemanticToken[] {
  const { book } = view.checked;
  return view.source.blocks.flatMap((block) => {
    const end = block.start + block.text.length;
    if (within !== undefined && (block.start > within.end || end < within.start)) return [];
    return tokensOf(book, block)
      .map((token) => ({ ...token, start: block.start + token.start, end: block.start + token.end }))
      .filter((token) => within === undefined || (token.start <= within.end && token.end >= within.start));
  });
}

function tokensOf(book: Book, block: Block): SemanticToken[] {
  const isDay = block.kind === "day";
  const tokens: SemanticToken[] = [];
  const put = (type: TokenType, start: number, end: number, modifier?: TokenModifier): void => {
    if (end > start) tokens.push({ type, start, end, modifier });
  };
  const names = new Map<number, NameUse>();
  for (const use of usesIn(book, block)) names.set(use.start, use);
  const units = unitStarts(block.text);
  for (const line of laidLines(block.text, isDay, problemsOf(block))) {
    const parts = partsOf(line, isDay, block.kind === "definition");
    line.pieces.forEach((piece, index) => {
      const use = names.get(nameStart(piece));
      if (use !== undefined) {
        put(use.sort, use.start, use.end, use.is === "definition" ? "definition" : undefinedName(book, use));
        // The other end of a range of names.
        const other =
          piece.kind === Piece.nameRange
            ? [...names.values()].find((each) => each.end === piece.end)
            : undefined;
        if (other !== undefined && other.start > use.start)
          put(other.sort, other.start, other.end, undefinedName(book, other));
        return;
      }
      const unit = units.get(piece.start);
      switch (piece.kind) {
        case Piece.quantity:
        case Piece.sexed:
        case Piece.lengths:
          put("quantity", piece.start, trimmedEnd(block.text, piece.start, unit ?? piece.end));
          if (unit !== undefined) put("unit", unit, piece.end);
          break;
        case Piece.columnUnit:
          if (unit !== undefined) put("unit", unit, trimmedEnd(block.text, unit, piece.end - 1));
          break;
        case Piece.text:
        case Piece.openText:
          put("text", piece.start, piece.end);
          break;
        case Piece.date:
          put("date", piece.start, piece.end, isDay && line.is === "head" ? "definition" : undefined);
          break;
        case Piece.time:
          put("time", piece.start, piece.end);
          break;
        case Piece.word: {
          const type = parts[index];
          if (type !== undefined) put(type, piece.start, piece.end);
          break;
        }
      }
    });
    if (line.comment >= 0) put("comment", line.comment, line.end);
  }
  return tokens.sort((a, b) => a.start - b.start);
}

function undefinedName(book: Book, use: NameUse): TokenModifier | undefined {
  const byEntries = use.sort === "case" || use.sort === "lot" || use.sort === "order";
  return byEntries || book.names.get(use.name)?.definition.word === use.sort ? undefined : "undefined";
}

/** Where the name of a piece begins: behind `@`, an arrow or a quote. */
function nameStart({ kind, start, end, word }: PieceAt): number {
  if (kind === Piece.text) return start + 1;
  return kind === Piece.group || kind === Piece.destination ? end - word.length : start;
}

/** What the words of a line are, where they are no names. */
function partsOf(
  { is, role, pieces }: LaidLine,
  isDay: boolean,
  isDefinition: boolean,
): (TokenType | undefined)[] {
  if (is === "head")
    return pieces.map((_, index) => (index === 0 && isDefinition ? "definition" : undefined));
  if (isDay && role === "sheet")
    return pieces.map(({ word }) =>
      word === "sheet" ? "entry" : findParameter(word) === undefined ? "word" : "parameter",
    );
  if (isDay)
    return role === "entry"
      ? entryParts(pieces, pieces[0]?.kind === Piece.time ? 1 : 0)
      : pieces.map(() => undefined);
  return propertyParts(pieces);
}

/** `target` is the index of the piece before the word of the entry. */
function entryParts(pieces: readonly PieceAt[], target: number): (TokenType | undefined)[] {
  const kind = kindNumber(pieces[target + 1]?.word ?? "");
  const leads = kind === undefined ? undefined : compile(kindOf(kind)).leads;
  const takesParameters = kind !== undefined && kindOf(kind).slots.some(isParameter);
  return pieces.map(({ word }, index) => {
    if (index === target) return word === "room" ? "definition" : undefined;
    if (index === target + 1) return kind === undefined ? undefined : "entry";
    if (index < target) return undefined;
    if (leads?.has(word)) return "lead";
    return takesParameters && findParameter(word) !== undefined ? "parameter" : "word";
  });
}

const isParameter = ({
  filling,
}: {
  readonly filling: { readonly is: string; readonly of?: unknown };
}): boolean => filling.is === "name" && Array.isArray(filling.of) && filling.of[0] === "parameter";

const dutyWords: ReadonlySet<string> = new Set(["every", "least", "most", "per", "at"]);
const ofParameters: ReadonlySet<string> = new Set(["limits", "content", "units"]);

function propertyParts(pieces: readonly PieceAt[]): (TokenType | undefined)[] {
  let property = "";
  let isFresh = true;
  let act = "";
  return pieces.map(({ kind, word }, index) => {
    if (kind === Piece.semicolon) {
      isFresh = true;
      return undefined;
    }
    if (isFresh) {
      isFresh = false;
      property = word;
      act = "";
      return "property";
    }
    const isDuty = property === "every" || property === "at";
    if (property === "at" && index > 0 && pieces[index - 1]!.word === "at") return "property";
    if (isDuty && act === "" && kindNumber(word) !== undefined) {
      act = word;
      return "entry";
    }
    if (dutyWords.has(word)) return "lead";
    const takesParameters = ofParameters.has(property) || act === "test";
    return takesParameters && findParameter(word) !== undefined ? "parameter" : "word";
  });
}

/** Where the unit of each quantity begins, by where the quantity begins. */
function unitStarts(text: string): Map<number, number> {
  const starts = new Map<number, number>();
  const take = (pieces: Parameters<Parameters<typeof parseBlock>[1]["line"]>[0]): void => {
    for (let at = 0; at < pieces.count; at++) {
      const kind = pieces.kind[at];
      const isNumber = kind === Piece.quantity || kind === Piece.lengths || kind === Piece.columnUnit;
      if (isNumber && pieces.unitStart[at]! < pieces.end[at]!)
        starts.set(pieces.start[at]!, pieces.unitStart[at]!);
    }
  };
  parseBlock(text, { head: take, line: take, broken: () => {} });
  return starts;
}

function trimmedEnd(text: string, start: number, end: number): number {
  return start + text.slice(start, end).trimEnd().length;
}
