import { Kind } from "../book/entries/registry.ts";
import { type Facts, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { type Block, idOfRow, sameRow } from "../book/source.ts";
import { type DayGroup, firstFrom, sortDay } from "./days.ts";
import { keptPerBlock } from "./kept-per-block.ts";
import type { Logbook } from "./logbook.ts";

/**
 * Entries of which a log has few: what comes and goes, and what is sick. They are found without walking the log: what was found is kept,
 * and after an edit only the days that were edited are looked at.
 */
const rareKinds: ReadonlySet<number> = new Set([
  Kind.arrive,
  Kind.lose,
  Kind.sell,
  Kind.ship,
  Kind.doa,
  Kind.sick,
  Kind.sample,
  Kind.result,
  Kind.close,
  Kind.send,
  Kind.ask,
  Kind.bath,
  Kind.carry,
  Kind.disinfect,
  Kind.remove,
  Kind.return,
]);

/** A row of the log with its day. An edit of its neighbours leaves it, and moves its place: `facts` and `row` follow. */
export interface LogRow {
  readonly day: number;
  /** In days, as the ledgers have it. */
  readonly time: number;
  readonly block: Block;
  readonly facts: Facts;
  /** Its place in the facts, and the number by which it is referred to. */
  readonly row: number;
  readonly id: number;
  readonly kind: number;
}

const findRare = rowFinder((facts, row) => rareKinds.has(kindOfRow(facts, row)));

/** Rows of some of the rare kinds up to the end of a day, in order of time. Throws a RangeError for a kind that is not rare. */
export function rareRows(logbook: Logbook, kinds: ReadonlySet<number>, until: number): readonly LogRow[] {
  for (const kind of kinds)
    if (!rareKinds.has(kind)) throw new RangeError(`kind ${kind} is not one of the rare`);
  return findRare(logbook, until, (kind) => kinds.has(kind));
}

/** Finds rows up to the end of a day, in order of time, of the kinds that are meant. */
export type RowFinder = (
  logbook: Logbook,
  until: number,
  isMeant?: (kind: number) => boolean,
) => readonly LogRow[];

/** What a finder found in a logbook, day by day: after an edit it looks at the days that were edited and at no other. */
interface Found {
  fills: number;
  edits: number;
  /** Days that have such rows, in order. */
  days: { readonly day: number; readonly rows: readonly LogRow[] }[];
  all: readonly LogRow[];
}

/** A finder of rows of which a log has few. @param isWanted hangs on the facts alone: what it says is kept until the block is edited */
export function rowFinder(isWanted: (facts: Facts, row: number) => boolean): RowFinder {
  const rowsIn = keptPerBlock((facts): readonly number[] => {
    const rows: number[] = [];
    for (let row = 0; row < facts.count; row++) if (isWanted(facts, row)) rows.push(row);
    return rows;
  });
  const kept = new WeakMap<Logbook, Found>();
  return (logbook, until, isMeant) => {
    const { all } = upToDate(logbook, kept, rowsIn);
    if (isMeant === undefined && !((all.at(-1)?.day ?? until) > until)) return all;
    return all.filter(({ day, kind }) => day <= until && (isMeant === undefined || isMeant(kind)));
  };
}

function upToDate(
  logbook: Logbook,
  kept: WeakMap<Logbook, Found>,
  rowsIn: (block: Block) => readonly number[],
): Found {
  const { dayGroups } = logbook;
  const { fills, edited } = logbook.dayEdits;
  const known = kept.get(logbook);
  if (known === undefined || known.fills !== fills) {
    const days = dayGroups.flatMap((group) => {
      const rows = rowsOn(group, rowsIn);
      return rows.length === 0 ? [] : [{ day: group.day, rows }];
    });
    const found = { fills, edits: edited.length, days, all: days.flatMap(({ rows }) => rows) };
    kept.set(logbook, found);
    return found;
  }
  if (known.edits === edited.length) return known;
  let isOther = false;
  for (const day of new Set(edited.slice(known.edits))) {
    const group = dayGroups[firstFrom(dayGroups, day)];
    const rows = group?.day === day ? rowsOn(group, rowsIn) : [];
    const at = firstFrom(known.days, day);
    const isKnown = known.days[at]?.day === day;
    if (rows.length === 0 && !isKnown) continue;
    if (isKnown && areStill(known.days[at]!.rows, rows)) continue;
    isOther = true;
    known.days.splice(at, isKnown ? 1 : 0, ...(rows.length === 0 ? [] : [{ day, rows }]));
  }
  known.edits = edited.length;
  if (isOther) known.all = known.days.flatMap(({ rows }) => rows);
  return known;
}

/** Whether rows are those they were, at the same times; if so they are told where they stand now. */
function areStill(before: readonly LogRow[], now: readonly LogRow[]): boolean {
  const areSame =
    before.length === now.length &&
    before.every((was, at) => {
      const is = now[at]!;
      return was.block === is.block && was.id === is.id && sameRow(was.facts, was.row, is.facts, is.row);
    });
  if (areSame)
    before.forEach((was, at) => {
      const { facts, row } = now[at]!;
      Object.assign(was, { facts, row });
    });
  return areSame;
}

/** The rows of a day that are wanted, in order of time. */
function rowsOn(group: DayGroup, rowsIn: (block: Block) => readonly number[]): LogRow[] {
  const { day } = group;
  const found: LogRow[] = [];
  for (const block of group.blocks) {
    const { facts } = block;
    for (const row of rowsIn(block)) {
      const time = day + minuteOfRow(facts, row) / 1440;
      found.push({ day, time, block, facts, row, id: idOfRow(block, row), kind: kindOfRow(facts, row) });
    }
  }
  sortDay(found, 0, group);
  return found;
}
