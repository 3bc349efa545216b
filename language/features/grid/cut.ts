import { compile } from "../../book/compile.ts";
import { Kind, kindOf } from "../../book/entries/registry.ts";
import { LineRoles } from "../../book/line.ts";
import { readSheetHead, type SheetColumn } from "../../book/sheet.ts";
import type { Block } from "../../book/source.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../../syntax/parser.ts";
import { Piece, type PieceKind, type Pieces } from "../../syntax/pieces.ts";
import type { Span } from "../view.ts";
import type { RowKind } from "./grid-model.ts";
import { lineCounts, lineEnd, linesOfBlock } from "./lines.ts";

/** The lines of a day cut into cells: where each stands. The parser of the log cuts them, so that cells and facts cannot part. */

export interface PieceSpan extends Span {
  readonly kind: PieceKind;
}

/** Offsets are in the text that was cut. */
export interface LineCut extends Span {
  readonly is: Exclude<RowKind, "round" | "definition">;
  /** Where its first letter stands. */
  readonly first: number;
  readonly date?: Span;
  readonly time?: Span;
  readonly tank?: Span;
  /** The word of its kind, or `sheet`. */
  readonly what?: Span;
  /** All that stands between the kind and the note; of a sheet its heads, of a row its cells. */
  readonly values?: Span;
  /** The text at the end, quotes included. */
  readonly note?: Span;
  /** From `#` on. */
  readonly comment?: Span;
  /** Of a sheet and a row the pieces of `values`, of a row with the columns of its sheet. */
  readonly pieces?: readonly PieceSpan[];
  readonly columns?: readonly SheetColumn[];
  /** The number of its kind; -1 for a word that is none, undefined for what is no entry. */
  readonly kind?: number;
  /** Where the time of day is one; NaN else. */
  readonly minute: number;
}

type Read = Omit<LineCut, "start" | "end" | "comment" | "first"> & { readonly behind: number };

const known = new WeakMap<Block, { readonly text: string; readonly lines: readonly LineCut[] }>();

/** The lines of a block that are rows, in the order of `linesOfBlock`. Kept until the block is edited. */
export function cutBlock(block: Block): readonly LineCut[] {
  const kept = cutKept(block);
  if (kept !== undefined) return kept;
  const lines = cutOnce(block);
  known.set(block, { text: block.text, lines });
  return lines;
}

/** What is kept of a block; undefined where nothing is. */
export function cutKept(block: Block): readonly LineCut[] | undefined {
  const kept = known.get(block);
  return kept !== undefined && kept.text === block.text ? kept.lines : undefined;
}

/** The same without keeping it: for a walk over a whole log. */
export function cutOnce(block: Block): readonly LineCut[] {
  const kept = cutKept(block);
  if (kept !== undefined) return kept;
  lineCounts.cut++;
  return cutText(block.text, linesOfBlock(block).starts, block.kind === "day");
}

/** The lines of a text that begins with the head of its block. @param starts where the lines begin that are rows */
export function cutText(text: string, starts: ArrayLike<number>, isDay: boolean): LineCut[] {
  const sink = new CutSink(text);
  if (isDay) parseBlock(text, sink);
  const lines: LineCut[] = [];
  let next = 0;
  for (let at = 0; at < starts.length; at++) {
    const start = starts[at]!;
    const end = lineEnd(text, start);
    while (next < sink.read.length && sink.read[next]!.from < start) next++;
    const read = sink.read[next];
    const isRead = read !== undefined && read.from <= end;
    const first = isRead ? read.from : start + /^\s*/.exec(text.slice(start, end))![0].length;
    const base = { start, end, first };
    if (isRead && read.made !== undefined) {
      const { behind, ...made } = read.made;
      const comment = commentFrom(text, behind, end);
      lines.push({ ...base, ...made, ...(comment < 0 ? {} : { comment: { start: comment, end } }) });
    } else {
      const isComment = !isRead && text.charCodeAt(first) === 0x23;
      const minute = isRead ? minuteOfBroken(text.slice(first, first + 6)) : Number.NaN;
      lines.push({ ...base, is: isComment ? "comment" : "text", minute });
    }
  }
  return lines;
}

/** The time of a line that cannot be read is that of the entries below all the same. */
function minuteOfBroken(begin: string): number {
  const time = /^(\d{1,2}):(\d{2})(?![\d:])/.exec(begin);
  if (time === null || Number(time[2]) > 59) return Number.NaN;
  const minute = Number(time[1]) * 60 + Number(time[2]);
  return minute < 1440 ? minute : Number.NaN;
}

/** Where a comment begins behind the last piece of a line; -1 if there is none. */
function commentFrom(text: string, from: number, end: number): number {
  for (let at = text.indexOf("#", from); at >= 0 && at < end; at = text.indexOf("#", at + 1))
    if (at === 0 || /\s/.test(text[at - 1]!)) return at;
  return -1;
}

