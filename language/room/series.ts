import type { Block } from "../book/source.ts";
import type { Moment } from "./observer.ts";

/** Things that happened, in order of time, in columns that only grow; a length is all it takes to go back to an earlier state. */
export class Series {
  length = 0;
  private size = 8;
  time = new Float64Array(8);
  /** The place among the rows of the same minute in this water. */
  order = new Int32Array(8);
  readonly block: Block[] = [];
  row = new Int32Array(8);
  /**
   * What is measured: of a reading its lower and upper end, of an exchange the fraction and what was added, of a dose what it added
   * and what was there, of animals how many there were before and after.
   */
  first = new Float64Array(8);
  second = new Float64Array(8);
  /** A small number: of a reading the tank, of an exchange the source water, of a dose the remedy, of animals the holding. */
  tag = new Int32Array(8);
  /** Of animals the kind of the entry, and whether the number after it rests on an estimate. */
  kind = new Uint8Array(8);
  isAbout = new Uint8Array(8);

  add(
    { time, block, row }: Moment,
    order: number,
    first: number,
    second: number,
    tag: number,
    kind = 0,
    isAbout = false,
  ): number {
    const at = this.length++;
    if (at === this.size) this.grow();
    this.time[at] = time;
    this.order[at] = order;
    this.block[at] = block;
    this.row[at] = row;
    this.first[at] = first;
    this.second[at] = second;
    this.tag[at] = tag;
    this.kind[at] = kind;
    this.isAbout[at] = Number(isAbout);
    return at;
  }

  cut(length: number): void {
    this.length = length;
    this.block.length = length;
  }

  /** A copy of what stands behind a length. */
  behind(length: number): SeriesPart {
    const part = (column: Float64Array | Int32Array | Uint8Array) => column.slice(length, this.length);
    return { length: this.length - length, columns: this.columns.map(part), block: this.block.slice(length) };
  }

  /** Adds a copy again, without so many of its first things. */
  addBehind({ length, columns, block }: SeriesPart, without: number): void {
    const at = this.length;
    this.length += length - without;
    while (this.length > this.size) this.grow();
    this.columns.forEach((column, index) => {
      column.set(columns[index]!.subarray(without), at);
    });
    for (let index = without; index < length; index++) this.block.push(block[index]!);
  }

  /**
   * Whether what stands behind a length is what the first things of a copy were, as far back as to a time.
   * @param of so many things of the copy
   */
  isAs(
    part: SeriesPart | undefined,
    of: number,
    length: number,
    fromTime = Number.NEGATIVE_INFINITY,
  ): boolean {
    const { columns } = this;
    for (let now = this.length - 1, then = of - 1; ; now--, then--) {
      const isNow = now >= length && this.time[now]! >= fromTime;
      const isThen = part !== undefined && then >= 0 && part.columns[0]![then]! >= fromTime;
      if (!isNow || !isThen) return isNow === isThen;
      if (this.block[now] !== part.block[then]) return false;
      for (let index = 0; index < columns.length; index++)
        if (!Object.is(columns[index]![now], part.columns[index]![then])) return false;
    }
  }

  /** Time is the first. */
  private get columns() {
    return [this.time, this.order, this.row, this.first, this.second, this.tag, this.kind, this.isAbout];
  }

  /** The index of the first thing at or after a time. */
  from(time: number): number {
    let low = 0;
    let high = this.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.time[middle]! < time) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** The index of what a row told; -1 if it told nothing here. @param tag to tell apart what one row told of several things */
  find(time: number, block: Block, row: number, tag?: number): number {
    for (let at = this.from(time); at < this.length && this.time[at] === time; at++) {
      if (this.row[at] !== row || this.block[at] !== block) continue;
      if (tag === undefined || this.tag[at] === tag) return at;
    }
    return -1;
  }

  private grow(): void {
    this.size *= 2;
    this.time = larger(this.time, new Float64Array(this.size));
    this.order = larger(this.order, new Int32Array(this.size));
    this.first = larger(this.first, new Float64Array(this.size));
    this.second = larger(this.second, new Float64Array(this.size));
    this.row = larger(this.row, new Int32Array(this.size));
    this.tag = larger(this.tag, new Int32Array(this.size));
    this.kind = larger(this.kind, new Uint8Array(this.size));
    this.isAbout = larger(this.isAbout, new Uint8Array(this.size));
  }
}

/** A copy of some things of a series, in its columns. */
export interface SeriesPart {
  readonly length: number;
  readonly columns: readonly (Float64Array | Int32Array | Uint8Array)[];
  readonly block: readonly Block[];
}

function larger<T extends { set(from: T): void }>(from: T, to: T): T {
  to.set(from);
  return to;
}
