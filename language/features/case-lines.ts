import { isoOf } from "../book/dates.ts";
import { kindOf } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import type { CaseStory } from "../room/case-book.ts";
import type { CaseEntry } from "../room/cases.ts";
import { rowLocation } from "./card-parts.ts";
import type { CaseLineCard } from "./case-cards.ts";

/** The entries of a case as lines. */

/** What names it and what belongs to it, in order of time; of a list, or of a group, the line once. */
export function entryLines(story: CaseStory): CaseLineCard[] {
  const lines = new Map<string, { time: number; card: CaseLineCard }>();
  const take = (entry: CaseEntry, by: CaseLineCard["by"]): void => {
    const card = lineCard(entry, by);
    const key = card.at === null ? `${entry.day} ${entry.row}` : `${card.at.path} ${card.at.start}`;
    if (!lines.has(key)) lines.set(key, { time: entry.time, card });
  };
  for (const entry of story.entries) take(entry, "named");
  for (const entry of story.afterwards) take(entry, "after");
  for (const { entry, isNamed } of story.deaths) take(entry, isNamed ? "named" : "linked");
  for (const { entry } of story.moves) take(entry, "linked");
  for (const entry of story.linked) take(entry, "linked");
  return [...lines.values()]
    .sort((a, b) => a.time - b.time || (a.card.at?.start ?? 0) - (b.card.at?.start ?? 0))
    .map(({ card }) => card);
}

/** An entry as its line has it. */
export function lineCard(
  { day, block, row, kind }: Omit<CaseEntry, "stations" | "time">,
  by: CaseLineCard["by"],
): CaseLineCard {
  const found = entryOf(block, row);
  const line = found?.line;
  const from = line?.time === undefined ? line?.start : line.time.end;
  return {
    day,
    clock: line?.time?.text ?? "",
    kind: kindOf(kind).word,
    text: line === undefined ? isoOf(day) : block.text.slice(from, line.end).replace(/\s+/g, " ").trim(),
    by,
    at: rowLocation(block, row),
  };
}
