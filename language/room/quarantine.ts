import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, type Facts, intsPerRow, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { type Block, rowOfId } from "../book/source.ts";
import type { Station, Tank } from "../book/stations.ts";
import { middleOf } from "./amounts.ts";
import { casesUntil } from "./cases.ts";
import type { Before } from "./feeds.ts";
import { kept } from "./kept.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Moment } from "./observer.ts";
import { settledUntil } from "./settled-until.ts";
import type { Holding } from "./stock.ts";
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

/** Animals that came into the water, with the clock of their own. */
export interface QuarantineArrival {
  readonly how: "arrive" | "move";
  readonly tank: Tank;
  /** The tanks they were moved from; none of what came from outside. */
  readonly from: readonly string[];
  readonly species: string;
  /** NaN where it is not said. */
  readonly animals: number;
  readonly lot: string;
  readonly day: number;
  /** The first day on which their own clock is over: nothing ends it sooner. */
  readonly end: number;
  readonly at: Moment;
}

/** `over`: the day on which signs that lasted were over. */
export type PutOffBy = "arrive" | "move" | "loss" | "signs" | "over" | "dose" | "bath";

/** What gave the clock its end, or put it off. */
export interface PutOff {
  readonly by: PutOffBy;
  /** The case or the remedy; empty where it is about none. */
  readonly name: string;
  /** The end before it; NaN for what began the clock. */
  readonly from: number;
  readonly to: number;
  readonly day: number;
  readonly at: Moment;
}

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

