import { clockOf, spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { minuteOfRow } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Case, casesUntil } from "./cases.ts";
import { type Before, lastFed } from "./feeds.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { lastFromOutside, quarantineAt } from "./quarantine.ts";
import type { Against, Reason } from "./reason.ts";
import { settledUntil } from "./settled-until.ts";
import { remedyReasons } from "./treated.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";
import { whyFromOutside, whyQuarantine } from "./why-quarantine.ts";

/** What speaks against letting animals of a tank go, at a time: each with the entries it follows from. */

/** A moment of a day: its end, or the entry before which is looked. */
export interface At extends Before {
  readonly day: number;
}

export const endOf = (day: number): At => ({ day, time: day + 1 });

/** The reasons against letting animals of a tank go, the one that lasts longest first. */
export function reasonsAgainst(logbook: Logbook, tank: Tank, at: At): Reason[] {
  return [
    ...ownReasons(logbook, tank, at),
    ...quarantineReasons(logbook, tank, at),
    ...caseReasons(logbook, tank, at),
  ].sort((a, b) => b.until - a.until);
}

/** Those that follow from the ledger of the tank alone, and hold as long as it is not derived again. */
export function ownReasons(logbook: Logbook, tank: Tank, at: At): Reason[] {
  const ledger = logbook.ledgerOf(tank);
  const until = settledUntil(ledger, at);
  return [
    ...serviceReasons(tank, at.day),
    ...arrivalReasons(ledger, tank, at.day, until),
    ...remedyReasons(ledger, at.day, until),
    ...fastingReasons(logbook, tank, at),
  ];
}

function serviceReasons(tank: Tank, day: number): Reason[] {
  const { from, until, place } = tank;
  if (!(from > day) && !(until < day)) return [];
  const why = (): Why => ({
    what: `${tank.name} is out of service`,
    value: from > day ? `from ${spokenDay(from)}` : `until ${spokenDay(until)}`,
    from: place === undefined ? [] : [whyStated(place)],
  });
  return [reason("service", from > day ? from : Number.POSITIVE_INFINITY, why)];
}

/** Animals that came from outside into a tank that is none of quarantine. */
function arrivalReasons(ledger: Ledger, tank: Tank, day: number, until: number): Reason[] {
  const { book } = ledger;
  if (tank.role === "quarantine" || Number.isNaN(book.quarantineDays)) return [];
  const came = lastFromOutside(ledger, tank, day - book.quarantineDays, until);
  if (came === undefined || came.end <= day) return [];
  return [reason("arrival", came.end, () => whyFromOutside(book, came))];
}

/** The clock of a quarantine tank: it hangs on the cases of its sick too, wherever they are closed. */
function quarantineReasons(logbook: Logbook, tank: Tank, at: At): Reason[] {
  const { book } = logbook;
  const { place } = tank;
  if (tank.role !== "quarantine") return [];
  if (Number.isNaN(book.quarantineDays)) {
    const why = (): Why => ({
      what: "a quarantine tank; how long is not stated in the room",
      value: "",
      from: place === undefined ? [] : [whyStated(place)],
    });
    return [reason("quarantine", Number.POSITIVE_INFINITY, why)];
  }
  const clock = quarantineAt(logbook, tank, at);
  if (clock === undefined || clock.end <= at.day) return [];
  return [reason("quarantine", clock.end, () => whyQuarantine(book, clock))];
}

/** Signs of disease that belong to no case speak against it for so long. */
export const looseSignsDays = 14;

/** Cases that are open in the tank, or in another whose water it shares. */
export function caseReasons(logbook: Logbook, tank: Tank, at: At): Reason[] {
  return (casesByWater(logbook).get(tank.body) ?? []).flatMap((each): Reason[] => {
    const { name, closed, since, entries } = each;
    if (closed <= at.day || since > at.day) return [];
    const told = sickAt(each, tank, at);
    if (told === undefined) return [];
    const end = name === "" ? told.day + looseSignsDays : Number.POSITIVE_INFINITY;
    if (end <= at.day) return [];
    const why = (): Why => ({
      what: name === "" ? "signs of disease" : `case ${name}`,
      value: `open since ${spokenDay(entries[0]!.day)}`,
      source:
        "Animals under suspicion do not travel, nor do those that share their water: *common practice, no source*",
      from: [whyEntry(told)],
    });
    return [{ ...reason("case", end, why), name }];
  });
}

/** All cases by the water that one of their sick is in. */
function casesByWater(logbook: Logbook): ReadonlyMap<number, readonly Case[]> {
  return keptFor(logbook, "cases", () => {
    const all = new Map<number, Case[]>();
    for (const each of casesUntil(logbook, Number.POSITIVE_INFINITY))
      for (const body of new Set(each.stations.map((station) => station.body)))
        all.set(body, [...(all.get(body) ?? []), each]);
    return all;
  });
}

/** The first entry of a case, before a time, that names sick animals in the water of a tank. */
function sickAt({ entries }: Case, tank: Tank, at: At): Case["entries"][number] | undefined {
  return entries.find(({ kind, day, block, row: id, stations }) => {
    if (kind !== Kind.sick || !stations.some(({ body }) => body >= 0 && body === tank.body)) return false;
    const row = rowOfId(block, id);
    return row >= 0 && day + minuteOfRow(block.facts, row) / 1440 <= at.time;
  });
}

/** Animals that were fed too lately to be shipped. */
function fastingReasons(logbook: Logbook, tank: Tank, at: At): Reason[] {
  const { fastingDays, room } = logbook.book;
  if (Number.isNaN(fastingDays)) return [];
  const fed = lastFed(logbook, tank, at, Math.ceil(fastingDays) + 1);
  if (fed === undefined) return [];
  const end = fed.time + fastingDays;
  // A day is one on which they may leave at any hour; an entry has its own.
  if (end <= (at.block === undefined ? at.day : at.time) + 1e-9) return [];
  const stated = room?.properties.find(({ word }) => word === "fasting");
  const { roomPlace } = logbook.book;
  const why = (): Why => ({
    what: `fed ${spokenDay(fed.time)} ${clockOf(fed.time)}`,
    value: `fasted by ${spokenDay(end)} ${clockOf(end)}, if nothing is fed`,
    formula: `last feeding + ${formatNumber(fastingDays * 24)} h, the least stated in the room`,
    source:
      "Starvation before packing is among what makes fish stand it: Lim, Dhert & Sorgeloos 2003, Aquaculture Research 34:923-935 (abstract). How long is the keeper's to state",
    from: [
      whyEntry(fed),
      ...(stated === undefined || roomPlace === undefined
        ? []
        : [whyStated({ block: roomPlace.block, start: stated.start, end: stated.end })]),
    ],
  });
  return [{ ...reason("fasting", Math.floor(end), why), amount: end }];
}

const reason = (is: Against, until: number, why: () => Why): Reason => ({
  is,
  until,
  name: "",
  amount: Number.NaN,
  why,
});
