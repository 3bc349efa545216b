import type { Source } from "../book/source.ts";
import { nextLine } from "../syntax/blocks.ts";

/** A stretch of a file as people and other tools count it. */
export interface LinePlace {
  /** From 1. */
  readonly line: number;
  /** From 1, in UTF-16 code units; a byte order mark is not counted. */
  readonly column: number;
  readonly endLine: number;
  /** Just behind the last letter. */
  readonly endColumn: number;
}

const starts = new WeakMap<Source, readonly number[]>();

function startsOf(source: Source): readonly number[] {
  const known = starts.get(source);
  if (known !== undefined) return known;
  const { text } = source;
  const made = [0];
  for (let at = nextLine(text, 0); at < text.length; at = nextLine(text, at)) made.push(at);
  // What stands behind the last line end is a line too, if an empty one.
  if (/[\r\n]$/.test(text)) made.push(text.length);
  starts.set(source, made);
  return made;
}

/** Where offsets of a file's text stand. The file is one that is read once and not edited. */
export function linePlace(source: Source, start: number, end: number): LinePlace {
  const from = lineColumn(source, start);
  const to = lineColumn(source, Math.max(start, end));
  return { ...from, endLine: to.line, endColumn: to.column };
}

function lineColumn(source: Source, offset: number): { line: number; column: number } {
  const lines = startsOf(source);
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  const mark = low === 0 && source.text.charCodeAt(0) === 0xfeff && offset > 0 ? 1 : 0;
  return { line: low + 1, column: offset - lines[low]! + 1 - mark };
}

/** The offset of a line and column, from 1; undefined where the file has no such line. A column beyond the line is its end. */
export function offsetAt(source: Source, line: number, column: number): number | undefined {
  const start = startsOf(source)[line - 1];
  if (start === undefined) return undefined;
  const mark = line === 1 && source.text.charCodeAt(0) === 0xfeff ? 1 : 0;
  return start + Math.min(Math.max(1, column) - 1, lineText(source, line).length) + mark;
}

/** A line of a file as it is written, without its end. @param line from 1 */
export function lineText(source: Source, line: number): string {
  const lines = startsOf(source);
  const text = source.text.slice(lines[line - 1], lines[line] ?? source.text.length);
  return text.replace(/^\ufeff/, "").replace(/[\r\n]+$/, "");
}
