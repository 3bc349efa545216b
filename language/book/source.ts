import { type BlockKind, type BlockSpan, cutBlocks, type DefinitionWord } from "../syntax/blocks.ts";
import {
  conflictMark,
  countedOf,
  mayHoldMarks,
  type Uncounted,
  uncountedIn,
} from "../syntax/conflict-mark.ts";
import { readDay } from "./day.ts";
import { readDayLike } from "./day-like.ts";
import { type Definition, readDefinition } from "./definition.ts";
import { kindNumber } from "./entries/registry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, noFacts } from "./facts.ts";
import { brokenHead, looseLines, marksIn, readDayHead } from "./heads.ts";
import type { Problem } from "./problem.ts";

/** A block of a file with what it says: a function of its text. Where it stands, and in an edited day what it says, changes in place. */
export interface Block {
  readonly kind: BlockKind;
  readonly file: Source;
  /** Offset of the block in its file; moved when text above it is edited. */
  readonly start: number;
  readonly text: string;
  /** The text with what a merge left and nobody chose blanked out; nearly always the text itself. */
  readonly counted: string;
  /** The day of a day block; NaN if it has no valid date, or is no day block. */
  readonly day: number;
  readonly facts: Facts;
  /**
   * What each row is called from outside: a row that an edit leaves as it was keeps its number, so that what refers to it stays
   * true. Undefined while the numbers are those of the rows.
   */
  readonly ids: Int32Array | undefined;
  readonly definition: Definition | undefined;
  /** Problems of the head. */
  readonly problems: readonly Problem[];
  /** Counts the edits. */
  readonly revision: number;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** The number by which a row is referred to. */
export function idOfRow(block: Block, row: number): number {
  return block.ids === undefined ? row : block.ids[row]!;
}

/** The row with a number; -1 if an edit took it away. */
export function rowOfId(block: Block, id: number): number {
  if (block.ids === undefined) return id < block.facts.count ? id : -1;
  return block.ids.indexOf(id);
}

/** How much has been read: tests hold the work of an edit against it. */
export const readCounts = { blocks: 0 };

/** What an edit did to the blocks of a file. */
export interface BlockChange {
  readonly removed: readonly Block[];
  readonly added: readonly Block[];
  /** A day that is still the same day: its rows before and after that differ. */
  readonly revised: Revision | undefined;
}

export interface Revision {
  readonly block: Block;
  readonly before: Facts;
  /** The rows `from..beforeEnd` became `from..afterEnd`. */
  readonly from: number;
  readonly beforeEnd: number;
  readonly afterEnd: number;
}

const isEntryWord = (word: string): boolean => kindNumber(word) !== undefined;

/** A `.tank` file: its text and its blocks. */
export class Source {
  readonly path: string;
  private content: string;
  private list: Mutable<Block>[];
  /** What a merge left and nobody chose: it stands in the text of its blocks, and is not read. */
  private uncounted: readonly Uncounted[];

  /**
   * @param path what the file is called: a URI or a path, with `/` between folders
   * @param like another state of the file: what it has too, letter for letter, is not read again
   * @param isOutline days are cut and dated, and their lines left unread: there are no facts of them
   */
  constructor(path: string, text: string, like?: Source, isOutline = false) {
    this.path = path;
    this.content = text;
    this.uncounted = uncountedIn(text);
    const known = new Map<string, Block>();
    const days = new Map<number, Block>();
    for (const block of like?.list ?? []) {
      if (block.kind !== "day" || /\n[<|=]{7}/.test(block.text)) continue;
      known.set(block.text, block);
      days.set(block.day, block);
    }
    this.list = cutBlocks(text, isEntryWord).map((span) => {
      const same =
        known.size > 0 && !this.isMarked(span) ? known.get(text.slice(span.start, span.end)) : undefined;
      if (same === undefined || same.kind !== span.kind)
        return this.readBlock(span, text, false, days, isOutline);
      return { ...same, file: this, start: span.start, ids: undefined, revision: 0 };
    });
  }

  get text(): string {
    return this.content;
  }

  get blocks(): readonly Block[] {
    return this.list;
  }

