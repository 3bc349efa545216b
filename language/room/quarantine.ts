import { Kind } from "../book/entries/registry.ts";
import { kindOfRow } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import type { Station, Tank } from "../book/stations.ts";
import type { Before } from "./feeds.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Moment } from "./observer.ts";
import { QuarantineClock } from "./quarantine-clock.ts";
import { type Closing, closingsOf } from "./quarantine-closings.ts";
import {
  type PutOff,
  type QuarantineArrival,
  type QuarantinePeriod,
  quarantineTanks,
  runDays,
} from "./quarantine-period.ts";
import { settledUntil } from "./settled-until.ts";
import { settledTime } from "./water.ts";

/**
 * The clock of quarantine: all in, all out. It is one for all animals of a water in which a quarantine tank stands, and ends on the latest
 * of two days: the last animal in + `quarantine`, and the last loss, sign of disease or dose + `clear`, both as the room states them.
 *
 * The house's choices. Where no `clear` is stated, a loss or a sign runs the clock anew (+ `quarantine`), and a dose does not put it off.
 * A loss is one that was found, euthanised, or said no more of: who jumped, was culled or is missing tells nothing of a disease. Signs that
 * belong to a case last until an entry of that case says that none show them, or the case is closed; others are of their day. The clock
 * ends a period: only while it runs is it put off, and tanks that are emptied by the book end it. Animals that go from one quarantine tank
 * to another of the same water are not new to it.
 */

export interface Quarantine {
  /** The quarantine tanks of the water. */
  readonly tanks: readonly Tank[];
  /** The day it began. */
  readonly since: number;
  /** In order of time. */
  readonly arrivals: readonly QuarantineArrival[];
  /** The first gave the clock its end, the others put it off. */
  readonly putOff: readonly PutOff[];
  /** The first day on which it is over, if nothing comes in between; while signs of a case last, the earliest that may be. */
  readonly end: number;
  /** Cases of which animals in the water show signs still. */
  readonly signs: readonly string[];
}

/**
 * The clock of the water that a tank is in, as it stands at a time; one that is over is told as long as animals are there. Undefined
 * where no quarantine tank of the water holds animals that came in, or the room does not state for how long.
 */
export function quarantineAt(
  logbook: Logbook,
  tank: Station,
  at: Before & { readonly day: number },
): Quarantine | undefined {
  const ledger = logbook.ledgerOf(tank);
  return quarantineUntil(logbook, ledger, at.day, settledUntil(ledger, at));
}

/** @param until a time as `settledTime` gives it; what stands at or after it does not count */
export function quarantineUntil(
  logbook: Logbook,
  ledger: Ledger,
  day: number,
  until: number,
): Quarantine | undefined {
  return clockIn(quarantinePeriods(logbook, ledger), ledger, day, until);
}

/** The same of the periods of a ledger as they were. */
export function clockIn(
  periods: readonly QuarantinePeriod[],
  ledger: Ledger,
  day: number,
  until: number,
): Quarantine | undefined {
  const end = endIn(periods, ledger, day, until);
  if (Number.isNaN(end)) return undefined;
  const period = periods[before(periods, ({ begun }) => begun, until) - 1]!;
  const putOff = period.putOff.filter(({ settled }) => settled < until);
  const lasting = period.signs.filter(({ from, to }) => from < until && to >= until);
  return {
    tanks: quarantineTanks(ledger),
    since: putOff[0]!.day,
    arrivals: period.arrivals.filter(({ settled }) => settled < until),
    putOff,
    end,
    signs: [...new Set(lasting.map(({ name }) => name))],
  };
}

/** The end alone, for many times; NaN where no clock runs. */
export function endIn(
  periods: readonly QuarantinePeriod[],
  ledger: Ledger,
  day: number,
  until: number,
): number {
  const period = periods[before(periods, ({ begun }) => begun, until) - 1];
  if (period === undefined || period.emptied < until) return Number.NaN;
  const { putOff, signs } = period;
  const { to } = putOff[before(putOff, ({ settled }) => settled, until) - 1]!;
  const isLasting = signs.some(({ from, to: over }) => from < until && over >= until);
  return isLasting ? Math.max(to, day + runDays(ledger)) : to;
}

/** How many of some things in order of time stand before a time. */
function before<T>(all: readonly T[], timeOf: (each: T) => number, until: number): number {
  let low = 0;
  let high = all.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeOf(all[middle]!) < until) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The last animals that came into a tank from outside, from a day on: of every role but quarantine they alone have a clock. */
export function lastFromOutside(
  ledger: Ledger,
  tank: Tank,
  fromDay: number,
  until: number,
): (Moment & { readonly end: number }) | undefined {
  const { animals, book } = ledger;
  const holdings = ledger.stock.all();
  for (let index = animals.from(until) - 1; index >= 0; index--) {
    const time = animals.time[index]!;
    if (time < fromDay) return undefined;
    if (holdings[animals.tag[index]!]?.tank !== tank.id || settledTime(animals, index) >= until) continue;
    const block = animals.block[index]!;
    const row = animals.row[index]!;
    const at = rowOfId(block, row);
    if (at < 0 || kindOfRow(block.facts, at) !== Kind.arrive) continue;
    return { time, block, row, end: Math.floor(time) + Math.round(book.quarantineDays) };
  }
  return undefined;
}

interface Kept {
  readonly revision: number;
  readonly closings: readonly Closing[];
  readonly periods: readonly QuarantinePeriod[];
}

const byLedger = new WeakMap<Ledger, Kept>();

/** All periods of a water, in order of time: kept until its ledger is derived again, or a case of its sick is closed otherwise. */
export function quarantinePeriods(logbook: Logbook, ledger: Ledger): readonly QuarantinePeriod[] {
  const { revision, book } = ledger;
  if (Number.isNaN(book.quarantineDays) || quarantineTanks(ledger).length === 0) return [];
  const closings = closingsOf(logbook, ledger);
  const known = byLedger.get(ledger);
  if (known?.revision === revision && areSame(known.closings, closings)) return known.periods;
  const periods = new QuarantineClock(ledger, closings).run();
  byLedger.set(ledger, { revision, closings, periods });
  return periods;
}

function areSame(some: readonly Closing[], others: readonly Closing[]): boolean {
  return some.every(({ time, at }, index) => {
    const other = others[index]!;
    return Object.is(time, other.time) && at?.block === other.at?.block && at?.row === other.at?.row;
  });
}
