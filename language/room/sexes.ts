import { entryOf } from "../book/entry.ts";
import { wilson } from "../science/proportion.ts";
import { isOutside } from "../science/result.ts";
import { Piece } from "../syntax/pieces.ts";
import { type Course, entriesBefore } from "./course.ts";
import type { Moment } from "./observer.ts";

/** Males and females as they were told apart last: `3.5.2`. */
export interface Sexes extends Moment {
  readonly males: number;
  readonly females: number;
  readonly unsexed: number;
  /** Males among those that were sexed, with the interval of Wilson (95 %); null where none were. */
  readonly share: { readonly best: number; readonly low: number; readonly high: number } | null;
}

/** So many entries back it is looked for. */
const mostEntries = 60;

/** The latest entry of a species in a tank, before a time, that tells the sexes; undefined where none of the last does. */
export function sexesBefore(course: Course, time: number): Sexes | undefined {
  const { series, at } = course;
  const end = entriesBefore(course, time);
  for (let index = end - 1; index >= Math.max(0, end - mostEntries); index--) {
    const entry = at[index]!;
    const block = series.block[entry]!;
    const value = entryOf(block, series.row[entry]!)?.item.animals;
    if (value?.kind !== Piece.sexed) continue;
    const { value: males, second: females, third: unsexed } = value;
    const limits = wilson(males, males + females);
    const share = isOutside(limits) ? null : { best: males / (males + females), ...limits };
    return { time: series.time[entry]!, block, row: series.row[entry]!, males, females, unsexed, share };
  }
  return undefined;
}