  /**
   * Replaces `start..end` by `inserted`. Only the blocks that the edit touches are cut and read again; the others keep
   * what they say and are moved.
   */
  edit(start: number, end: number, inserted: string): BlockChange {
    const text = this.content.slice(0, start) + inserted + this.content.slice(end);
    const shift = inserted.length - (end - start);
    if (this.uncounted.length > 0 || mayHoldMarks(text)) return this.changeTo(text);
    // The block before is looked at again too: what was its head's neighbour may now be part of it.
    const first = Math.max(0, this.indexAt(start) - 1);
    const from = this.list[first]?.start ?? 0;
    const heads = new Map<number, number>();
    for (let at = this.list.length - 1; at > first; at--) {
      const { start: head } = this.list[at]!;
      if (head <= end) break;
      heads.set(head + shift, at);
    }
    let next = this.list.length;
    const spans = cutBlocks(text, isEntryWord, from, (head) => {
      const met = heads.get(head);
      if (met !== undefined) next = met;
      return met !== undefined;
    });
    this.content = text;
    const old = this.list.slice(first, next);
    const kept = new Set<Block>();
    const made = spans.map((span) => {
      const same = old.find(
        (block) =>
          !kept.has(block) &&
          block.kind === span.kind &&
          block.text.length === span.end - span.start &&
          (block.start === span.start || block.start + shift === span.start) &&
          text.startsWith(block.text, span.start),
      );
      if (same !== undefined) {
        kept.add(same);
        same.start = span.start;
        return same;
      }
      return this.readBlock(span, text, true);
    });
    for (let at = next; at < this.list.length; at++) this.list[at]!.start += shift;
    this.list = [...this.list.slice(0, first), ...made, ...this.list.slice(next)];
    return this.changed(
      old.filter((block) => !kept.has(block)),
      made.filter((block) => !kept.has(block)),
    );
  }

  /** The same where marks of a merge are, or were: they reach over blocks, so all is cut anew, and what reads as it did is kept. */
  private changeTo(text: string): BlockChange {
    const known = new Map<string, Mutable<Block>[]>();
    for (const block of this.list) {
      const key = `${block.kind} ${this.countedIn(block.start, block.text)}`;
      known.set(key, [...(known.get(key) ?? []), block]);
    }
    const old = this.list;
    const kept = new Set<Block>();
    this.content = text;
    this.uncounted = uncountedIn(text);
    this.list = cutBlocks(text, isEntryWord).map((span) => {
      const slice = text.slice(span.start, span.end);
      const key = `${this.kindOf(span)} ${this.countedIn(span.start, slice)}`;
      const same = known.get(key)?.find((block) => !kept.has(block) && block.text === slice);
      if (same === undefined) return this.readBlock(span, text, true);
      kept.add(same);
      same.start = span.start;
      return same;
    });
    return this.changed(
      old.filter((block) => !kept.has(block)),
      this.list.filter((block) => !kept.has(block)),
    );
  }

  private changed(removed: readonly Mutable<Block>[], added: readonly Mutable<Block>[]): BlockChange {
    const [was, is] = [removed[0], added[0]];
    if (
      removed.length === 1 &&
      added.length === 1 &&
      was?.kind === "day" &&
      is?.kind === "day" &&
      was.day === is.day
    ) {
      this.list[this.list.indexOf(is)] = was;
      return { removed: [], added: [], revised: revise(was, is) };
    }
    return { removed, added, revised: undefined };
  }

