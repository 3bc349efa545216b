import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, type Facts, intsPerRow, kindOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Station, Tank } from "../book/stations.ts";
import { isAbout, middleOf } from "./amounts.ts";
import type { Ledger } from "./ledger.ts";
import type { Moment } from "./observer.ts";
import { type Closing, caseOfRow } from "./quarantine-closings.ts";
import {
  type PutOff,
  type PutOffBy,
  type QuarantineArrival,
  type QuarantinePeriod,
  quarantineTanks,
  runDays,
  type Settled,
} from "./quarantine-period.ts";
import type { Holding } from "./stock.ts";
import { settledTime } from "./water.ts";

/** Reads what a ledger holds once more, in order of time, for its quarantine alone: `quarantine.ts` says by which rules. */

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
export class QuarantineClock {
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
      isAbout: isAbout(facts, row),
      lot: wordOf(facts.ints[row * intsPerRow + Col.lot]!),
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
      const name = caseOfRow(at.block, at.row);
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
