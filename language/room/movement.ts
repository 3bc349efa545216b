import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { middleOf } from "./amounts.ts";
import { type Course, entriesBefore, factsAt, there } from "./course.ts";
import type { Ledger } from "./ledger.ts";

/** How animals are lost; `lost` where the entry does not say. */
export const lossWords = ["found", "missing", "jumped", "culled", "euthanised", "lost"] as const;
export type LossWord = (typeof lossWords)[number];

/** What an entry did to the book of one species in one tank. */
export interface Movement {
  readonly is: "arrive" | "hatch" | "lose" | "in" | "out" | "sell" | "ship" | "count";
  readonly time: number;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
  readonly tank: Tank;
  readonly species: string;
  /** Empty where none is named. */
  readonly lot: string;
  /** As the entry has it: so many came, or went. Of a count none. */
  readonly animals: number;
  readonly how: LossWord | undefined;
  /**
   * What the book is put right by, beside what the entry says: a count that differs, a first count, animals that left and were not
   * there by the book. Above 0 they were found, below they are unaccounted for.
   */
  readonly adjusted: number;
  /** By the book before and after; NaN where it knows nothing. */
  readonly before: number;
  readonly after: number;
}

/**
 * What happened to the book of a course from one time to before another.
 * @param only entries of this kind: the others are passed over before anything is made of them
 */
export function movements(
  ledger: Ledger,
  course: Course,
  from: number,
  to: number,
  only?: number,
): Movement[] {
  const found: Movement[] = [];
  const end = entriesBefore(course, to);
  for (let index = entriesBefore(course, from); index < end; index++) {
    if (only !== undefined && course.series.kind[course.at[index]!] !== only) continue;
    const movement = movementAt(ledger, course, course.at[index]!);
    if (movement !== undefined) found.push(movement);
  }
  return found;
}

const wordsOfKinds = new Map<number, Movement["is"]>([
  [Kind.arrive, "arrive"],
  [Kind.hatch, "hatch"],
  [Kind.lose, "lose"],
  [Kind.sell, "sell"],
  [Kind.ship, "ship"],
  [Kind.count, "count"],
]);

function movementAt({ book }: Ledger, { series, holding }: Course, at: number): Movement | undefined {
  const entry = factsAt(series, at);
  const tank = book.stations[holding.tank] as Tank | undefined;
  if (entry === undefined || tank === undefined) return undefined;
  const { facts, row } = entry;
  const ints = row * intsPerRow;
  const kind = kindOfRow(facts, row);
  const [before, after] = [series.first[at]!, series.second[at]!];
  // What goes to where it is does not count, so a tank is never both ends of a move.
  const isTo = facts.ints[ints + Col.object] === nameOf(tank.name);
  const is = kind === Kind.move ? (isTo ? "in" : "out") : wordsOfKinds.get(kind);
  if (is === undefined) return undefined;
  const animals = is === "count" ? 0 : middleOf(facts, row);
  const signed = is === "arrive" || is === "hatch" || is === "in" ? animals : -animals;
  return {
    is,
    time: series.time[at]!,
    block: series.block[at]!,
    row: series.row[at]!,
    tank,
    species: wordOf(facts.ints[ints + Col.subject]!),
    lot: wordOf(facts.ints[ints + Col.lot]!),
    animals,
    how: kind === Kind.lose ? lossWords[(choiceOfRow(facts, row) + 5) % 6]! : undefined,
    adjusted: there(after) - there(before) - signed,
    before,
    after,
  };
}