class CutSink implements LineSink {
  /** By line what was made of it; undefined for one that cannot be cut. */
  readonly read: { readonly from: number; readonly made: Read | undefined }[] = [];
  private readonly roles = new LineRoles();
  private readonly text: string;
  private columns: readonly SheetColumn[] = [];

  constructor(text: string) {
    this.text = text;
  }

  head(pieces: Pieces): void {
    const from = pieces.start[0]!;
    const { count } = pieces;
    const hasText = count === 2 && pieces.kind[1] === Piece.text;
    const isHead = pieces.kind[0] === Piece.date && (count === 1 || hasText);
    const made: Read | undefined = isHead
      ? {
          is: "day",
          date: spanOf(pieces, 0),
          ...(hasText ? { note: spanOf(pieces, 1) } : {}),
          behind: pieces.end[count - 1]!,
          minute: Number.NaN,
        }
      : undefined;
    this.read.push({ from, made });
  }

  line(pieces: Pieces, indent: number): void {
    this.read.push({ from: pieces.start[0]!, made: this.cut(pieces, indent) });
  }

  broken({ first, isHead, indent }: BrokenLine): void {
    if (!isHead && this.roles.broken(this.text, first, indent)) this.columns = [];
    this.read.push({ from: first, made: undefined });
  }

  private cut(pieces: Pieces, indent: number): Read | undefined {
    const role = this.roles.roleOf(pieces, indent);
    const { count } = pieces;
    const base = {
      behind: pieces.end[count - 1]!,
      ...(role.time < 0 ? {} : { time: spanOf(pieces, role.time) }),
      minute: role.time < 0 ? Number.NaN : pieces.value[role.time]!,
    };
    if (role.is === "sheet") {
      const begin = role.word + 1;
      this.columns = role.isMisspelt ? [] : readSheetHead(pieces, begin, []);
      const heads = argumentsOf(pieces, begin, hasNote(pieces, begin), true);
      return { ...base, is: "sheet", what: spanOf(pieces, role.word), columns: this.columns, ...heads };
    }
    if (!isTarget(pieces, role.target)) return undefined;
    const tank = spanOf(pieces, role.target);
    if (role.is === "row") {
      const begin = role.target + 1;
      const cells = argumentsOf(pieces, begin, hasNote(pieces, begin), true);
      return { ...base, is: "row", tank, columns: this.columns, ...cells };
    }
    const { kind, kindPiece } = role;
    if (kindPiece < count && pieces.kind[kindPiece] !== Piece.word) return undefined;
    const what = kindPiece < count ? { what: spanOf(pieces, kindPiece) } : {};
    const note = noteOf(pieces, kind, kindPiece + 1);
    return { ...base, is: "entry", tank, kind, ...what, ...argumentsOf(pieces, kindPiece + 1, note, false) };
  }
}

const isTarget = (pieces: Pieces, at: number): boolean =>
  at < pieces.count && (pieces.kind[at] === Piece.word || pieces.kind[at] === Piece.group);

const spanOf = (pieces: Pieces, at: number): Span => ({ start: pieces.start[at]!, end: pieces.end[at]! });

/** What stands from a piece on, its text at the end apart. @param isWhole with its pieces */
function argumentsOf(
  pieces: Pieces,
  begin: number,
  hasText: boolean,
  isWhole: boolean,
): Pick<LineCut, "values" | "note" | "pieces"> {
  const end = hasText ? pieces.count - 1 : pieces.count;
  return {
    ...(end > begin ? { values: { start: pieces.start[begin]!, end: pieces.end[end - 1]! } } : {}),
    ...(hasText ? { note: spanOf(pieces, pieces.count - 1) } : {}),
    ...(isWhole
      ? {
          pieces: Array.from({ length: Math.max(0, end - begin) }, (_, at) => ({
            ...spanOf(pieces, begin + at),
            kind: pieces.kind[begin + at] as PieceKind,
          })),
        }
      : {}),
  };
}

const isText = (kind: number | undefined): boolean => kind === Piece.text || kind === Piece.openText;

function hasNote(pieces: Pieces, begin: number): boolean {
  return pieces.count > begin && isText(pieces.kind[pieces.count - 1]);
}

/** Whether the text at the end of an entry is its note, and not what a slot is filled with. Of a note that is all it is. */
function noteOf(pieces: Pieces, kind: number, begin: number): boolean {
  if (!hasNote(pieces, begin)) return false;
  if (kind < 0) return true;
  const last = pieces.count - 1;
  if (kind === Kind.note) return true;
  const { leads, slots, texts } = compile(kindOf(kind));
  let free = texts.length;
  for (let at = begin; at <= last; at++) {
    if (!isText(pieces.kind[at])) continue;
    const led = pieces.kind[at - 1] === Piece.word ? leads.get(pieces.word[at - 1]!) : undefined;
    const isLed = at > begin && led !== undefined && slots[led]!.filling.is === "text";
    if (at === last) return !isLed && free === 0;
    if (!isLed && free > 0) free--;
  }
  return false;
}
