import { nextLine } from "../syntax/blocks.ts";
import { withoutLineEnd } from "./layout.ts";
import type { Span } from "./view.ts";

/** The lines of a text as they stand. */

export interface TextLine extends Span {
  /** Without its line end. */
  readonly text: string;
}

/** All lines; the last is empty where the text ends with a line end. */
export function linesOfText(text: string): TextLine[] {
  const lines: TextLine[] = [];
  let start = 0;
  while (start < text.length) {
    const next = nextLine(text, start);
    const end = withoutLineEnd(text, start, next);
    lines.push({ start, end, text: text.slice(start, end) });
    start = next;
  }
  if (text === "" || /[\r\n]$/.test(text)) lines.push({ start: text.length, end: text.length, text: "" });
  return lines;
}

/** The line that holds an offset. */
export function lineOfText(text: string, offset: number): TextLine {
  let start = offset;
  while (start > 0 && !isLineEnd(text, start - 1)) start--;
  let end = offset;
  while (end < text.length && text[end] !== "\n" && text[end] !== "\r") end++;
  return { start, end, text: text.slice(start, end) };
}

/**
 * Where the lines of a block's text end that are its own: blank lines and comments in column 0 at its end are between blocks, and speak of what
 * follows.
 */
export function ownEnd(text: string): number {
  const lines = linesOfText(text);
  let last = lines.length - 1;
  while (last > 0 && (lines[last]!.text.trim() === "" || lines[last]!.text.startsWith("#"))) last--;
  return lines[last]!.end;
}

/** What ends the lines of a text: as its first line does. */
export function lineEndOf(text: string): string {
  return /\r\n|\n|\r/.exec(text)?.[0] ?? "\n";
}

/** Whether a line ends at an offset; between CR and LF none does. */
function isLineEnd(text: string, at: number): boolean {
  return text[at] === "\n" || (text[at] === "\r" && text[at + 1] !== "\n");
}
