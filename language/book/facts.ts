import type { Problem } from "./problem.ts";

/**
 * What the lines of a day block say, in columns: one row an entry, or one an item of an entry that lists several.
 *
 * The facts of a block are a function of what counts of its text alone. No definition is looked up, no default unit applied, no group spread out:
 * names are numbers of words, units are the codes that were written. So an edit elsewhere never makes them stale.
 */
export interface Facts {
  readonly count: number;
  readonly ints: Int32Array;
  readonly floats: Float64Array;
  readonly problems: readonly Problem[];
}

/** Columns of `ints`, of which a row has `intsPerRow`. */
export const Col = {
  /** Kind, choice and minute of the day, packed: `kindOfRow`, `choiceOfRow`, `minuteOfRow`. */
  what: 0,
  /** The name of the target; of a group its complement (`~name`). */
  target: 1,
  /** A name; for a test the number of the parameter. */
  subject: 2,
  object: 3,
  /** The unit codes of amount (low half) and second (high half). */
  units: 4,
  /** The marks of amount (low byte) and second (next byte), and above them whether it is a further item of its entry. */
  marks: 5,
  /** Where the entry, or its item, stands in the block. */
  start: 6,
  end: 7,
  /** The lot of animals that is meant: a batch, a brood, or one by its name. */
  lot: 8,
  /** What was worked with, or the vessel the water came from: a gear, or a word. */
  tool: 9,
} as const;
export const intsPerRow = 10;

/** Columns that hold names. */
export type NameColumn = typeof Col.subject | typeof Col.object | typeof Col.lot | typeof Col.tool;

/** Columns of `floats`, of which a row has `floatsPerRow`; NaN where there is nothing. */
export const Num = {
  /** As written; the sum of a sexed count; the lower end of a range. */
  amount: 0,
  /** The upper end of a range. */
  high: 1,
  second: 2,
} as const;
export const floatsPerRow = 3;

export const noFacts: Facts = {
  count: 0,
  ints: new Int32Array(0),
  floats: new Float64Array(0),
  problems: [],
};

export const kindOfRow = (facts: Facts, row: number): number => facts.ints[row * intsPerRow]! & 0xff;
/** The number of the word chosen, counted from 1; 0 is none. */
export const choiceOfRow = (facts: Facts, row: number): number => (facts.ints[row * intsPerRow]! >> 8) & 0xff;
/** Minutes after midnight at which the entry counts. */
export const minuteOfRow = (facts: Facts, row: number): number => facts.ints[row * intsPerRow]! >>> 16;
export const unitOfAmount = (facts: Facts, row: number): number =>
  (facts.ints[row * intsPerRow + Col.units]! << 16) >> 16;
export const unitOfSecond = (facts: Facts, row: number): number =>
  facts.ints[row * intsPerRow + Col.units]! >> 16;
/** Whether the row is an item of the same entry, or row of a sheet, as the row before it. */
export const isFurther = (facts: Facts, row: number): boolean =>
  (facts.ints[row * intsPerRow + Col.marks]! & furtherMark) !== 0;
const furtherMark = 1 << 16;
export const markOfAmount = (facts: Facts, row: number): number =>
  facts.ints[row * intsPerRow + Col.marks]! & 0xff;

/** Gathers rows for one block after another; the columns it grows are used again. */
export class FactBuilder {
  private ints = new Int32Array(intsPerRow * 256);
  private floats = new Float64Array(floatsPerRow * 256);
  private count = 0;
  problems: Problem[] = [];

  begin(): void {
    this.count = 0;
    this.problems = [];
  }

  /** Adds an empty row and returns its number. */
  add(kind: number, minute: number, target: number, start: number, end: number): number {
    const row = this.count++;
    if ((row + 1) * intsPerRow > this.ints.length) this.grow();
    const at = row * intsPerRow;
    const { ints, floats } = this;
    ints[at] = kind | (minute << 16);
    ints[at + Col.target] = target;
    ints[at + Col.subject] = -1;
    ints[at + Col.object] = -1;
    ints[at + Col.units] = -1;
    ints[at + Col.marks] = 0;
    ints[at + Col.start] = start;
    ints[at + Col.end] = end;
    ints[at + Col.lot] = -1;
    ints[at + Col.tool] = -1;
    const number = row * floatsPerRow;
    floats[number] = floats[number + 1] = floats[number + 2] = Number.NaN;
    return row;
  }

  setName(row: number, column: NameColumn, name: number): void {
    this.ints[row * intsPerRow + column] = name;
  }

  setFurther(row: number): void {
    this.ints[row * intsPerRow + Col.marks]! |= furtherMark;
  }

  setChoice(row: number, code: number): void {
    this.ints[row * intsPerRow]! |= code << 8;
  }

  setAmount(row: number, value: number, high: number, unit: number, mark: number): void {
    const at = row * intsPerRow;
    this.ints[at + Col.units] = (this.ints[at + Col.units]! & ~0xffff) | (unit & 0xffff);
    this.ints[at + Col.marks]! |= mark;
    this.floats[row * floatsPerRow] = value;
    this.floats[row * floatsPerRow + Num.high] = high;
  }

  setSecond(row: number, value: number, unit: number, mark: number): void {
    const at = row * intsPerRow;
    this.ints[at + Col.units] = (this.ints[at + Col.units]! & 0xffff) | (unit << 16);
    this.ints[at + Col.marks]! |= mark << 8;
    this.floats[row * floatsPerRow + Num.second] = value;
  }

  finish(): Facts {
    return {
      count: this.count,
      ints: this.ints.slice(0, this.count * intsPerRow),
      floats: this.floats.slice(0, this.count * floatsPerRow),
      problems: this.problems,
    };
  }

  private grow(): void {
    const ints = new Int32Array(this.ints.length * 2);
    ints.set(this.ints);
    this.ints = ints;
    const floats = new Float64Array(this.floats.length * 2);
    floats.set(this.floats);
    this.floats = floats;
  }
}
