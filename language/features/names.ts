import { namesBetween } from "../book/bind-groups.ts";
import type { Book } from "../book/book.ts";
import { type Compiled, compile } from "../book/compile.ts";
import type { Property } from "../book/definition.ts";
import { definitionKinds } from "../book/definitions/registry.ts";
import { entryKinds, Kind, kindOf } from "../book/entries/registry.ts";
import { Col, type Facts, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf } from "../book/interner.ts";
import { LineRoles } from "../book/line.ts";
import { Matcher } from "../book/match.ts";
import { findParameter } from "../book/parameters.ts";
import type { Item, Value } from "../book/reading.ts";
import { unquote } from "../book/reading.ts";
import type { Namespace, Slot } from "../book/slots.ts";
import type { Block, Source } from "../book/source.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import type { DefinitionWord } from "../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { lineOfText } from "./lines.ts";
import { blockAt, type View } from "./view.ts";

/**
 * Where names stand: in definitions, entries, sheets and duties, each with what it is a name of. For definition, references, rename,
 * highlights and colours.
 *
 * A name of a log is one thing for all kinds of definitions; cases, lots and orders are named by the entries that use them and are apart.
 */

export type NameSort = Exclude<DefinitionWord, "room"> | "case" | "lot" | "order";

export interface Named {
  readonly name: string;
  readonly sort: NameSort;
}

export interface NameUse extends Named {
  readonly block: Block;
  /** The name alone, without `@`, arrow or quotes. Offsets in the block. */
  readonly start: number;
  readonly end: number;
  /** `definition` where the name is given: the head of a definition. */
  readonly is: "definition" | "use";
  /** The range of names, `r1 .. r12`, that it is an end of or lies within; a name within has the span of the range. */
  readonly range: NameRange | undefined;
}

export interface NameRange {
  readonly first: string;
  readonly last: string;
  readonly start: number;
  readonly end: number;
}

/** The name at an offset of the file. */
export function nameAt(view: View, offset: number): NameUse | undefined {
  const found = blockAt(view, offset);
  if (found === undefined) return undefined;
  const { block, at } = found;
  const uses = usesIn(view.checked.book, block).filter((use) => at >= use.start && at <= use.end);
  // Between two that touch, the one that begins here.
  return uses.find((use) => use.start === at) ?? uses[0];
}

/** All places of a name, in order of files and lines; in one file only, if one is given. */
export function usesOf(checked: CheckedLogbook, named: Named, only?: Source): NameUse[] {
  const { book, logbook } = checked;
  const blocks = only === undefined ? logbook.blocks() : only.blocks;
  return blocks.flatMap((block) => (mayMention(block, named) ? usesIn(book, block, named) : []));
}

/** The names in a block, or the places of one of them. */
export function usesIn(book: Book, block: Block, named?: Named): NameUse[] {
  const finder = new NameFinder(book, block, named);
  if (block.kind === "definition") finder.definition();
  else if (block.kind === "day") {
    if (named !== undefined && isToldByFacts(block, named)) finder.lines(linesWith(block, named.name));
    else parseBlock(block.text, finder);
  }
  return finder.uses;
}

/**
 * Whether what a block's facts name is all it names, each in a line that tells it alone. A text in quotes, a line that does not count, the heads of a
 * sheet and a row without a reading are in no column.
 */
function isToldByFacts({ facts, text }: Block, { sort }: Named): boolean {
  if (sort === "lot" || sort === "order" || facts.problems.length > 0 || text.includes("sheet")) return false;
  const isUntold = untoldKinds.get(sort);
  if (isUntold === undefined) return true;
  for (let row = 0; row < facts.count; row++) if (isUntold.has(kindOfRow(facts, row))) return false;
  return true;
}

/** Kinds of entries with a slot for a name that is in no column: a bath has a case, a sample a species. */
const untoldKinds: ReadonlyMap<string, ReadonlySet<number>> = new Map(
  (["case", "species", "remedy", "tank", "gear"] as const).flatMap((sort) => {
    const kinds = entryKinds.flatMap(({ slots }, kind) =>
      slots.some((slot) => slot.column === undefined && namespacesOf(slot).includes(sort)) ? [kind] : [],
    );
    return kinds.length === 0 ? [] : [[sort, new Set(kinds)] as const];
  }),
);

/** The offsets of the lines whose facts have a name. */
function linesWith({ facts, text }: Block, name: string): number[] {
  const number = nameOf(name);
  const lines: number[] = [];
  for (let row = 0; row < facts.count; row++) {
    if (!hasName(facts, row, number)) continue;
    const { start } = lineOfText(text, facts.ints[row * intsPerRow + Col.start]!);
    if (lines.at(-1) !== start) lines.push(start);
  }
  return lines;
}

