import { Kind } from "../book/entries/registry.ts";
import { floatsPerRow, Num, unitOfSecond } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import type { Food } from "../book/stations.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { isBefore, type SupplyRow, supplyRows } from "./supply-rows.ts";

/** Cultures of live food, from their start to their harvest. */

/**
 * `growing` before it is ready; `ready` while it can be harvested; `overdue` when its time is past; `missed` when that is so long ago that
 * nobody will harvest it; `harvested`; and `running` for a culture that goes on, or of which nobody states when it is ready.
 */
export type CultureIs = "growing" | "ready" | "overdue" | "missed" | "harvested" | "running";

export interface Culture {
  readonly name: string;
  readonly food: Food | undefined;
  readonly start: SupplyRow;
  /** In days; NaN where nobody states it. A food that states one time, and no window, is harvested from then on. */
  readonly readyFrom: number;
  readonly readyUntil: number;
  readonly is: CultureIs;
  readonly harvests: readonly SupplyRow[];
  /** Another of the same food is going: what is lost in this one is not lost. */
  readonly hasBackUp: boolean;
  /** NaN where it is not written. */
  readonly temperatureC: number;
}

const kinds: ReadonlySet<number> = new Set([Kind.start, Kind.harvest]);
/** A culture that was begun longer ago, and not harvested since, is none any more. A choice of this tool. */
const lookBackDays = 180;
/** So long after its time a batch is missed, and nobody is reminded of it. A choice of this tool. */
const remindDays = 3;

/** The cultures that were begun in the last half year, by the end of a day, in order of their starts. */
export function culturesOn(logbook: Logbook, day: number): readonly Culture[] {
  return keptFor(logbook, `cultures ${day}`, () => {
    const rows = supplyRows(logbook, kinds, day - lookBackDays + 1, day);
    const begun = rows
      .filter(({ kind }) => kind === Kind.start)
      .map((start) => ({ start, harvests: [] as SupplyRow[] }));
    for (const row of rows) {
      if (row.kind !== Kind.harvest) continue;
      const own = begun.filter(
        ({ start }) => start.subject === row.subject && start.target === row.target && isBefore(start, row),
      );
      // Of batches in one place the oldest that still stands is harvested; what goes on is harvested again and again.
      const open = own.find(
        ({ start, harvests }) =>
          isBatch(logbook, start) && harvests.length === 0 && stillStands(logbook, start, row.day),
      );
      (open ?? own.at(-1))?.harvests.push(row);
    }
    const made = begun.map(({ start, harvests }) => cultureOf(logbook, start, harvests, day));
    const going = (each: Culture): boolean => each.is !== "harvested" && each.is !== "missed";
    return made.map((each) => ({
      ...each,
      hasBackUp:
        going(each) && made.some((other) => other !== each && other.name === each.name && going(other)),
    }));
  });
}

/** What states a window hatches once: its harvest ends it. */
function isBatch(logbook: Logbook, { subject }: SupplyRow): boolean {
  const food = logbook.book.foods.get(wordOf(subject));
  return food !== undefined && food.readyUntilDays > food.readyFromDays;
}

/** Whether a batch may still be harvested on a day, late though it is. */
function stillStands({ book }: Logbook, { subject, time }: SupplyRow, day: number): boolean {
  const until = time + (book.foods.get(wordOf(subject))?.readyUntilDays ?? Number.NaN);
  return Math.floor(until) + remindDays >= day;
}

function cultureOf(logbook: Logbook, start: SupplyRow, harvests: readonly SupplyRow[], day: number): Culture {
  const { book } = logbook;
  const name = wordOf(start.subject);
  const food = book.foods.get(name);
  const once = isBatch(logbook, start);
  const readyFrom = start.time + (food?.readyFromDays ?? Number.NaN);
  const readyUntil = once ? start.time + food!.readyUntilDays : Number.NaN;
  const second = start.facts.floats[start.row * floatsPerRow + Num.second]!;
  return {
    name,
    food,
    start,
    readyFrom,
    readyUntil,
    is: stateOf(once, readyFrom, readyUntil, harvests.length > 0, day),
    harvests,
    hasBackUp: false,
    temperatureC: book.units.canonical(second, unitOfSecond(start.facts, start.row), "temperature"),
  };
}

function stateOf(
  isBatchFood: boolean,
  readyFrom: number,
  readyUntil: number,
  isHarvested: boolean,
  day: number,
): CultureIs {
  if (!isBatchFood) {
    if (isHarvested || !(readyFrom >= day + 1)) return "running";
    return "growing";
  }
  if (isHarvested) return "harvested";
  if (readyFrom >= day + 1) return "growing";
  if (readyUntil >= day) return "ready";
  return Math.floor(readyUntil) + remindDays >= day ? "overdue" : "missed";
}
