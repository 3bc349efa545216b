import { isoOf } from "../../book/dates.ts";
import { type DayLine, lineAt } from "../../book/entry.ts";
import type { Block } from "../../book/source.ts";
import { code, link, list, paragraphs, plain } from "../markdown.ts";
import { type Named, usesOf } from "../names.ts";
import { locationOf } from "../view.ts";
import { lotText } from "./lot.ts";
import { lotHomesText } from "./lot-homes.ts";
import { counted, headline, type Scope } from "./parts.ts";

/** A lot, an order, or a case that nothing opened: what runs through the log under one name, entry by entry. */

interface Knot {
  readonly block: Block;
  readonly line: DayLine;
}

/** The entries that name it, in order of days. */
function entriesOfThread(scope: Scope, named: Named): Knot[] {
  const knots = new Map<string, Knot>();
  for (const { block, start } of usesOf(scope.view.checked, named)) {
    const line = Number.isNaN(block.day) ? undefined : lineAt(block, start);
    if (line !== undefined) knots.set(`${block.file.path} ${block.start + line.start}`, { block, line });
  }
  return [...knots.values()].sort((a, b) => a.block.day - b.block.day || a.line.start - b.line.start);
}

/** So many entries are listed; of more the latest. */
const mostListed = 20;

export function threadHover(scope: Scope, named: Named): string {
  const knots = entriesOfThread(scope, named);
  const hidden = Math.max(0, knots.length - mostListed);
  const items = knots.slice(hidden).map(({ block, line }) => {
    const words = block.text.slice(line.start, line.end).replace(/\s+/g, " ");
    const href = scope.address?.(locationOf({ block, start: line.start, end: line.end }));
    const day = isoOf(block.day);
    return `${href === undefined ? plain(day) : link(day, href)} ${code(words)}`;
  });
  return paragraphs(
    headline(named.name, named.sort, counted(knots.length, "entry", "entries")),
    named.sort === "lot" ? lotText(scope, named.name) : "",
    named.sort === "lot" ? lotHomesText(scope, named.name) : "",
    list(hidden > 0 ? [`… ${hidden} before`, ...items] : items),
  );
}