function hasName(facts: Facts, row: number, number: number): boolean {
  const at = row * intsPerRow;
  const target = facts.ints[at + Col.target]!;
  if (target === number || target === ~number || facts.ints[at + Col.object] === number) return true;
  if (facts.ints[at + Col.tool] === number) return true;
  return facts.ints[at + Col.subject] === number && kindOfRow(facts, row) !== Kind.test;
}

/** Whether a block may mention a name: by the columns of its facts where they tell, so that few blocks are read again. */
function mayMention(block: Block, named: Named): boolean {
  if (block.kind === "definition") return true;
  if (block.kind !== "day") return false;
  if (!isToldByFacts(block, named)) return block.text.includes(named.name);
  const { facts } = block;
  const number = nameOf(named.name);
  for (let row = 0; row < facts.count; row++) if (hasName(facts, row, number)) return true;
  return false;
}

const matcher = new Matcher();

class NameFinder implements LineSink {
  readonly uses: NameUse[] = [];
  private readonly roles = new LineRoles();
  private readonly book: Book;
  private readonly block: Block;
  private readonly wanted: Named | undefined;
  /** Where the text that is parsed begins in the block. */
  private from = 0;

  constructor(book: Book, block: Block, wanted: Named | undefined) {
    this.book = book;
    this.block = block;
    this.wanted = wanted;
  }

  /** Reads some lines alone, by where they begin. */
  lines(starts: readonly number[]): void {
    for (const start of starts) {
      this.from = start;
      parseBlock(lineOfText(this.block.text, start).text, this, true);
    }
  }

  head(): void {}

  broken({ isHead, first, indent }: BrokenLine): void {
    if (!isHead) this.roles.broken(this.block.text, first, indent);
  }

  line(pieces: Pieces, indent: number): void {
    const role = this.roles.roleOf(pieces, indent);
    if (role.is === "sheet") {
      for (let at = role.word + 1; at < pieces.count; at++)
        if (pieces.kind[at] === Piece.word && findParameter(pieces.word[at]!) === undefined)
          this.piece(pieces, at, ["species"]);
      return;
    }
    if (role.target < pieces.count) {
      if (pieces.kind[role.target] === Piece.word)
        this.piece(pieces, role.target, ["tank", "system", "gear"]);
      else if (pieces.kind[role.target] === Piece.group) this.piece(pieces, role.target, ["group"]);
    }
    if (role.is === "entry" && role.kind >= 0) this.entry(pieces, role.kind, role.kindPiece);
  }

  private entry(pieces: Pieces, kind: number, kindPiece: number): void {
    const compiled: Compiled = compile(kindOf(kind));
    if (!compiled.slots.some((slot) => namespacesOf(slot).length > 0)) return;
    if (this.wanted !== undefined && !this.isWantedBehind(pieces, kindPiece)) return;
    matcher.problems = [];
    matcher.match(compiled, pieces, kindPiece, kindPiece + 1, pieces.count);
    for (let item = 0; item < matcher.items; item++) {
      compiled.slots.forEach((slot, at) => {
        // A slot of the whole line is the same for each item.
        if (item > 0 && slot.each !== true) return;
        const piece = matcher.pieceOf(compiled, item, at);
        if (piece >= 0) this.piece(pieces, piece, namespacesOf(slot), slot);
      });
    }
  }

  private isWantedBehind(pieces: Pieces, kindPiece: number): boolean {
    const { name } = this.wanted!;
    for (let at = kindPiece + 1; at < pieces.count; at++) {
      if (pieces.word[at] === name) return true;
      const [start, end] = [this.from + pieces.start[at]!, this.from + pieces.end[at]!];
      if (isPlain(pieces.kind[at]!) && this.textOf(start, end).includes(name)) return true;
    }
    return false;
  }

  private piece(pieces: Pieces, at: number, of: readonly Namespace[], slot?: Slot): void {
    const kind = pieces.kind[at]!;
    const end = this.from + pieces.end[at]!;
    if (isPlain(kind)) {
      const start = this.from + pieces.start[at]!;
      this.text(start, end, of);
      return;
    }
    const word = pieces.word[at]!;
    if (word === "") return;
    this.add(word, end - word.length, end, of, slot?.filling.is === "text");
  }

