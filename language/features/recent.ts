import type { Book } from "../book/book.ts";
import { kindNumber, kindOf } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf } from "../book/interner.ts";
import { type Block, idOfRow, rowOfId } from "../book/source.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { DayGroup } from "../room/days.ts";
import { parseBlock } from "../syntax/parser.ts";
import { Piece } from "../syntax/pieces.ts";
import { lineOfText } from "./lines.ts";
import type { View } from "./view.ts";

/** What was written lately, in the keeper's own words: what is usual is offered as it was last written. */

/** An entry in its words. */
export interface EntryWords {
  /** As written, with `@`. */
  readonly target: string;
  readonly kind: string;
  /** Without the text at the end and the comment. */
  readonly arguments: string;
}

/** The words of the entry of a row; undefined for a row of a sheet, and one that an edit took away. */
export function wordsOfRow(block: Block, id: number): EntryWords | undefined {
  const row = rowOfId(block, id);
  if (row < 0) return undefined;
  const line = lineOfText(block.text, block.facts.ints[row * intsPerRow + Col.start]!);
  let words: EntryWords | undefined;
  parseBlock(
    line.text,
    {
      head: () => {},
      broken: () => {},
      line: (pieces) => {
        const target = pieces.kind[0] === Piece.time ? 1 : 0;
        const kind = target + 1;
        if (pieces.kind[kind] !== Piece.word || kindNumber(pieces.word[kind]!) === undefined) return;
        let last = pieces.count - 1;
        const isNote =
          pieces.kind[last] === Piece.text && !takesText(pieces.word[kind]!, pieces.word[last - 1]!);
        if (isNote) last--;
        words = {
          target: line.text.slice(pieces.start[target]!, pieces.end[target]!),
          kind: pieces.word[kind]!,
          arguments:
            last > kind
              ? line.text.slice(pieces.start[kind + 1]!, pieces.end[last]!).replace(/\s+/g, " ")
              : "",
        };
      },
    },
    true,
  );
  return words;
}

/** Whether a text behind a word is led by it: `from "a friend"`. */
function takesText(kind: string, before: string): boolean {
  return kindOf(kindNumber(kind)!).slots.some((slot) => slot.lead !== undefined && slot.lead === before);
}

/** What a target, with its `@` if it has one, stands for: numbers of names as they stand in facts, and the stations. */
export interface Aim {
  readonly stations: readonly Station[];
  readonly names: ReadonlySet<number>;
}

/** A target and, of a tank, the groups that it is in; of a group also its tanks. */
export function aimOf(book: Book, target: string): Aim {
  if (target.startsWith("@")) {
    const tanks = book.groups.get(target.slice(1))?.tanks ?? [];
    return {
      stations: tanks,
      names: new Set([~nameOf(target.slice(1)), ...tanks.map((tank) => nameOf(tank.name))]),
    };
  }
  const station = book.station(nameOf(target));
  const names = new Set([nameOf(target)]);
  if (station === undefined) return { stations: [], names };
  for (const [name, { tanks }] of book.groups) if (tanks.includes(station as Tank)) names.add(~nameOf(name));
  return { stations: [station], names };
}

export interface RecentRow {
  readonly block: Block;
  readonly id: number;
  readonly day: number;
}

/**
 * Rows of a kind, the latest first, up to a day.
 * @param aim only those of these targets
 * @param days so far back
 */
export function* recentRows(
  view: View,
  kind: number,
  until: number,
  aim?: Aim,
  days = 120,
): Generator<RecentRow> {
  const groups = view.checked.logbook.dayGroups;
  for (let at = lastUpTo(groups, until); at >= 0; at--) {
    const { day, blocks } = groups[at]!;
    if (day < until - days) return;
    for (let index = blocks.length - 1; index >= 0; index--) {
      const block = blocks[index]!;
      const { facts } = block;
      for (let row = facts.count - 1; row >= 0; row--) {
        if (kindOfRow(facts, row) !== kind) continue;
        if (aim !== undefined && !aim.names.has(facts.ints[row * intsPerRow + Col.target]!)) continue;
        yield { block, id: idOfRow(block, row), day };
      }
    }
  }
}

function lastUpTo(groups: readonly DayGroup[], day: number): number {
  let at = groups.length - 1;
  while (at >= 0 && groups[at]!.day > day) at--;
  return at;
}

/** Texts by how often they stand among some, the later first where that is equal. @param texts the latest first */
export function byUse(texts: Iterable<string>): string[] {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]).map(([text]) => text);
}

/** What is usual at a target: the different arguments of its latest entries of a kind, the most frequent first. */
export function usualArguments(view: View, kind: number, aim: Aim, until: number, most = 12): string[] {
  const texts: string[] = [];
  let last: string | undefined;
  for (const { block, id, day } of recentRows(view, kind, until, aim)) {
    const words = wordsOfRow(block, id);
    // The rows of one entry are one.
    const key = `${day} ${words?.target} ${words?.arguments}`;
    if (words === undefined || key === last) continue;
    last = key;
    texts.push(words.arguments);
    if (texts.length >= most) break;
  }
  return byUse(texts).filter((text) => text !== "");
}
