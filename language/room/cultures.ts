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
  /** The latest, and all: what goes on is begun anew in its place. */
  readonly start: SupplyRow;
  readonly starts: readonly SupplyRow[];
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
    return withBackUps(together(begun.map((each) => cultureOf(logbook, each, day))), day);
  });
}

/** What goes on in one place is one culture, begun anew each time: the latest start stands for it. */
function together(all: readonly Culture[]): Culture[] {
  const going = new Map<string, Culture>();
  const made: Culture[] = [];
  for (const each of all) {
    if (each.is !== "running" && each.is !== "growing") made.push(each);
    else if (!Number.isNaN(each.readyUntil)) made.push(each);
    else {
      const place = `${each.name} ${each.start.target}`;
      const known = going.get(place);
      going.set(
        place,
        known === undefined
          ? each
          : {
              ...each,
              // It gives already where an earlier one does.
              is: known.is === "running" ? "running" : each.is,
              starts: [...known.starts, each.start],
              harvests: [...known.harvests, ...each.harvests].sort((a, b) => a.time - b.time),
            },
      );
    }
  }
  return [...made, ...going.values()].sort((a, b) => a.start.time - b.start.time);
}

/** A culture that was begun within these days is taken to live still, beside a later one. A choice of this tool. */
const livesDays = 60;

function withBackUps(all: readonly Culture[], day: number): Culture[] {
  const living = (name: string): number =>
    all
      .filter((each) => each.name === name && each.is !== "harvested" && each.is !== "missed")
      .reduce(
        (sum, { starts }) => sum + Math.max(1, starts.filter((start) => start.day > day - livesDays).length),
        0,
      );
  return all.map((each) => ({
    ...each,
    hasBackUp: each.is !== "harvested" && each.is !== "missed" && living(each.name) > 1,
  }));
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

function cultureOf(
  logbook: Logbook,
  { start, harvests }: { readonly start: SupplyRow; readonly harvests: readonly SupplyRow[] },
  day: number,
): Culture {
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
    starts: [start],
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