  /** The index of the block that holds an offset; of the last one for an offset at the end. */
  indexAt(offset: number): number {
    let low = 0;
    let high = this.list.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.list[middle]!.start <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  blockAt(offset: number): Block | undefined {
    return this.list[this.indexAt(offset)];
  }

  /** What of a block's text is read. */
  private countedIn(start: number, text: string): string {
    const end = start + text.length;
    const within = this.uncounted.filter((each) => each.start < end && each.end > start);
    const moved = within.map((each) => ({
      start: Math.max(0, each.start - start),
      end: Math.min(text.length, each.end - start),
    }));
    return countedOf(text, moved);
  }

  /** A block whose head does not count is none: what else stands in it has no head to belong to until one version is chosen. */
  private kindOf({ kind, start }: BlockSpan): BlockKind {
    return this.uncounted.some((each) => start >= each.start && start < each.end) ? "broken" : kind;
  }

  private isMarked({ start, end }: BlockSpan): boolean {
    return this.uncounted.some((each) => each.start < end && each.end > start);
  }

  /** @param days another state of the days, by date */
  private readBlock(
    span: BlockSpan,
    source: string,
    apart = false,
    days?: ReadonlyMap<number, Block>,
    isOutline = false,
  ): Mutable<Block> {
    readCounts.blocks++;
    const slice = source.slice(span.start, span.end);
    // A slice keeps the whole text alive that it was cut from; after an edit that would be one text a keystroke.
    const text = apart ? ` ${slice}`.slice(1) : slice;
    const kind = this.kindOf(span);
    const isMarked = this.isMarked(span);
    const counted = isMarked ? this.countedIn(span.start, text) : text;
    const base = { kind, file: this, start: span.start, text, counted, ids: undefined, revision: 0 };
    if (kind !== span.kind)
      return { ...base, day: Number.NaN, facts: noFacts, definition: undefined, problems: marksIn(text) };
    const lead = text.charCodeAt(0) === 0xfeff ? 1 : 0;
    switch (kind) {
      case "day": {
        const { day, problems } = readDayHead(text, lead);
        if (isOutline) return { ...base, day, facts: noFacts, definition: undefined, problems };
        const known = isMarked ? undefined : days?.get(day);
        const facts = known === undefined ? readDay(counted) : readDayLike(text, known);
        return { ...base, day, facts, definition: undefined, problems };
      }
      case "definition": {
        const word = /^[a-z]+/.exec(text.slice(lead))?.[0] as DefinitionWord;
        const definition = readDefinition(counted, word);
        return { ...base, day: Number.NaN, facts: noFacts, definition, problems: definition.problems };
      }
      case "broken":
        return {
          ...base,
          day: Number.NaN,
          facts: noFacts,
          definition: undefined,
          problems: conflictMark(text.slice(lead)) === undefined ? [brokenHead(text)] : marksIn(text),
        };
      case "prelude":
        return {
          ...base,
          day: Number.NaN,
          facts: noFacts,
          definition: undefined,
          problems: looseLines(counted),
        };
    }
  }
}

/** Gives a day what another reading of it says; rows that are alike at its beginning and end keep their numbers. */
function revise(block: Mutable<Block>, read: Block): Revision {
  const before = block.facts;
  const after = read.facts;
  const most = Math.min(before.count, after.count);
  let from = 0;
  while (from < most && sameRow(before, from, after, from)) from++;
  let alike = 0;
  while (alike < most - from && sameRow(before, before.count - 1 - alike, after, after.count - 1 - alike))
    alike++;
  const ids = new Int32Array(after.count);
  let fresh = 0;
  for (let row = 0; row < before.count; row++) fresh = Math.max(fresh, idOfRow(block, row) + 1);
  fresh = Math.max(fresh, nextId.get(block) ?? 0);
  for (let row = 0; row < after.count; row++) {
    const tail = row - (after.count - alike);
    if (row < from) ids[row] = idOfRow(block, row);
    else if (tail >= 0) ids[row] = idOfRow(block, before.count - alike + tail);
    else ids[row] = fresh++;
  }
  nextId.set(block, fresh);
  block.start = read.start;
  block.text = read.text;
  block.counted = read.counted;
  block.facts = after;
  block.ids = ids;
  block.problems = read.problems;
  block.revision++;
  return { block, before, from, beforeEnd: before.count - alike, afterEnd: after.count - alike };
}

/** A number that no row of the block has had. */
const nextId = new WeakMap<Block, number>();

/** Whether two rows say the same, wherever they stand. */
export function sameRow(a: Facts, rowA: number, b: Facts, rowB: number): boolean {
  const atA = rowA * intsPerRow;
  const atB = rowB * intsPerRow;
  for (let column = 0; column < intsPerRow; column++)
    if (column !== Col.start && column !== Col.end && a.ints[atA + column] !== b.ints[atB + column])
      return false;
  for (let column = 0; column < floatsPerRow; column++) {
    if (!Object.is(a.floats[rowA * floatsPerRow + column], b.floats[rowB * floatsPerRow + column]))
      return false;
  }
  return true;
}
