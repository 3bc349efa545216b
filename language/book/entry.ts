import { nextLine } from "../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { compile } from "./compile.ts";
import { kindOf } from "./entries/registry.ts";
import { Col, intsPerRow } from "./facts.ts";
import type { EntryKind } from "./kind.ts";
import { LineRoles } from "./line.ts";
import { Matcher } from "./match.ts";
import { filledBy, type Item, readValue, type Value } from "./reading.ts";
import { readSheetHead, type SheetColumn } from "./sheet.ts";
import { type Block, rowOfId } from "./source.ts";

/** The lines of a day as objects, for what is looked at. */

export type DayLine = EntryLine | SheetLine | RowLine;

interface Common {
  /** From the first to the last piece. */
  readonly start: number;
  readonly end: number;
  readonly indent: number;
  readonly time: Value | undefined;
}

export interface EntryLine extends Common {
  readonly is: "entry";
  readonly target: Value | undefined;
  readonly kindWord: Value | undefined;
  readonly kind: EntryKind | undefined;
  readonly items: readonly Item[];
  readonly note: Value | undefined;
  /** False if a problem keeps it out of the book. */
  readonly counts: boolean;
}

export interface SheetLine extends Common {
  readonly is: "sheet";
  readonly word: Value;
  readonly columns: readonly SheetColumn[];
  /** Heads and units in brackets, as they stand. */
  readonly cells: readonly Value[];
}

export interface RowLine extends Common {
  readonly is: "row";
  readonly target: Value | undefined;
  readonly columns: readonly SheetColumn[];
  /** The cells, the text at the end among them. */
  readonly cells: readonly Value[];
}

const matcher = new Matcher();

class LineReader implements LineSink {
  readonly lines: DayLine[] = [];
  private readonly roles = new LineRoles();
  private columns: readonly SheetColumn[] = [];
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  head(): void {}

  broken({ isHead, first, indent }: BrokenLine): void {
    if (!isHead && this.roles.broken(this.text, first, indent)) this.columns = [];
  }

  line(pieces: Pieces, indent: number): void {
    const role = this.roles.roleOf(pieces, indent);
    const value = (at: number): Value | undefined =>
      at >= 0 && at < pieces.count ? readValue(pieces, at, this.text) : undefined;
    const common: Common = {
      start: pieces.start[0]!,
      end: pieces.end[pieces.count - 1]!,
      indent,
      time: value(role.time),
    };
    if (role.is === "sheet") {
      this.columns = role.isMisspelt ? [] : readSheetHead(pieces, role.word + 1, []);
      this.lines.push({
        ...common,
        is: "sheet",
        word: value(role.word)!,
        columns: this.columns,
        cells: from(pieces, role.word + 1, value),
      });
    } else if (role.is === "row") {
      this.lines.push({
        ...common,
        is: "row",
        target: value(role.target),
        columns: this.columns,
        cells: from(pieces, role.target + 1, value),
      });
    } else {
      this.lines.push({ ...common, ...this.entry(pieces, role.target, role.kindPiece, role.kind, value) });
    }
  }

  private entry(
    pieces: Pieces,
    target: number,
    kindPiece: number,
    kindNumber: number,
    value: (at: number) => Value | undefined,
  ): Omit<EntryLine, keyof Common> {
    const kind = kindNumber < 0 ? undefined : kindOf(kindNumber);
    const targetKind = pieces.kind[target];
    const isTarget = targetKind === Piece.word || targetKind === Piece.group;
    const base = {
      is: "entry" as const,
      target: isTarget ? value(target) : undefined,
      kindWord: value(kindPiece),
      kind,
    };
    if (kind === undefined) return { ...base, items: [], note: undefined, counts: false };
    const compiled = compile(kind);
    matcher.problems = [];
    matcher.match(compiled, pieces, kindPiece, kindPiece + 1, pieces.count);
    const { items, note } = filledBy(matcher, compiled, pieces, this.text);
    return { ...base, items, note, counts: matcher.counts };
  }
}

function from(pieces: Pieces, begin: number, value: (at: number) => Value | undefined): Value[] {
  return Array.from({ length: Math.max(0, pieces.count - begin) }, (_, at) => value(begin + at)!);
}

