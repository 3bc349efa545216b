import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { nameOf } from "../book/interner.ts";
import { type Block, idOfRow } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { firstFrom } from "./days.ts";
import { keptPerBlock } from "./kept-per-block.ts";
import type { Logbook } from "./logbook.ts";

/** When a tank was fed last, live food and leaves included. */

export interface Fed {
  /** In days; of an entry without a time of day the time it counts at. */
  readonly time: number;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
}

/** A time before which is looked, or an entry: it and what stands below it do not count. `row` is its place in the facts. */
export interface Before {
  readonly time: number;
  readonly block?: Block;
  readonly row?: number;
}

/**
 * The last feeding of a tank before a time: its own, its system's, or that of a group it is in. `feed none` is no feeding. Undefined where
 * there was none in the days before that are looked at.
 */
export function lastFed(logbook: Logbook, tank: Tank, before: Before, daysBack: number): Fed | undefined {
  const { dayGroups, book } = logbook;
  const own = new Set([nameOf(tank.name), ...(tank.system === "" ? [] : [nameOf(tank.system)])]);
  const isOf = (target: number): boolean =>
    target >= 0 ? own.has(target) : (book.groupTanks(~target)?.includes(tank) ?? false);
  const first = Math.floor(before.time) - daysBack;
  for (let at = firstFrom(dayGroups, Math.floor(before.time) + 1) - 1; at >= 0; at--) {
    const { day, blocks } = dayGroups[at]!;
    if (day < first) return undefined;
    let found: Fed | undefined;
    for (const block of blocks)
      for (const { target, minute, row } of feedsIn(block)) {
        const time = day + minute / 1440;
        const isBefore =
          time < before.time || (time === before.time && (block !== before.block || row < (before.row ?? 0)));
        if (isBefore && !(time < (found?.time ?? Number.NEGATIVE_INFINITY)) && isOf(target))
          found = { time, block, row: idOfRow(block, row) };
      }
    if (found !== undefined) return found;
  }
  return undefined;
}

interface Feed {
  readonly target: number;
  readonly minute: number;
  readonly row: number;
}

const nothing = nameOf("none");

/** The feedings of a block; kept until it is edited. */
const feedsIn = keptPerBlock((facts): readonly Feed[] => {
  const feeds: Feed[] = [];
  for (let row = 0; row < facts.count; row++) {
    if (kindOfRow(facts, row) !== Kind.feed) continue;
    const at = row * intsPerRow;
    if (facts.ints[at + Col.subject] === nothing) continue;
    feeds.push({ target: facts.ints[at + Col.target]!, minute: minuteOfRow(facts, row), row });
  }
  return feeds;
});
