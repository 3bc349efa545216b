import { conflictMark } from "./conflict-mark.ts";
import { isUnseen } from "./spaces.ts";

/**
 * Cutting a text into blocks, without reading what is in them: a scan for lines that begin in column 0.
 *
 * A block is the unit of parsing, of recovery and of incremental work. Blocks lie without gaps: each reaches from its head to the next
 * head, so blank lines and comments below a block belong to it; what stands before the first head is a block of its own.
 */

const hash = 0x23;

/** The words that open a definition. */
export const definitionWords = [
  "room",
  "water",
  "system",
  "tank",
  "group",
  "species",
  "food",
  "remedy",
  "gear",
  "lot",
  "order",
] as const;
export type DefinitionWord = (typeof definitionWords)[number];
const isDefinitionWord: ReadonlySet<string> = new Set(definitionWords);

/** `prelude` is what stands before the first head; `broken` has a head that is neither a date nor a definition. */
export type BlockKind = "day" | "definition" | "broken" | "prelude";

export interface BlockSpan {
  readonly kind: BlockKind;
  readonly start: number;
  readonly end: number;
}

/**
 * The blocks of `text` from offset `from`, where a block begins, up to the end or up to the first head at which `stop` says so.
 * @param isEntryWord tells the words that name an entry kind: a line of an entry that lost its indentation opens no block.
 */
export function cutBlocks(
  text: string,
  isEntryWord: (word: string) => boolean,
  from = 0,
  stop?: (offset: number) => boolean,
): BlockSpan[] {
  const blocks: BlockSpan[] = [];
  let start = from;
  let kind: BlockKind = "prelude";
  let inBlock = false;
  let line = from;
  while (line < text.length) {
    if (opensAt(text, line)) {
      const found = kindOfHead(text, line, kind, isEntryWord);
      if (found !== undefined) {
        if (inBlock || line > start) blocks.push({ kind, start, end: line });
        if (stop?.(line)) return blocks;
        start = line;
        kind = found;
        inBlock = true;
      }
    }
    line = nextLine(text, line);
  }
  if (start < text.length) blocks.push({ kind, start, end: text.length });
  return blocks;
}

/** Whether the line at `offset` has something in column 0 that is neither white space nor a comment. */
function opensAt(text: string, offset: number): boolean {
  // A byte order mark before the first line is none of it.
  if (offset === 0 && text.charCodeAt(0) === 0xfeff) return opensAt(text, 1);
  return offset < text.length && text.charCodeAt(offset) !== hash && !isUnseen(text, offset);
}

/** The offset of the line after the one that holds `offset`. A line ends in LF, CRLF or a lone CR, as in the editor. */
export function nextLine(text: string, offset: number): number {
  const feed = text.indexOf("\n", offset);
  const end = feed < 0 ? text.length : feed + 1;
  for (let at = offset; at < end - 1; at++) {
    if (text.charCodeAt(at) === 0x0d && text.charCodeAt(at + 1) !== 0x0a) return at + 1;
  }
  return end;
}

const dateLike = /^\D{0,2}\d{2,4}[-/.]\d{1,2}/;
const firstWords = /^(?:\d{1,2}:\d{2}[ \t]+)?(@?[^\s,;"]+)[ \t]+([^\s,;"]+)/;

/** What block the line opens, or undefined if it is an entry that lost its indentation. */
function kindOfHead(
  text: string,
  line: number,
  before: BlockKind,
  isEntryWord: (word: string) => boolean,
): BlockKind | undefined {
  if (text.charCodeAt(line) === 0xfeff) line++;
  const code = text.charCodeAt(line);
  if (code >= 0x30 && code <= 0x39 && /^\d{4}-\d{2}-\d{2}(?![\d-])/.test(text.slice(line, line + 11)))
    return "day";
  const head = text.slice(line, Math.min(line + 80, nextLine(text, line)));
  if ((before === "day" || before === "definition") && conflictMark(head) !== undefined) return undefined;
  const word = /^[a-z]+/.exec(head)?.[0];
  if (word !== undefined && isDefinitionWord.has(word) && /^(?:\s|"|$)/.test(head.slice(word.length))) {
    const second = firstWords.exec(head)?.[2];
    // `room note "..."` is an entry whose target is the room.
    if (!(word === "room" && before === "day" && second !== undefined && isEntryWord(second)))
      return "definition";
    return undefined;
  }
  if (before === "day" && !dateLike.test(head)) {
    const words = firstWords.exec(head);
    if (words !== null && (isEntryWord(words[2]!) || words[1] === "sheet")) return undefined;
  }
  return "broken";
}