  /** A lot or an order that is written as a text, a number or a date. */
  private text(start: number, end: number, of: readonly Namespace[]): void {
    const written = this.textOf(start, end);
    const isQuoted = written.startsWith('"');
    const name = isQuoted ? unquote(written) : written;
    if (!of.some((each) => each === "lot" || each === "order") || name === "") return;
    this.add(name, start + (isQuoted ? 1 : 0), end - (isQuoted ? 1 : 0), of, true);
  }

  /** @param isFree true where any word may stand, so that only a name that is defined is one */
  private add(
    name: string,
    start: number,
    end: number,
    of: readonly Namespace[],
    isFree = false,
    range?: NameRange,
    is: NameUse["is"] = "use",
  ): void {
    const { wanted, block } = this;
    if (wanted !== undefined && wanted.name !== name) return;
    const sort = sortOf(this.book, name, of, isFree);
    if (sort === undefined || (wanted !== undefined && wanted.sort !== sort)) return;
    this.uses.push({ name, sort, block, start, end, is, range });
  }

  private textOf(start: number, end: number): string {
    return this.block.text.slice(start, end);
  }

  definition(): void {
    const { definition } = this.block;
    if (definition === undefined) return;
    const { name, word, nameStart, nameEnd } = definition;
    if (word !== "room" && name !== "")
      this.add(name, nameStart, nameEnd, [word], false, undefined, "definition");
    for (const member of definition.members) this.member(member);
    for (const property of definition.properties) {
      const kind = definitionKinds[word].properties.find((each) => each.word === property.word);
      if (property.duty !== undefined) this.items(property.duty.items, kindOf(property.duty.kind).slots);
      for (const need of property.needs ?? [])
        this.add(need.food, need.start, need.start + need.food.length, ["food", "any"]);
      if (kind === undefined) continue;
      this.items(property.filled.items, kind.slots);
      if (kind.slots.some((slot) => slot.filling.is === "words")) this.words(property);
    }
  }

  private member(value: Value): void {
    if (value.lastText === "") {
      this.add(value.text, value.start, value.end, ["tank"]);
      return;
    }
    const range: NameRange = { first: value.text, last: value.lastText, start: value.start, end: value.end };
    const { wanted } = this;
    this.add(range.first, value.start, value.start + range.first.length, ["tank"], false, range);
    this.add(range.last, value.end - range.last.length, value.end, ["tank"], false, range);
    if (wanted === undefined || wanted.name === range.first || wanted.name === range.last) return;
    if (namesBetween(range.first, range.last).includes(wanted.name))
      this.add(wanted.name, value.start, value.end, ["tank"], false, range);
  }

  private items(items: readonly Item[], slots: readonly Slot[]): void {
    items.forEach((item, index) => {
      for (const slot of slots) {
        const value = item[slot.name];
        const of = namespacesOf(slot);
        if (value === undefined || of.length === 0 || (index > 0 && slot.each !== true)) continue;
        if (isPlain(value.kind)) this.text(value.start, value.end, of);
        else this.add(value.text, value.end - value.text.length, value.end, of, slot.filling.is === "text");
      }
    });
  }

  /** A list of words may name species: what a remedy harms. */
  private words({ start, end, word }: Property): void {
    const from = start + word.length;
    for (const match of this.textOf(from, end).matchAll(/[^\s,]+/g)) {
      const at = from + match.index;
      this.add(match[0], at, at + match[0].length, ["species", "any"]);
    }
  }
}

const isPlain = (kind: number): boolean =>
  kind === Piece.text || kind === Piece.quantity || kind === Piece.date;

/** What a word in a slot may name; nothing for a parameter. */
export function namespacesOf({ filling }: Slot): readonly Namespace[] {
  if (filling.is === "destination") return ["tank"];
  if (filling.is === "text") return filling.of === undefined ? [] : [filling.of];
  if (filling.is !== "name" || filling.of[0] === "parameter") return [];
  return filling.of;
}

const byEntries: ReadonlySet<Namespace> = new Set(["case", "lot", "order"]);

/** What a name is a name of, where it may be one of some namespaces; undefined for a word that is no name. */
function sortOf(book: Book, name: string, of: readonly Namespace[], isFree: boolean): NameSort | undefined {
  const named = of.find((each) => byEntries.has(each));
  if (named !== undefined) return named as NameSort;
  const defined = book.names.get(name)?.definition.word;
  if (defined !== undefined && defined !== "room" && of.includes(defined)) return defined;
  const isWord = name === "room" || name === "own" || isFree || of.includes("any");
  return isWord ? undefined : (of[0] as NameSort);
}
