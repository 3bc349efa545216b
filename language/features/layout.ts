import { LineRoles } from "../book/line.ts";
import type { Problem } from "../book/problem.ts";
import type { Block } from "../book/source.ts";
import { nextLine } from "../syntax/blocks.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import { Piece, type PieceKind, type Pieces } from "../syntax/pieces.ts";
import { spaces } from "../syntax/spaces.ts";

/** The lines of a block as they are laid out: where their pieces stand, and what each line is. */

export interface PieceAt {
  readonly kind: PieceKind;
  readonly start: number;
  readonly end: number;
  /** A word or a name; else empty. */
  readonly word: string;
}

export type LaidRole = "head" | "entry" | "sheet" | "row" | "property" | "blank" | "comment" | "broken";

export interface LaidLine {
  readonly is: LaidRole;
  /** What the line is, broken or not: the heads of a sheet are, though broken, a sheet. */
  readonly role: LaidRole;
  /** Offsets in the block; the end is without the line end. */
  readonly start: number;
  readonly end: number;
  readonly pieces: readonly PieceAt[];
  /** Where a comment behind the pieces begins; -1 if there is none. */
  readonly comment: number;
}

/** The lines of a text that is one block. A line with a problem that keeps it from counting is `broken`. */
export function laidLines(text: string, isDay: boolean, problems: readonly Problem[]): LaidLine[] {
  const sink = new LayoutSink(text, isDay);
  parseBlock(text, sink);
  const bad = problems.filter((problem) => !problem.counts).map((problem) => problem.start);
  bad.push(...sink.stumbles);
  bad.sort((a, b) => a - b);
  const lines: LaidLine[] = [];
  let nextBad = 0;
  let nextRead = 0;
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    const end = withoutLineEnd(text, start, next);
    let isBroken = false;
    while (nextBad < bad.length && bad[nextBad]! < next) {
      isBroken = true;
      nextBad++;
    }
    const read = sink.read[nextRead];
    const isRead = read !== undefined && read.pieces[0]!.start < next;
    if (isRead) nextRead++;
    const last = isRead ? read.pieces.at(-1)!.end : start;
    const mark = commentIn(text, last, end);
    if (isRead)
      lines.push({
        is: isBroken ? "broken" : read.is,
        role: read.is,
        start,
        end,
        pieces: read.pieces,
        comment: mark,
      });
    else {
      const is = isBroken
        ? "broken"
        : mark >= 0
          ? "comment"
          : isBlank(text.slice(start, end))
            ? "blank"
            : "broken";
      const isSheet = sink.lostHeads.some((first) => first >= start && first < next);
      lines.push({ is, role: isSheet ? "sheet" : is, start, end, pieces: [], comment: mark });
    }
    start = next;
  }
  return lines;
}

/** The problems of a block that its text alone tells. */
export function problemsOf(block: Block): readonly Problem[] {
  return [...block.problems, ...(block.definition?.problems ?? []), ...block.facts.problems];
}

class LayoutSink implements LineSink {
  readonly read: { readonly is: "head" | "entry" | "sheet" | "row" | "property"; pieces: PieceAt[] }[] = [];
  readonly stumbles: number[] = [];
  private readonly roles = new LineRoles();
  /** Where the heads of a sheet are refused. */
  readonly lostHeads: number[] = [];
  private readonly text: string;
  private readonly isDay: boolean;

  constructor(text: string, isDay: boolean) {
    this.text = text;
    this.isDay = isDay;
  }

  head(pieces: Pieces): void {
    this.read.push({ is: "head", pieces: copied(pieces) });
  }

  line(pieces: Pieces, indent: number): void {
    const is = this.isDay ? this.roles.roleOf(pieces, indent).is : "property";
    this.read.push({ is, pieces: copied(pieces) });
  }

  broken({ start, isHead, first, indent }: BrokenLine): void {
    this.stumbles.push(start);
    if (this.isDay && !isHead && this.roles.broken(this.text, first, indent)) this.lostHeads.push(first);
  }
}

function copied(pieces: Pieces): PieceAt[] {
  return Array.from({ length: pieces.count }, (_, at) => {
    const kind = pieces.kind[at] as PieceKind;
    const hasWord = kind === Piece.word || kind === Piece.group || kind === Piece.destination;
    return {
      kind,
      start: pieces.start[at]!,
      end: pieces.end[at]!,
      word: hasWord ? pieces.word[at]! : "",
    };
  });
}

const blank = new RegExp(`^[${spaces}]*$`);
const isBlank = (text: string): boolean => blank.test(text);

/** Where a comment begins in a stretch that holds white space and perhaps a comment. */
function commentIn(text: string, from: number, end: number): number {
  for (let at = from; at < end; at++) {
    const code = text.charCodeAt(at);
    if (code === 0x23) return at;
    if (!isBlank(text[at]!)) return -1;
  }
  return -1;
}

/** The end of a line without its line end. */
export function withoutLineEnd(text: string, start: number, next: number): number {
  let end = next;
  if (end > start && text.charCodeAt(end - 1) === 0x0a) end--;
  if (end > start && text.charCodeAt(end - 1) === 0x0d) end--;
  return end;
}
