import { LineRoles } from "../book/line.ts";
import type { Block, Source } from "../book/source.ts";
import { type BrokenLine, type LineSink, parseBlock } from "../syntax/parser.ts";
import type { Pieces } from "../syntax/pieces.ts";
import { linesOfText, ownEnd, type TextLine } from "./lines.ts";
import type { Span } from "./view.ts";

/** What can be folded away: blocks, sheets within days, comments of several lines. */
export interface Fold extends Span {
  readonly is: "block" | "sheet" | "comment";
}

/** The folds of a file, in order. Each reaches from its first line to the end of its last that is not blank. */
export function foldingRanges(source: Source): Fold[] {
  const folds = source.blocks.flatMap((block) => [...blockFold(block), ...sheetFolds(block)]);
  folds.push(...commentFolds(source.text));
  return folds.sort((a, b) => a.start - b.start || b.end - a.end);
}

function blockFold(block: Block): Fold[] {
  if (block.kind === "prelude") return [];
  const end = ownEnd(block.text);
  return /[\r\n]/.test(block.text.slice(0, end))
    ? [{ is: "block", start: block.start, end: block.start + end }]
    : [];
}

function sheetFolds(block: Block): Fold[] {
  if (block.kind !== "day") return [];
  const sink = new SheetSink(block.text);
  parseBlock(block.text, sink);
  return sink.sheets
    .filter((sheet) => sheet.end > sheet.headEnd)
    .map(({ start, end }) => ({ is: "sheet", start: block.start + start, end: block.start + end }));
}

class SheetSink implements LineSink {
  readonly sheets: { start: number; end: number; headEnd: number }[] = [];
  private readonly roles = new LineRoles();
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  head(): void {}

  line(pieces: Pieces, indent: number): void {
    const { is } = this.roles.roleOf(pieces, indent);
    const end = pieces.end[pieces.count - 1]!;
    if (is === "sheet") this.sheets.push({ start: pieces.start[0]!, end, headEnd: end });
    else if (is === "row" && this.sheets.length > 0) this.sheets.at(-1)!.end = end;
  }

  broken({ end, isHead, first, indent }: BrokenLine): void {
    if (!isHead && this.roles.broken(this.text, first, indent))
      this.sheets.push({ start: first, end, headEnd: end });
  }
}

/** Comments that stand on lines of their own, two and more together. */
function commentFolds(text: string): Fold[] {
  const folds: Fold[] = [];
  let first: TextLine | undefined;
  let last: TextLine | undefined;
  const close = (): void => {
    if (first !== undefined && last !== undefined && last !== first)
      folds.push({ is: "comment", start: first.start, end: last.end });
    first = last = undefined;
  };
  for (const line of linesOfText(text)) {
    if (/^\s*#/.test(line.text)) {
      first ??= line;
      last = line;
    } else close();
  }
  close();
  return folds;
}
