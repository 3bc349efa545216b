import { nextLine } from "./blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "./parser.ts";
import type { PieceKind, Pieces } from "./pieces.ts";

/**
 * The lossless tree of a block: every character of the text belongs to a leaf, in order. For blocks that are looked at, laid out or
 * edited; computing needs facts only.
 */

export type LeafKind = "space" | "piece" | "comment" | "end" | "unread";

export interface Leaf {
  readonly kind: LeafKind;
  readonly start: number;
  readonly text: string;
  /** The kind of a piece. */
  readonly piece: PieceKind | undefined;
}

export interface TreeLine {
  readonly start: number;
  /** The end of the line without its line end. */
  readonly end: number;
  readonly leaves: readonly Leaf[];
  /** What the grammar stumbled over, where it did. */
  readonly broken: { readonly start: number; readonly end: number; readonly message: string } | undefined;
}

/** The lines of a block's text. Never throws; the leaves make up the whole text. */
export function parseTree(text: string): TreeLine[] {
  const sink = new TreeSink();
  parseBlock(text, sink);
  const lines: TreeLine[] = [];
  let spansAt = 0;
  let brokenAt = 0;
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    const end = endOfLine(text, start, next);
    const broken = sink.stumbles[brokenAt];
    const isBroken = broken !== undefined && broken.start >= start && broken.start <= end;
    if (isBroken) brokenAt++;
    const pieces: PieceSpan[] = [];
    while (spansAt < sink.spans.length && sink.spans[spansAt]!.start < next)
      pieces.push(sink.spans[spansAt++]!);
    lines.push({
      start,
      end,
      leaves: isBroken ? unreadLeaves(text, start, end, next) : leavesOf(text, start, end, next, pieces),
      broken: isBroken ? broken : undefined,
    });
    start = next;
  }
  return lines;
}

/** The text of a tree: that which was parsed, to the character. */
export function printTree(lines: readonly TreeLine[]): string {
  return lines.map((line) => line.leaves.map((leaf) => leaf.text).join("")).join("");
}

interface PieceSpan {
  readonly start: number;
  readonly end: number;
  readonly kind: PieceKind;
}

class TreeSink implements LineSink {
  readonly spans: PieceSpan[] = [];
  readonly stumbles: { start: number; end: number; message: string }[] = [];

  head(pieces: Pieces): void {
    this.line(pieces);
  }

  line(pieces: Pieces): void {
    for (let at = 0; at < pieces.count; at++) {
      this.spans.push({ start: pieces.start[at]!, end: pieces.end[at]!, kind: pieces.kind[at] as PieceKind });
    }
  }

  broken({ start, end, message }: BrokenLine): void {
    this.stumbles.push({ start, end, message });
  }
}

function endOfLine(text: string, start: number, next: number): number {
  let end = next;
  if (end > start && text.charCodeAt(end - 1) === 0x0a) end--;
  if (end > start && text.charCodeAt(end - 1) === 0x0d) end--;
  return end;
}

function leavesOf(
  text: string,
  start: number,
  end: number,
  next: number,
  pieces: readonly PieceSpan[],
): Leaf[] {
  const leaves: Leaf[] = [];
  let at = start;
  const gap = (upTo: number): void => {
    if (upTo <= at) return;
    const between = text.slice(at, upTo);
    const mark = between.search(/(?<!\S)#/);
    if (mark > 0 || (mark < 0 && between !== "")) {
      leaves.push({
        kind: "space",
        start: at,
        text: mark < 0 ? between : between.slice(0, mark),
        piece: undefined,
      });
    }
    if (mark >= 0)
      leaves.push({ kind: "comment", start: at + mark, text: between.slice(mark), piece: undefined });
    at = upTo;
  };
  for (const piece of pieces) {
    gap(piece.start);
    leaves.push({
      kind: "piece",
      start: piece.start,
      text: text.slice(piece.start, piece.end),
      piece: piece.kind,
    });
    at = piece.end;
  }
  gap(end);
  if (next > end) leaves.push({ kind: "end", start: end, text: text.slice(end, next), piece: undefined });
  return leaves;
}

function unreadLeaves(text: string, start: number, end: number, next: number): Leaf[] {
  const leaves: Leaf[] = [{ kind: "unread", start, text: text.slice(start, end), piece: undefined }];
  if (next > end) leaves.push({ kind: "end", start: end, text: text.slice(end, next), piece: undefined });
  return leaves;
}