/** The quarantine tanks of a water. */
export function quarantineTanks(ledger: Ledger): readonly Tank[] {
  return ledger.body?.tanks.filter(({ role }) => role === "quarantine") ?? [];
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
  const periods = quarantinePeriods(logbook, ledger);
  let last = periods.length - 1;
  while (last >= 0 && periods[last]!.begun >= until) last--;
  const period = periods[last];
  if (period === undefined || period.emptied < until) return undefined;
  const arrivals = period.arrivals.filter(({ settled }) => settled < until);
  const putOff = period.putOff.filter(({ settled }) => settled < until);
  const lasting = period.signs.filter(({ from, to }) => from < until && to >= until);
  const end = putOff.at(-1)!.to;
  return {
    tanks: quarantineTanks(ledger),
    since: putOff[0]!.day,
    arrivals,
    putOff,
    end: lasting.length === 0 ? end : Math.max(end, day + runDays(ledger)),
    signs: [...new Set(lasting.map(({ name }) => name))],
  };
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

/** Days from a loss or a sign to the end: those stated to be clear, else the clock anew. */
const runDays = ({ book }: Ledger): number =>
  Math.round(Number.isNaN(book.clearDays) ? book.quarantineDays : book.clearDays);

type Settled<T> = T & { readonly settled: number };

/** From the first animals in to the emptied tank, or to the next that came in after it was over. */
export interface QuarantinePeriod {
  /** Settled times, as are those of what it holds. */
  readonly begun: number;
  readonly emptied: number;
  readonly arrivals: readonly Settled<QuarantineArrival>[];
  readonly putOff: readonly Settled<PutOff>[];
  readonly signs: readonly { readonly name: string; readonly from: number; readonly to: number }[];
}

/** All periods of a water, in order of time: kept until its ledger is derived again, or a case of its sick ends on another day. */
export function quarantinePeriods(logbook: Logbook, ledger: Ledger): readonly QuarantinePeriod[] {
  const tanks = quarantineTanks(ledger);
  if (tanks.length === 0 || Number.isNaN(ledger.book.quarantineDays)) return [];
  const closings = closingsOf(logbook, ledger);
  const key = `quarantine ${closings.map(({ time }) => time).join(" ")}`;
  return kept(ledger, key, () => new Clock(ledger, closings).run());
}

interface Closing {
  /** The end of the case that a row of `health` belongs to; Infinity while it is open, NaN for a row without a case. */
  readonly time: number;
  readonly at: Moment | undefined;
}

/** When the case of each entry of the sick is closed, by its place in `health`. */
function closingsOf(logbook: Logbook, { health }: Ledger): Closing[] {
  return Array.from({ length: health.length }, (_, index): Closing => {
    const block = health.block[index]!;
    const id = health.row[index]!;
    const name = nameAt(block, id, Col.object);
    if (health.tag[index] !== Kind.sick || name === "") return { time: Number.NaN, at: undefined };
    const close = closesOf(logbook, name).get(block)?.get(id);
    return close === undefined
      ? { time: Number.POSITIVE_INFINITY, at: undefined }
      : // What is written after it in the same minute does not come before it.
        { time: Math.max(close.time, settledTime(health, index) + afterDays), at: close };
  });
}

/** Less than from a row to the next, as `settledTime` has it. */
const afterDays = 1e-9;

/** The entry that closes the case of each row of the sick, by block and row. */
function closesOf(logbook: Logbook, name: string): ReadonlyMap<Block, ReadonlyMap<number, Moment>> {
  const all = keptFor(logbook, "closes of the sick", () => {
    const byName = new Map<string, Map<Block, Map<number, Moment>>>();
    for (const each of casesUntil(logbook, Number.POSITIVE_INFINITY)) {
      const last = each.entries.at(-1);
      if (Number.isNaN(each.closed) || last?.kind !== Kind.close) continue;
      const row = rowOfId(last.block, last.row);
      const time = last.day + (row < 0 ? 0 : minuteOfRow(last.block.facts, row) / 1440);
      const rows = byName.get(each.name) ?? new Map<Block, Map<number, Moment>>();
      byName.set(each.name, rows);
      for (const entry of each.entries)
        rows.set(
          entry.block,
          (rows.get(entry.block) ?? new Map()).set(entry.row, { time, block: last.block, row: last.row }),
        );
    }
    return byName;
  });
  return all.get(name) ?? new Map();
}

/** Rows that are deaths without a cause that is known, by the choice of a loss: none, found, euthanised. */
const deaths: ReadonlySet<number> = new Set([0, 1, 5]);

type Event = Moment & { readonly settled: number; readonly tell: () => void };
type Mutable = {
  begun: number;
  emptied: number;
  arrivals: Settled<QuarantineArrival>[];
  putOff: Settled<PutOff>[];
  signs: { name: string; from: number; to: number }[];
};

/** Signs of a case since a time, and the periods that ran then or began since. */
interface Lasting {
  readonly name: string;
  readonly from: number;
  readonly during: Mutable[];
}

/** Reads a water's ledger once more, for its quarantine alone. */
class Clock {
  private readonly ledger: Ledger;
  private readonly closings: readonly Closing[];
  private readonly periods: Mutable[] = [];
  /** The period of which the clock runs. */
  private running: Mutable | undefined;
  /** What lives in the quarantine tanks, by the index of the holding. */
  private readonly there = new Set<number>();
  /** Signs that last, by species and case. */
  private readonly lasting = new Map<string, Lasting>();
  private readonly isOf: ReadonlySet<number>;
  private readonly holdings: readonly Holding[];

  constructor(ledger: Ledger, closings: readonly Closing[]) {
    this.ledger = ledger;
    this.closings = closings;
    this.holdings = ledger.stock.all();
    this.isOf = new Set(quarantineTanks(ledger).map(({ id }) => id));
  }

  run(): QuarantinePeriod[] {
    const events = [...this.animalEvents(), ...this.doseEvents(), ...this.healthEvents()];
    for (const event of events.sort((a, b) => a.settled - b.settled)) {
      const { running } = this;
      // Its end is past: what comes now puts nothing off.
      if (running !== undefined && this.lasting.size === 0 && Math.floor(event.time) >= endOf(running))
        this.running = undefined;
      event.tell();
    }
    for (const key of [...this.lasting.keys()]) this.end(key, Number.POSITIVE_INFINITY);
    return this.periods;
  }

  /** What one row told of several tanks and species is one event: between leaving one tank and coming into the next nothing is empty. */
  private *animalEvents(): Iterable<Event> {
    const { animals } = this.ledger;
    for (let first = 0; first < animals.length; ) {
      const [time, block, row] = [animals.time[first]!, animals.block[first]!, animals.row[first]!];
      let end = first + 1;
      while (
        end < animals.length &&
        animals.row[end] === row &&
        animals.block[end] === block &&
        animals.time[end] === time
      )
        end++;
      const [from, to] = [first, end];
      const at = { time, block, row };
      yield { ...at, settled: settledTime(animals, first), tell: () => this.animals(at, from, to) };
      first = end;
    }
  }

  private animals(at: Moment, from: number, to: number): void {
    const { holdings } = this;
    const { animals } = this.ledger;
    const settled = settledTime(animals, from);
    const row = rowOfId(at.block, at.row);
    if (row >= 0) {
      const { facts } = at.block;
      const kind = kindOfRow(facts, row);
      if (kind === Kind.arrive)
        for (let index = from; index < to; index++)
          this.come("arrive", at, settled, facts, row, this.tankOf(holdings[animals.tag[index]!]!.tank), []);
      if (kind === Kind.move) this.moved(at, settled, facts, row);
      if (kind === Kind.lose && deaths.has(choiceOfRow(facts, row)) && middleOf(facts, row) !== 0)
        this.delay("loss", "", at, settled, runDays(this.ledger));
    }
    for (let index = from; index < to; index++) {
      const tag = animals.tag[index]!;
      if (!this.isOf.has(holdings[tag]!.tank)) continue;
      // So many that nobody knows how many are some.
      if (animals.second[index] === 0) this.there.delete(tag);
      else this.there.add(tag);
    }
    if (this.there.size > 0) return;
    const last = this.periods.at(-1);
    if (last !== undefined) last.emptied = Math.min(last.emptied, settled);
    this.running = undefined;
    for (const key of [...this.lasting.keys()]) this.end(key, settled);
  }

  private tankOf(id: number): Tank {
    return this.ledger.book.stations[id] as Tank;
  }

  /** A move out of another water, or into quarantine out of a tank that is none, brings animals in. */
  private moved(at: Moment, settled: number, facts: Facts, row: number): void {
    const { book, body } = this.ledger;
    const to = book.station(facts.ints[row * intsPerRow + Col.object]!);
    if (to?.kind !== "tank" || to.body !== body?.id) return;
    const target = facts.ints[row * intsPerRow + Col.target]!;
    const named = target < 0 ? (book.groupTanks(~target) ?? []) : [book.station(target)];
    const sources = named.filter(
      (source): source is Station =>
        source !== undefined &&
        source !== to &&
        (source.body !== to.body || (this.isOf.has(to.id) && !this.isOf.has(source.id))),
    );
    if (sources.length > 0) this.come("move", at, settled, facts, row, to as Tank, sources);
  }

  private come(
    how: "arrive" | "move",
    at: Moment,
    settled: number,
    facts: Facts,
    row: number,
    tank: Tank,
    sources: readonly Station[],
  ): void {
    // Where no animals are in quarantine none are put off by what comes into the next tank.
    if (!this.isOf.has(tank.id) && this.there.size === 0) return;
    const animals = middleOf(facts, row) * Math.max(1, sources.length);
    if (animals === 0) return;
    const day = Math.floor(at.time);
    const end = day + Math.round(this.ledger.book.quarantineDays);
    if (this.running === undefined) {
      this.running = {
        begun: settled,
        emptied: Number.POSITIVE_INFINITY,
        arrivals: [],
        putOff: [],
        signs: [],
      };
      this.periods.push(this.running);
      for (const { during } of this.lasting.values()) during.push(this.running);
    }
    this.running.arrivals.push({
      how,
      tank,
      from: sources.map(({ name }) => name),
      species: wordOf(facts.ints[row * intsPerRow + Col.subject]!),
      animals,
      lot: nameIn(facts, row, Col.lot),
      day,
      end,
      at,
      settled,
    });
    this.delay(how, "", at, settled, end - day);
  }

  /** Puts the end of a running clock off to so many days from now, if that is later. */
  private delay(by: PutOffBy, name: string, at: Moment, settled: number, days: number): void {
    if (this.running === undefined || Number.isNaN(days)) return;
    const { putOff } = this.running;
    const day = Math.floor(at.time);
    const from = putOff.at(-1)?.to ?? Number.NaN;
    if (!(day + days <= from)) putOff.push({ by, name, from, to: day + days, day, at, settled });
  }

  private *doseEvents(): Iterable<Event> {
    const { doses, book } = this.ledger;
    if (Number.isNaN(book.clearDays)) return;
    for (let index = 0; index < doses.length; index++) {
      const at = { time: doses.time[index]!, block: doses.block[index]!, row: doses.row[index]! };
      const settled = settledTime(doses, index);
      const name = book.remedies[doses.tag[index]!]?.name ?? "";
      yield {
        ...at,
        settled,
        tell: () => this.delay("dose", name, at, settled, Math.round(book.clearDays)),
      };
    }
  }

  private *healthEvents(): Iterable<Event> {
    const { health, book } = this.ledger;
    for (let index = 0; index < health.length; index++) {
      const at = { time: health.time[index]!, block: health.block[index]!, row: health.row[index]! };
      const settled = settledTime(health, index);
      const name = nameAt(at.block, at.row, Col.object);
      const closing = this.closings[index]!;
      if (health.tag[index] === Kind.bath) {
        yield {
          ...at,
          settled,
          tell: () => this.delay("bath", name, at, settled, Math.round(book.clearDays)),
        };
        continue;
      }
      const key = `${health.second[index]} ${name}`;
      yield {
        ...at,
        settled,
        tell: () => this.sick(key, name, at, settled, health.first[index] === 0, closing.time),
      };
      if (closing.at !== undefined)
        yield {
          ...closing.at,
          settled: closing.time,
          tell: () => this.over(key, name, closing.at!, closing.time),
        };
    }
  }

  private sick(
    key: string,
    name: string,
    at: Moment,
    settled: number,
    isNone: boolean,
    closing: number,
  ): void {
    if (isNone) {
      this.over(key, name, at, settled);
      return;
    }
    this.delay("signs", name, at, settled, runDays(this.ledger));
    // Those without a case cannot be closed, and who is not there shows none.
    if (!Number.isNaN(closing) && this.there.size > 0 && !this.lasting.has(key))
      this.lasting.set(key, {
        name,
        from: settled,
        during: this.running === undefined ? [] : [this.running],
      });
  }

  private over(key: string, name: string, at: Moment, settled: number): void {
    if (!this.lasting.has(key)) return;
    this.end(key, settled);
    this.delay("over", name, at, settled, runDays(this.ledger));
  }

  private end(key: string, settled: number): void {
    const { name, from, during } = this.lasting.get(key)!;
    this.lasting.delete(key);
    for (const { signs } of during) signs.push({ name, from, to: settled });
  }
}

const endOf = ({ putOff }: Mutable): number => putOff.at(-1)!.to;

const nameIn = (facts: Facts, row: number, column: typeof Col.object | typeof Col.lot): string => {
  const name = facts.ints[row * intsPerRow + column]!;
  return name === noName ? "" : wordOf(name);
};

function nameAt(block: Block, id: number, column: typeof Col.object): string {
  const row = rowOfId(block, id);
  return row < 0 ? "" : nameIn(block.facts, row, column);
}
