import { readdirSync, readFileSync } from "node:fs";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import type { Span, View } from "../../language/features/view.ts";
import { filesOf, lastDay } from "./marked.ts";

/** The cursor in a log: `⟨⟩`, or `⟨words⟩` for a stretch. The format knows no such brackets. */
const [open, close] = ["⟨", "⟩"] as const;

export interface Marked {
  readonly view: View;
  /** Where the cursor is, or the stretch begins. */
  readonly offset: number;
  readonly span: Span;
  /** The text of the file without the marks. */
  readonly text: string;
}

/** A log of one or more files (`--- name.tank ---`), one of them with a cursor. Today is its last day, unless another is given. */
export function atCursor(log: string, today?: string): Marked {
  const checked = new CheckedLogbook();
  let found: { path: string; span: Span } | undefined;
  for (const [path, content] of filesOf(log)) {
    const start = content.indexOf(open);
    const end = content.indexOf(close) - open.length;
    if (start >= 0) found = { path, span: { start, end } };
    checked.set(path, content.replace(open, "").replace(close, ""));
  }
  if (found === undefined) throw new Error(`there is no cursor ${open}${close} in this log`);
  const { path, span } = found;
  const source = checked.logbook.sources.get(path)!;
  const worldDay = today === undefined ? lastDay(checked) : dayOf(today);
  return { view: { checked, source, worldDay }, offset: span.start, span, text: source.text };
}

/** A log without a cursor, seen from its first file or another. */
export function viewOf(log: string, today?: string, path?: string): View {
  const checked = new CheckedLogbook();
  const files = filesOf(log);
  for (const [name, content] of files) checked.set(name, content);
  const source = checked.logbook.sources.get(path ?? [...files.keys()][0]!)!;
  return { checked, source, worldDay: today === undefined ? lastDay(checked) : dayOf(today) };
}

let cellar: CheckedLogbook | undefined;

/** The sample room, from one of its files. */
export function cellarView(file: string): View {
  if (cellar === undefined) {
    cellar = new CheckedLogbook();
    const folder = new URL("../../samples/cellar/", import.meta.url);
    for (const name of readdirSync(folder))
      if (name.endsWith(".tank")) cellar.set(name, readFileSync(new URL(name, folder), "utf8"));
  }
  return { checked: cellar, source: cellar.logbook.sources.get(file)!, worldDay: dayOf("2031-01-01") };
}
