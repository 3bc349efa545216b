import { LineRoles } from "../../book/line.ts";
import type { Block } from "../../book/source.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../../syntax/parser.ts";
import { Piece, type PieceKind, Pieces } from "../../syntax/pieces.ts";
import { lineOfText } from "../lines.ts";
import { blockAt, type Span, type View } from "../view.ts";

/** What is being written at the cursor: the block, what sort of line, and the pieces before the word that is being typed. */
export interface Context {
  readonly view: View;
  /** The block whose line it is; undefined in an empty file. */
  readonly block: Block | undefined;
  /** `head` in column 0; `row` in a sheet; else what the block holds. */
  readonly is: "head" | "row" | "line";
  /** The line up to the word that is being typed, read. */
  readonly pieces: Pieces;
  readonly before: string;
  /** What is typed of the word, with `@` if it has one. */
  readonly partial: string;
  /** `-> ` stands right before it. */
  readonly isDestination: boolean;
  /** The unit of a column is open: `temperature (`. */
  readonly isColumnUnit: boolean;
  /** Words elsewhere in the line, which are not offered again. */
  readonly others: ReadonlySet<string>;
  /** Nothing stands behind the cursor on its line. */
  readonly isAtEnd: boolean;
  /** From the start of the word to the cursor, and to the end of the word. Offsets in the file. */
  readonly insert: Span;
  readonly replace: Span;
  /** Width of white space before the line. */
  readonly indent: number;
}

const wordBefore = /(?:->?|→|@)?[\p{L}\p{M}\p{N}_-]*$/u;
const wordBehind = /^[\p{L}\p{M}\p{N}_-]*/u;

/** The context at an offset; undefined in prose and comments, in numbers, right behind a text, and behind what cannot be read. */
export function contextAt(view: View, offset: number): Context | undefined {
  const { text } = view.source;
  const line = lineOfText(text, offset);
  const prefix = text.slice(line.start, offset).replace(/^\ufeff/, "");
  if (isProse(prefix)) return undefined;
  const partial = wordBefore.exec(prefix)![0];
  let before = prefix.slice(0, prefix.length - partial.length);
  // A list that opens behind a closing quote would still be there when the next word begins, and offer it nothing.
  if (partial === "" && before.endsWith('"')) return undefined;
  const behind = wordBehind.exec(text.slice(offset, line.end))![0];
  const isHead = /^\S*$/.test(prefix) || !/^\s/.test(prefix);
  if (/^\d/.test(partial) && !(isHead && before === "")) return undefined;
  const isDestination = /(?:->|→)\s*$/.test(before);
  const isColumnUnit = /\(\s*$/.test(before);
  if (isDestination) before = before.replace(/(?:->|→)\s*$/, "");
  if (isColumnUnit) before = before.replace(/\(\s*$/, "");
  const found = blockAt(view, line.start);
  const block = found?.block;
  const isDay = block?.kind === "day";
  const roles = new LineRoles();
  if (isDay && !isHead)
    parseBlock(block.text.slice(0, line.start - block.start), new RoleSink(roles, block.text));
  const reader = new LineReader();
  parseBlock(before, reader, true);
  if (reader.isBroken) return undefined;
  const indent = /^[ \t]*/.exec(prefix)![0].replaceAll("\t", "  ").length;
  const start = offset - partial.length;
  const rest = text.slice(offset + behind.length, line.end);
  return {
    view,
    block,
    is: isHead ? "head" : isDay && roles.isRowAt(indent) ? "row" : "line",
    pieces: reader.pieces,
    before,
    partial,
    isDestination,
    isColumnUnit,
    others: new Set(`${before} ${withoutProse(rest)}`.match(/[\p{L}\p{M}\p{N}_-]+/gu) ?? []),
    isAtEnd: rest.trim() === "",
    insert: { start, end: offset },
    replace: { start, end: offset + behind.length },
    indent,
  };
}

/** Whether the end of a line's beginning lies in a text or a comment. */
function isProse(prefix: string): boolean {
  const open = prefix.replace(/"(?:[^"\\]|\\.)*"/g, (text) => "x".repeat(text.length));
  return open.includes('"') || /(?<!\S)#/.test(open);
}

const withoutProse = (text: string): string => text.replace(/"(?:[^"\\]|\\.)*"?|(?<!\S)#.*/g, "");

class RoleSink implements LineSink {
  private readonly roles: LineRoles;
  private readonly text: string;

  constructor(roles: LineRoles, text: string) {
    this.roles = roles;
    this.text = text;
  }

  head(): void {}

  line(pieces: Pieces, indent: number): void {
    this.roles.roleOf(pieces, indent);
  }

  broken({ isHead, first, indent }: BrokenLine): void {
    if (!isHead) this.roles.broken(this.text, first, indent);
  }
}

/** Keeps the pieces of a line: those of the parser are used again. */
class LineReader implements LineSink {
  readonly pieces = new Pieces();
  isBroken = false;

  head(): void {}

  line(pieces: Pieces): void {
    for (let at = 0; at < pieces.count; at++) {
      const kind = pieces.kind[at] as PieceKind;
      const made = this.pieces.add(kind, pieces.start[at]!, pieces.end[at]!, pieces.word[at]!);
      this.pieces.value[made] = pieces.value[at]!;
      this.pieces.second[made] = pieces.second[at]!;
      this.pieces.third[made] = pieces.third[at]!;
      this.pieces.unit[made] = kind === Piece.quantity || kind === Piece.lengths ? pieces.unit[at]! : -1;
      this.pieces.mark[made] = pieces.mark[at]!;
      this.pieces.unitStart[made] = pieces.unitStart[at]!;
      this.pieces.lastWord[made] = pieces.lastWord[at]!;
    }
  }

  broken(): void {
    this.isBroken = true;
  }
}
