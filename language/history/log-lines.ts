import { dayOf } from "../book/dates.ts";
import { kindNumber } from "../book/entries/registry.ts";
import type { Source } from "../book/source.ts";
import { type BlockKind, type BlockSpan, cutBlocks, nextLine } from "../syntax/blocks.ts";
import { parseBlock } from "../syntax/parser.ts";
import { isUnseen } from "../syntax/spaces.ts";
import { endOfLine, LineReader, saysNothing } from "./line-reader.ts";
import type { LineFact, LogLine, LogLineKind } from "./log-line.ts";

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
  const name = nameOf({ kind, text: body });
  return { kind, path, start, text: body, day: kind === "day" ? dayOf(name) : Number.NaN, name };
}

function nameOf({ kind, text }: Pick<LogBlock, "kind" | "text">): string {
  const lead = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  if (kind === "day") return text.slice(lead, lead + 10);
  if (kind === "prelude") return "";
  const first = text.slice(lead, endOfLine(text, 0));
  const words = /^([a-z]+)[ \t]+([^\s"#;,=]+)/.exec(first);
  return kind === "definition" ? (words === null ? "room" : `${words[1]} ${words[2]}`) : first.trim();
}

/** The blocks of a file that is read already. */
export function blocksOfSource({ path, blocks }: Source): LogBlock[] {
  return blocks.map((block) => ({
    kind: block.kind,
    path,
    start: block.start,
    text: block.text,
    day: block.day,
    name: nameOf(block),
  }));
}

/** Whole lines of a day that another text of the log has too. */
export interface SharedStretch {
  /** Offsets in the block. */
  readonly start: number;
  readonly end: number;
  readonly lines: number;
  /** Tells it from all others; the same on both sides. */
  readonly key: string;
}

/**
 * The lines of a day of which some are not read: each stretch of those comes as one line that is `shared`. Minutes are not told, as they
 * may stand above.
 */
export function linesBeside(block: LogBlock, stretches: readonly SharedStretch[]): LogLine[] {
  const parts: string[] = [];
  let from = 0;
  for (const { start, end } of stretches) {
    parts.push(block.text.slice(from, start));
    from = end;
  }
  parts.push(block.text.slice(from));
  const read = parts.join("");
  const lines: LogLine[] = [];
  let next = 0;
  let shift = 0;
  const passStretches = (at: number): void => {
    for (; stretches[next]?.start === at + shift; next++) {
      const { start, end, key } = stretches[next]!;
      const text = block.text.slice(start, end);
      lines.push({ ...saysNothing, kind: "shared", start, text, eol: "", minute: Number.NaN, content: key });
      shift += end - start;
    }
  };
  for (const line of linesOfBlock({ ...block, text: read })) {
    passStretches(line.start);
    lines.push({ ...moved(line, shift), minute: Number.NaN });
  }
  passStretches(read.length);
  return lines;
}

function moved(line: LogLine, shift: number): LogLine {
  if (shift === 0) return line;
  const place = (fact: LineFact): LineFact => ({ ...fact, start: fact.start + shift, end: fact.end + shift });
  return { ...line, start: line.start + shift, facts: line.facts.map(place), parts: line.parts.map(place) };
}

/** The lines of a block. Their texts and line ends make up its text. */
export function linesOfBlock({ text, kind, name }: Pick<LogBlock, "text" | "kind" | "name">): LogLine[] {
  const reader = new LineReader(text, kind === "definition" ? name : "");
  if (kind === "day" || kind === "definition") parseBlock(text, reader);
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
    else lines.push({ ...saysNothing, ...base, minute, ...plainLine(written, start, kind) });
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
