import { dayOf } from "../../language/book/dates.ts";
import type { Span, View } from "../../language/features/view.ts";
import { filesOf, lastDay, logbookOf } from "./marked.ts";

/**
 * Logs that carry a place. `¦` is the cursor, `«` and `»` hold a stretch; none of them means anything in a log outside of a text. A helper
 * throws if its mark is missing or stands twice.
 */

export interface AtCursor {
  readonly view: View;
  readonly offset: number;
}

/** The logbook of a text with one cursor in one of its files. @param today its last day, unless another is given */
export function atCursor(marked: string, today?: string): AtCursor {
  const { text, file, offset } = taken(marked, "¦");
  return { view: viewOf(text, file, today), offset };
}

/** The logbook of a text with one stretch marked in one of its files. */
export function atSpan(marked: string, today?: string): { readonly view: View; readonly span: Span } {
  const end = taken(marked, "»");
  const start = taken(end.text, "«");
  if (start.file !== end.file) throw new Error("the stretch begins in one file and ends in another");
  return {
    view: viewOf(start.text, start.file, today),
    span: { start: start.offset, end: end.offset - 1 },
  };
}

/** The view of one file of a logbook. */
export function viewOf(text: string, path?: string, today?: string): View {
  const checked = logbookOf(text);
  const source = checked.logbook.sources.get(path ?? [...filesOf(text).keys()][0]!);
  if (source === undefined) throw new Error(`there is no file ${path}`);
  return { checked, source, worldDay: today === undefined ? lastDay(checked) : dayOf(today) };
}

/** The text after edits, which may stand in any order and must not overlap. */
export function edited(
  text: string,
  edits: readonly { readonly start: number; readonly end: number; readonly text: string }[],
): string {
  let made = text;
  let before = Number.POSITIVE_INFINITY;
  for (const edit of [...edits].sort((a, b) => b.start - a.start || b.end - a.end)) {
    if (edit.end > before) throw new Error(`two edits overlap at ${edit.start}`);
    before = edit.start;
    made = made.slice(0, edit.start) + edit.text + made.slice(edit.end);
  }
  return made;
}

/** The text with its spans drawn below the lines they are in: for what is found in a text. */
export function drawn(text: string, spans: readonly Span[]): string {
  const lines: string[] = [];
  let start = 0;
  for (const line of text.split("\n")) {
    const end = start + line.length;
    lines.push(line);
    const here = spans.filter((span) => span.start >= start && span.start <= end);
    if (here.length > 0) {
      const marks = Array.from({ length: line.length + 1 }, () => " ");
      for (const span of here)
        marks.fill("^", span.start - start, Math.max(span.start + 1, span.end) - start);
      lines.push(marks.join("").trimEnd());
    }
    start = end + 1;
  }
  return lines.join("\n");
}

function taken(marked: string, mark: string): { text: string; file: string; offset: number } {
  if (marked.split(mark).length !== 2) throw new Error(`one ${mark} is wanted in the text`);
  for (const [file, content] of filesOf(marked)) {
    const offset = content.indexOf(mark);
    if (offset >= 0) return { text: marked.replace(mark, ""), file, offset };
  }
  throw new Error(`${mark} stands in no file`);
}
