import { dayOf } from "../book/dates.ts";
import { kindNumber } from "../book/entries/registry.ts";
import { type BlockKind, type BlockSpan, cutBlocks, nextLine } from "../syntax/blocks.ts";
import { parseBlock } from "../syntax/parser.ts";
import { isUnseen } from "../syntax/spaces.ts";
import { endOfLine, LineReader, saysNothing } from "./line-reader.ts";
import type { LogLine, LogLineKind } from "./log-line.ts";

export type { LineFact, LogLine, LogLineKind } from "./log-line.ts";

/**
 * The blocks of a text and their lines with what each is about, for what compares and merges two texts of a log. Lossless: blocks make up
 * the text, lines their block. Blocks are cut without being read, so that what two texts have in common costs next to nothing.
 */

/** A block of a text, not yet read. */
export interface LogBlock {
  readonly kind: BlockKind;
  readonly path: string;
  /** Offset in its text. */
  readonly start: number;
  readonly text: string;
  /** The day of a day block; NaN where its date is none, and for other blocks. */
  readonly day: number;
  /** What it is of all blocks: `2026-03-01`, `tank dam`; of a broken block its first line. */
  readonly name: string;
}

const isEntryWord = (word: string): boolean => kindNumber(word) !== undefined;

/** The blocks of a text, in order and without gaps. */
export function blocksOf(text: string, path = ""): LogBlock[] {
  return cutBlocks(text, isEntryWord).map((span) => blockOf(text, span, path));
}

function blockOf(text: string, { kind, start, end }: BlockSpan, path: string): LogBlock {
  const body = text.slice(start, end);
  const lead = body.charCodeAt(0) === 0xfeff ? 1 : 0;
  const base = { kind, path, start, text: body };
  if (kind === "day") {
    const name = body.slice(lead, lead + 10);
    return { ...base, day: dayOf(name), name };
  }
  const first = body.slice(lead, endOfLine(body, 0));
  const words = /^([a-z]+)[ \t]+([^\s"#;,=]+)/.exec(first);
  const name = kind === "definition" ? (words === null ? "room" : `${words[1]} ${words[2]}`) : first.trim();
  return { ...base, day: Number.NaN, name: kind === "prelude" ? "" : name };
}

/** The lines of a block. Their texts and line ends make up its text. */
export function linesOfBlock(block: LogBlock): LogLine[] {
  const reader = new LineReader(block.text, block.kind === "definition" ? block.name : "");
  if (block.kind === "day" || block.kind === "definition") parseBlock(block.text, reader);
  const { text } = block;
  const lines: LogLine[] = [];
  let minute = 0;
  for (let start = 0; start < text.length; ) {
    const next = nextLine(text, start);
    const end = endOfLine(text, start);
    const read = reader.lines.get(start);
    const written = text.slice(start, end);
    if (read !== undefined && !Number.isNaN(read.minute)) minute = read.minute;
    const base = { start, text: written, eol: text.slice(end, next) };
    if (read !== undefined)
      lines.push({ ...read, ...base, minute, comment: commentOf(read.end, written, start) });
    else lines.push({ ...saysNothing, ...base, minute, ...plainLine(written, start, block.kind) });
    start = next;
  }
  return lines;
}

/** A line that the grammar has nothing to say of. */
function plainLine(written: string, start: number, kind: BlockKind): { kind: LogLineKind; content: string } {
  let at = 0;
  while (at < written.length && isUnseen(written, at)) at++;
  if (at === written.length) return { kind: "blank", content: "" };
  const content = written.slice(at).trimEnd();
  if (written[at] === "#") return { kind: "comment", content };
  return { kind: start === 0 && kind !== "prelude" ? "head" : "unread", content };
}

function commentOf(end: number, written: string, start: number): string {
  const mark = written.slice(end - start).search(/(?<!\S)#/);
  return mark < 0 ? "" : written.slice(end - start + mark).trimEnd();
}
