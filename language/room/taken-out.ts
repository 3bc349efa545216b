import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Gear, Remedy, Station } from "../book/stations.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rareRows } from "./rare-rows.ts";

/** What was taken out of the water for a course and put back, by the entries `remove` and `return`. */

export interface PartState {
  readonly part: string;
  /** As known on the day: out, still in as nothing says that it was taken out, put back before the end of the course, or back after it. */
  readonly is: "out" | "in" | "back early" | "back";
  /** When it was taken out, or put back; NaN where nothing says so. */
  readonly since: number;
  /** The day it was taken out where that was after the day of the first dose; NaN otherwise. */
  readonly lateSince: number;
  /** The entry that says so. */
  readonly row: LogRow | undefined;
}

const ofParts: ReadonlySet<number> = new Set([Kind.remove, Kind.return]);

/** What was taken out of each water and put back, in order of time, by the number of the body. */
export function partRowsByWater(logbook: Logbook): ReadonlyMap<number, readonly LogRow[]> {
  return keptFor(logbook, "taken out", () => {
    const byWater = new Map<number, LogRow[]>();
    for (const row of rareRows(logbook, ofParts, Number.POSITIVE_INFINITY))
      for (const body of new Set(stationsOf(logbook, row).map((station) => station.body))) {
        const known = byWater.get(body);
        if (known === undefined) byWater.set(body, [row]);
        else known.push(row);
      }
    return byWater;
  });
}

/** The stations that the target of a row names: of a group its tanks. */
export function stationsOf(logbook: Logbook, { facts, row }: LogRow): readonly Station[] {
  const target = facts.ints[row * intsPerRow + Col.target]!;
  if (target < 0) return logbook.book.groupTanks(~target) ?? [];
  const station = logbook.book.station(target);
  return station === undefined ? [] : [station];
}

/** The word of a row's subject; empty where it has none. */
export function subjectOf({ facts, row }: LogRow): string {
  const subject = facts.ints[row * intsPerRow + Col.subject]!;
  return subject === noName ? "" : wordOf(subject);
}

/** Whether a word means a part: itself, or a gear of that kind. */
export function means(gears: readonly Gear[], word: string, part: string): boolean {
  const kind = part === "light" ? "lamp" : part;
  return word === part || gears.some(({ name, sort }) => name === word && sort === kind);
}

/** How each part that a remedy is to be given without stands, as known at the end of a day. @param course from its first dose to its end */
export function partsOf(
  logbook: Logbook,
  ledger: Ledger,
  remedy: Remedy,
  course: { readonly from: number; readonly to: number },
  day: number,
): PartState[] {
  if (remedy.without.length === 0) return [];
  const { book } = ledger;
  const rows = (partRowsByWater(logbook).get(ledger.body?.id ?? -1) ?? []).filter((row) => row.day <= day);
  return remedy.without.map((part): PartState => {
    const of = rows.filter((row) => row.time <= course.to && means(book.gears, subjectOf(row), part));
    const after = rows.find(
      (row) => row.time > course.to && row.kind === Kind.return && means(book.gears, subjectOf(row), part),
    );
    const firstDay = Math.floor(course.from);
    const begun = of.findLast((row) => row.day <= firstDay);
    const isOutAtFirst = begun?.kind === Kind.remove;
    const removed = isOutAtFirst ? begun : of.find((row) => row.day > firstDay && row.kind === Kind.remove);
    if (removed === undefined)
      return { part, is: "in", since: Number.NaN, lateSince: Number.NaN, row: undefined };
    const lateSince = isOutAtFirst ? Number.NaN : removed.day;
    const last = of.at(-1)!;
    if (last.kind === Kind.return && isEarly(last, course.to))
      return { part, is: "back early", since: last.time, lateSince, row: last };
    const back = last.kind === Kind.return ? last : after;
    return back === undefined
      ? { part, is: "out", since: last.time, lateSince, row: last }
      : { part, is: "back", since: back.time, lateSince, row: back };
  });
}

/** On the day on which a course is over it is in time. */
const isEarly = ({ day }: LogRow, end: number): boolean => day < Math.floor(end);

/** The entries that put a part of a remedy back while its course ran. */
export function returnedEarly(
  logbook: Logbook,
  ledger: Ledger,
  remedy: Remedy,
  course: { readonly from: number; readonly to: number },
): LogRow[] {
  const rows = partRowsByWater(logbook).get(ledger.body?.id ?? -1) ?? [];
  return rows.filter(
    (row) =>
      row.kind === Kind.return &&
      row.time > course.from &&
      isEarly(row, course.to) &&
      remedy.without.some((part) => means(ledger.book.gears, subjectOf(row), part)),
  );
}
