import { type Facts, floatsPerRow, markOfAmount, Num } from "../book/facts.ts";
import { Mark } from "../syntax/pieces.ts";

/** The amounts of rows, where one figure is needed. */

/** An amount as written: of a range its middle. */
export function amountOf(facts: Facts, row: number): number {
  const low = facts.floats[row * floatsPerRow]!;
  const high = facts.floats[row * floatsPerRow + Num.high]!;
  return Number.isNaN(high) ? low : (low + high) / 2;
}

/** A number of animals: of a range its middle, rounded down. */
export function middleOf(facts: Facts, row: number): number {
  const low = facts.floats[row * floatsPerRow]!;
  const high = facts.floats[row * floatsPerRow + Num.high]!;
  return Number.isNaN(low) ? 0 : Number.isNaN(high) ? low : Math.floor((low + high) / 2);
}

/** Whether a number of animals is an estimate. */
export function isAbout(facts: Facts, row: number): boolean {
  const mark = markOfAmount(facts, row);
  return mark === Mark.about || mark === Mark.range;
}