const read = new WeakMap<Block, { readonly revision: number; readonly lines: readonly DayLine[] }>();

/** The lines of a day block; kept until the block is edited. Empty for a block that is no day. */
export function linesOf(block: Block): readonly DayLine[] {
  const lines = linesOnce(block);
  if (lines.length > 0) read.set(block, { revision: block.revision, lines });
  return lines;
}

/** The same without keeping it: for a walk over a whole log. */
export function linesOnce(block: Block): readonly DayLine[] {
  if (block.kind !== "day") return [];
  const known = read.get(block);
  if (known?.revision === block.revision) return known.lines;
  const reader = new LineReader(block.counted);
  parseBlock(block.counted, reader);
  return reader.lines;
}

/** The line that holds an offset of the block, from its first to its last piece. */
export function lineAt(block: Block, offset: number): DayLine | undefined {
  return linesOf(block).find((line) => offset >= line.start && offset <= line.end);
}

/** An entry, or one item of it, as it stands in its line. */
export interface EntryAt {
  readonly line: DayLine;
  /** The item of the line's list; of a sheet the cell. */
  readonly item: Item;
  readonly start: number;
  readonly end: number;
}

/** The entry of a row that is referred to; undefined if an edit took it away. */
export function entryOf(block: Block, id: number): EntryAt | undefined {
  const row = rowOfId(block, id);
  if (row < 0) return undefined;
  const start = block.facts.ints[row * intsPerRow + Col.start]!;
  const end = block.facts.ints[row * intsPerRow + Col.end]!;
  const line = linesOf(block).find((each) => start >= each.start && start <= each.end);
  if (line === undefined) return undefined;
  if (line.is === "row") {
    const cell = line.cells.find((each) => each.start === start);
    return { line, item: cell === undefined ? {} : { cell }, start, end };
  }
  if (line.is === "sheet") return undefined;
  return { line, item: itemWithin(line, start, end), start, end };
}

/**
 * Where a slot of a row stands: of a sheet its cell, else the first of the slots that is filled, else the whole entry. Reads the one
 * line and not its block: a log may have many findings.
 */
export function placeOfSlot(block: Block, id: number, ...slots: string[]): { start: number; end: number } {
  const row = rowOfId(block, id);
  if (row < 0) return { start: 0, end: 0 };
  const start = block.facts.ints[row * intsPerRow + Col.start]!;
  const end = block.facts.ints[row * intsPerRow + Col.end]!;
  if (slots.length === 0) return { start, end };
  const known = read.get(block);
  if (known?.revision === block.revision) {
    const value = firstOf(entryOf(block, id)?.item, slots);
    return value === undefined ? { start, end } : { start: value.start, end: value.end };
  }
  let begin = start;
  while (begin > 0 && !isLineEnd(block.text.charCodeAt(begin - 1))) begin--;
  const text = block.text.slice(begin, nextLine(block.text, begin));
  const reader = new LineReader(text);
  parseBlock(text, reader, true);
  const line = reader.lines[0];
  // The row of a sheet, read alone, is an entry without a kind: its cell is a row of facts and stands where it stands.
  if (line?.is !== "entry" || line.kind === undefined) return { start, end };
  const value = firstOf(itemWithin(line, start - begin, end - begin), slots);
  return value === undefined ? { start, end } : { start: value.start + begin, end: value.end + begin };
}

/** The item of an entry that stands in a part of its line. What all items share may stand in any of them and tells nothing. */
function itemWithin({ items, kind }: EntryLine, start: number, end: number): Item {
  const own = kind?.slots.filter((slot) => slot.each === true) ?? [];
  const within = items.find((item) =>
    own.some(({ name }) => {
      const value = item[name];
      return value !== undefined && value.start >= start && value.end <= end;
    }),
  );
  return within ?? items[0] ?? {};
}

function firstOf(item: Item | undefined, slots: readonly string[]): Value | undefined {
  for (const slot of slots) if (item?.[slot] !== undefined) return item[slot];
  return undefined;
}

const isLineEnd = (code: number): boolean => code === 0x0a || code === 0x0d;
