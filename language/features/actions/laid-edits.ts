import { Source } from "../../book/source.ts";
import { applySpaces, formatSource } from "../format.ts";
import { linesOfText } from "../lines.ts";
import type { Span } from "../view.ts";

/** Edits of one file, with what they touch laid out: the result of an action needs no formatting. */

export interface TextEdit extends Span {
  readonly text: string;
}

/** Small edits that make of a file what the given edits do, the lines they touch laid out. Only the blocks that are touched are read. */
export function laidEdits(source: Source, edits: readonly TextEdit[]): TextEdit[] {
  const ordered = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  const made: TextEdit[] = [];
  for (let at = 0; at < ordered.length; ) {
    const region = { ...blocksAround(source, ordered[at]!) };
    let next = at + 1;
    while (next < ordered.length && ordered[next]!.start <= region.end) {
      region.end = Math.max(region.end, blocksAround(source, ordered[next]!).end);
      next++;
    }
    const text = source.text.slice(region.start, region.end);
    made.push(...inRegion(text, ordered.slice(at, next), region.start));
    at = next;
  }
  return made;
}

/** All blocks that an edit touches, as a stretch. */
function blocksAround(source: Source, { start, end }: Span): { start: number; end: number } {
  const { blocks } = source;
  if (blocks.length === 0) return { start: 0, end: source.text.length };
  const last = blocks[source.indexAt(end)]!;
  // Before the first block there is nothing: an edit there goes with it.
  return { start: Math.min(start, blocks[source.indexAt(start)]!.start), end: last.start + last.text.length };
}

function inRegion(text: string, edits: readonly TextEdit[], from: number): TextEdit[] {
  let made = "";
  let at = 0;
  const touched: Span[] = [];
  for (const edit of edits) {
    made += text.slice(at, edit.start - from);
    // Where whole lines are put in, those before and behind them are not touched.
    const lead = /^(?:\r\n|\n|\r)/.exec(edit.text)?.[0].length ?? 0;
    const tail = /[\r\n]$/.test(edit.text) ? 1 : 0;
    const start = made.length + lead;
    touched.push({ start, end: Math.max(start, made.length + edit.text.length - tail) });
    made += edit.text;
    at = edit.end - from;
  }
  made += text.slice(at);
  const source = new Source("", made);
  const spaces = touched.flatMap((span) => formatSource(source, span));
  const once = [...new Map(spaces.map((edit) => [edit.start, edit])).values()].sort(
    (a, b) => a.start - b.start,
  );
  return smallest(text, applySpaces(made, once)).map((edit) => ({
    start: from + edit.start,
    end: from + edit.end,
    text: edit.text,
  }));
}

/** The edits that lead from one text to another: of each line only what differs, where there are as many lines as before. */
function smallest(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const old = linesOfText(before);
  const fresh = linesOfText(after);
  let first = 0;
  while (first < old.length && first < fresh.length && old[first]!.text === fresh[first]!.text) first++;
  let last = 0;
  while (
    last < old.length - first &&
    last < fresh.length - first &&
    old.at(-1 - last)!.text === fresh.at(-1 - last)!.text
  )
    last++;
  const oldLines = old.slice(first, old.length - last);
  const freshLines = fresh.slice(first, fresh.length - last);
  if (oldLines.length === freshLines.length)
    return oldLines.flatMap((line, at) => difference(line.text, freshLines[at]!.text, line.start));
  return difference(before, after, 0);
}

function difference(before: string, after: string, from: number): TextEdit[] {
  if (before === after) return [];
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start++;
  let end = 0;
  while (
    end < before.length - start &&
    end < after.length - start &&
    before.at(-1 - end) === after.at(-1 - end)
  )
    end++;
  // A pair of surrogates is one letter, CR and LF one line end: an edit begins before or behind both.
  if (start > 0 && isPair(before, start)) start--;
  if (end > 0 && isPair(before, before.length - end)) end--;
  return [
    { start: from + start, end: from + before.length - end, text: after.slice(start, after.length - end) },
  ];
}

function isPair(text: string, at: number): boolean {
  const [left, right] = [text.charCodeAt(at - 1), text.charCodeAt(at)];
  return (
    (left === 0x0d && right === 0x0a) ||
    (left >= 0xd800 && left < 0xdc00 && right >= 0xdc00 && right < 0xe000)
  );
}
