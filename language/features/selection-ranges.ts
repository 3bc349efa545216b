import { type EntryLine, linesOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import { laidLines, problemsOf } from "./layout.ts";
import { lineOfText } from "./lines.ts";
import { blockAt, type Span, type View } from "./view.ts";

/**
 * What a selection grows to from an offset, the smallest first: a word, its piece, its argument or the inside of a text, all arguments, the line, the
 * sheet, the block, the file. Each holds the one before and is larger.
 */
export function selectionRanges(view: View, offset: number): Span[] {
  const { text } = view.source;
  const found = blockAt(view, offset);
  const line = lineOfText(text, offset);
  const content = {
    start: line.start + /^\s*/.exec(line.text)![0].length,
    end: line.start + line.text.trimEnd().length,
  };
  const steps: Span[] = [];
  if (found !== undefined) {
    const { block } = found;
    const moved = (span: Span): Span => ({ start: block.start + span.start, end: block.start + span.end });
    steps.push(...wordAt(text, offset), ...within(block, found.at).map(moved));
    steps.push(content, line, ...sheetAround(block, found.at).map(moved));
    steps.push(
      { start: block.start, end: block.start + block.text.trimEnd().length },
      moved({ start: 0, end: block.text.length }),
    );
  } else steps.push(content, line);
  steps.push({ start: 0, end: text.length });
  const grown: Span[] = [];
  for (const { start, end } of steps) {
    const last = grown.at(-1) ?? { start: offset, end: offset };
    if (start > last.start || end < last.end || end === start) continue;
    if (grown.length > 0 && start === last.start && end === last.end) continue;
    grown.push({ start, end });
  }
  return grown;
}

function wordAt(text: string, offset: number): Span[] {
  const isLetter = (at: number): boolean =>
    at >= 0 && at < text.length && /[\p{L}\p{M}\p{N}_-]/u.test(text[at]!);
  let start = offset;
  while (isLetter(start - 1)) start--;
  let end = offset;
  while (isLetter(end)) end++;
  return end > start ? [{ start, end }] : [];
}

/** The piece at an offset of a block, the inside of its quotes, the item or property it is part of, and the arguments of its line. */
function within(block: Block, at: number): Span[] {
  const spans: Span[] = [];
  const line = laidLines(block.text, block.kind === "day", problemsOf(block)).find(
    (each) => at >= each.start && at <= each.end,
  );
  const piece = line?.pieces.find((each) => at >= each.start && at <= each.end);
  if (line === undefined || piece === undefined) return spans;
  if (block.text[piece.start] === '"') spans.push({ start: piece.start + 1, end: piece.end - 1 });
  spans.push({ start: piece.start, end: piece.end });
  const entry = linesOf(block).find((each) => at >= each.start && at <= each.end);
  if (entry?.is === "entry" && entry.kindWord !== undefined) {
    spans.push(...argumentAround(block.text, entry, at));
    spans.push(
      { start: entry.kindWord.end + 1, end: entry.end },
      { start: entry.kindWord.start, end: entry.end },
    );
  }
  const property = block.definition?.properties.find((each) => at >= each.start && at <= each.end);
  if (property !== undefined) {
    const rest = /^\S+\s*/.exec(block.text.slice(property.start, property.end))![0].length;
    spans.push(
      { start: property.start + rest, end: property.end },
      { start: property.start, end: property.end },
    );
  }
  return spans;
}

/** The argument with the word that leads it, and the item of a list it is part of. */
function argumentAround(text: string, { items, kind }: EntryLine, at: number): Span[] {
  const spans: Span[] = [];
  for (const item of items) {
    let own: Span | undefined;
    for (const slot of kind?.slots ?? []) {
      const value = item[slot.name];
      if (value === undefined) continue;
      const lead =
        slot.lead === undefined ? null : new RegExp(`${slot.lead}\\s*$`).exec(text.slice(0, value.start));
      const span = { start: lead === null ? value.start : lead.index, end: value.end };
      if (at >= span.start && at <= span.end) spans.push(span);
      if (slot.each === true)
        own = {
          start: Math.min(own?.start ?? span.start, span.start),
          end: Math.max(own?.end ?? 0, span.end),
        };
    }
    if (own !== undefined && at >= own.start && at <= own.end) spans.push(own);
  }
  return spans;
}

/** The sheet with its rows that an offset is in. */
function sheetAround(block: Block, at: number): Span[] {
  const lines = linesOf(block);
  const here = lines.findIndex((line) => at >= line.start - line.indent && at <= line.end);
  if (here < 0 || lines[here]!.is === "entry") return [];
  let first = here;
  while (first > 0 && lines[first]!.is === "row") first--;
  let last = here;
  while (lines[last + 1]?.is === "row") last++;
  const lineStart = block.text.lastIndexOf("\n", lines[first]!.start - 1) + 1;
  return [{ start: lineStart, end: lines[last]!.end }];
}
