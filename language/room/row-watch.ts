import type { Facts } from "../book/facts.ts";
import { type Block, sameRow } from "../book/source.ts";
import { firstFrom } from "./days.ts";
import type { Logbook } from "./logbook.ts";

/**
 * Whether rows of which a log has many are what they were, without walking the log: after an edit only the days that were edited are held
 * against what they said before.
 * @returns a number that stays the same while the rows say the same, in the same order, and are called the same
 */
export type RowWatch = (logbook: Logbook) => number;

/** What a day said when it was looked at last. */
interface Seen {
  readonly block: Block;
  readonly facts: Facts;
  readonly ids: Int32Array | undefined;
}

interface Watched {
  readonly fills: number;
  edits: number;
  /** Counts how often the rows were others. */
  changes: number;
  readonly days: Map<number, readonly Seen[]>;
}

/** @param isWanted hangs on the facts alone */
export function rowWatch(isWanted: (facts: Facts, row: number) => boolean): RowWatch {
  const watched = new WeakMap<Logbook, Watched>();
  return (logbook) => {
    const { dayGroups } = logbook;
    const { fills, edited } = logbook.dayEdits;
    const known = watched.get(logbook);
    if (known?.fills !== fills) {
      const changes = (known?.changes ?? 0) + 1;
      const days = new Map(dayGroups.map(({ day, blocks }) => [day, blocks.map(seen)]));
      watched.set(logbook, { fills, edits: edited.length, changes, days });
      return changes;
    }
    if (known.edits === edited.length) return known.changes;
    for (const day of new Set(edited.slice(known.edits))) {
      const group = dayGroups[firstFrom(dayGroups, day)];
      const now = group?.day === day ? group.blocks.map(seen) : [];
      const before = known.days.get(day) ?? [];
      known.days.set(day, now);
      if (now.length !== before.length || !now.every((each, at) => isStill(before[at]!, each, isWanted)))
        known.changes++;
    }
    known.edits = edited.length;
    return known.changes;
  };
}

const seen = (block: Block): Seen => ({ block, facts: block.facts, ids: block.ids });

/** Whether the wanted rows of a block are those that it had. */
function isStill(before: Seen, now: Seen, isWanted: (facts: Facts, row: number) => boolean): boolean {
  if (before.block !== now.block) return false;
  if (before.facts === now.facts) return true;
  const next = ({ facts }: Seen, from: number): number => {
    let row = from;
    while (row < facts.count && !isWanted(facts, row)) row++;
    return row;
  };
  let [was, is] = [next(before, 0), next(now, 0)];
  for (
    ;
    was < before.facts.count && is < now.facts.count;
    was = next(before, was + 1), is = next(now, is + 1)
  )
    if (idOf(before, was) !== idOf(now, is) || !sameRow(before.facts, was, now.facts, is)) return false;
  return was >= before.facts.count && is >= now.facts.count;
}

const idOf = ({ ids }: Seen, row: number): number => (ids === undefined ? row : ids[row]!);
