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

  add({ time, block, row }: Moment, order: number, first: number, second: number, tag: number): number {
    const at = this.length++;
    if (at === this.size) this.grow();
    this.time[at] = time;
    this.order[at] = order;
    this.block[at] = block;
    this.row[at] = row;
    this.first[at] = first;
    this.second[at] = second;
    this.tag[at] = tag;
    return at;
  }

  cut(length: number): void {
    this.length = length;
    this.block.length = length;
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
  }
}

function larger<T extends { set(from: T): void }>(from: T, to: T): T {
  to.set(from);
  return to;
}
