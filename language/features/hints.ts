import { type DayLine, linesOf } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import { figureOf } from "./figures/figures.ts";
import type { FigureKind } from "./figures/row.ts";
import type { View } from "./view.ts";
import { whyMarkdown } from "./why-text.ts";

/** A figure at the end of the line it follows from. */
export interface Hint {
  /** Behind the last word of the line, before its comment. */
  readonly offset: number;
  readonly label: string;
  readonly kind: FigureKind;
  /** Markdown: why it is so. Made when it is asked for. */
  readonly tooltip: string;
}

export interface HintOptions {
  /** The master switch. */
  readonly enabled?: boolean;
  /** Kinds that are switched off. */
  readonly off?: ReadonlySet<FigureKind>;
  /** Where somebody types: that line has no hint. */
  readonly activeOffset?: number;
}

/** The hints of the lines that lie in, or reach into, a stretch of the file. Each kind can be switched off. */
export function inlayHints(view: View, from: number, to: number, options: HintOptions = {}): Hint[] {
  const { enabled = true, off, activeOffset } = options;
  if (!enabled) return [];
  const hints: Hint[] = [];
  const { source, checked } = view;
  for (let at = source.indexAt(from); at < source.blocks.length; at++) {
    const block = source.blocks[at]!;
    if (block.start > to) break;
    if (block.kind !== "day" || Number.isNaN(block.day)) continue;
    for (const line of linesOf(block)) {
      const start = block.start + line.start;
      const end = block.start + line.end;
      if (end < from || start > to || line.is === "sheet") continue;
      if (activeOffset !== undefined && isActive(block, line, activeOffset - block.start)) continue;
      const figure = figureOf(checked, block, line, (kind) => off?.has(kind) !== true);
      if (figure === undefined) continue;
      const { label, kind } = figure;
      hints.push({
        offset: end,
        label,
        kind,
        get tooltip() {
          return whyMarkdown(figure.why());
        },
      });
    }
  }
  return hints;
}

/** Whether an offset of the block is in the line, its indentation and comment included. */
function isActive({ text }: Block, line: DayLine, offset: number): boolean {
  if (offset < 0 || offset > text.length) return false;
  const breaks = (from: number, to: number): boolean => /[\r\n]/.test(text.slice(from, to));
  return offset < line.start ? !breaks(offset, line.start) : !breaks(line.start, offset);
}
