import { type Facts, minuteOfRow } from "../book/facts.ts";
import type { Block } from "../book/source.ts";

/** The day blocks of one day, in order of files and lines. */
export interface DayGroup {
  readonly day: number;
  readonly blocks: Block[];
  /** Rows in order of time, as block index and row in turn; undefined while the order they are written in is that order. */
  order: Int32Array | undefined;
}

/** All day blocks of a logbook in order of their days. */
export class Days {
  readonly groups: DayGroup[] = [];
  /** How often all of it was filled anew, and the days that were edited since, one an edit: for what keeps what it found. */
  fills = 0;
  edited: number[] = [];
  private readonly rankOf: (block: Block) => number;

  /** @param rankOf the place of a block's file among the files */
  constructor(rankOf: (block: Block) => number) {
    this.rankOf = rankOf;
  }

  /** Takes in many blocks at once. */
  fill(blocks: Iterable<Block>): void {
    const byDay = new Map<number, Block[]>();
    for (const block of blocks) {
      if (Number.isNaN(block.day)) continue;
      const known = byDay.get(block.day);
      if (known === undefined) byDay.set(block.day, [block]);
      else known.push(block);
    }
    this.fills++;
    this.edited = [];
    this.groups.length = 0;
    for (const day of [...byDay.keys()].sort((a, b) => a - b)) {
      this.groups.push(this.group(day, byDay.get(day)!));
    }
  }

  add(block: Block): void {
    if (Number.isNaN(block.day)) return;
    this.edited.push(block.day);
    const at = this.firstFrom(block.day);
    const known = this.groups[at];
    if (known?.day === block.day) this.groups[at] = this.group(block.day, [...known.blocks, block]);
    else this.groups.splice(at, 0, this.group(block.day, [block]));
  }

  remove(block: Block): void {
    if (Number.isNaN(block.day)) return;
    const at = this.firstFrom(block.day);
    const known = this.groups[at];
    if (known?.day !== block.day) return;
    this.edited.push(block.day);
    const left = known.blocks.filter((each) => each !== block);
    if (left.length === 0) this.groups.splice(at, 1);
    else this.groups[at] = this.group(block.day, left);
  }

  /** A block of the group says something else now. */
  revise(block: Block): void {
    const known = this.groups[this.firstFrom(block.day)];
    this.edited.push(block.day);
    if (known?.day === block.day) known.order = orderOf(known.blocks);
  }

  /** The index of the first group on or after a day. */
  firstFrom(day: number): number {
    return firstFrom(this.groups, day);
  }

  private group(day: number, blocks: Block[]): DayGroup {
    if (blocks.length > 1) blocks.sort((a, b) => this.rankOf(a) - this.rankOf(b) || a.start - b.start);
    return { day, blocks, order: orderOf(blocks) };
  }
}

/** The index of the first group on or after a day. */
export function firstFrom(groups: readonly { readonly day: number }[], day: number): number {
  let low = 0;
  let high = groups.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (groups[middle]!.day < day) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Puts what was found of a day, from a place in a list on, in order of time: that in which it is written, unless the day says otherwise.
 * What is equal stays in place.
 */
export function sortDay(found: { readonly time: number }[], from: number, { order }: DayGroup): void {
  if (order !== undefined && found.length > from + 1)
    found.push(...found.splice(from).sort((a, b) => a.time - b.time));
}

/** Calls `visit` for each row of a day in order of time. */
export function eachRow(group: DayGroup, visit: (block: Block, facts: Facts, row: number) => void): void {
  const { blocks, order } = group;
  if (order === undefined) {
    for (const block of blocks) {
      const { facts } = block;
      for (let row = 0; row < facts.count; row++) visit(block, facts, row);
    }
    return;
  }
  for (let at = 0; at < order.length; at += 2) {
    const block = blocks[order[at]!]!;
    visit(block, block.facts, order[at + 1]!);
  }
}

function orderOf(blocks: readonly Block[]): Int32Array | undefined {
  let last = 0;
  let isSorted = true;
  let count = 0;
  for (const { facts } of blocks) {
    count += facts.count;
    for (let row = 0; isSorted && row < facts.count; row++) {
      const minute = minuteOfRow(facts, row);
      if (minute < last) isSorted = false;
      last = minute;
    }
  }
  if (isSorted) return undefined;
  const rows: { block: number; row: number; minute: number }[] = [];
  blocks.forEach(({ facts }, block) => {
    for (let row = 0; row < facts.count; row++) rows.push({ block, row, minute: minuteOfRow(facts, row) });
  });
  rows.sort((a, b) => a.minute - b.minute);
  const order = new Int32Array(count * 2);
  rows.forEach(({ block, row }, at) => {
    order[at * 2] = block;
    order[at * 2 + 1] = row;
  });
  return order;
}
