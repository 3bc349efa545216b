import { Book } from "../book/book.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { Col, type Facts, intsPerRow, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { nameCount, nameOf, noName } from "../book/interner.ts";
import { mayTarget } from "../book/kind.ts";
import { type Block, type BlockChange, idOfRow, Source } from "../book/source.ts";
import type { Gear, Station, Tank } from "../book/stations.ts";
import { type DayGroup, Days, firstFrom } from "./days.ts";
import { gearsMeant } from "./gears-meant.ts";
import { Ledger, type LedgerMark } from "./ledger.ts";
import type { Observer } from "./observer.ts";

/** How much has been derived: tests hold the work of an edit against it. */
export const deriveCounts = { rows: 0, ledgers: 0, books: 0 };

const none: readonly Tank[] = [];
const noLedgers: readonly number[] = [];
/** So many days with entries lie between two marks that are kept ready to go back to; an edit reads half as many anew, and stops at the next. */
const daysApart = 64;
/** Before the last days there is one more, as most edits are of late. */
const nearDays = 31;
/** Of those that were made where somebody wrote the latest are kept. */
const ownMarksKept = 12;

interface Mark {
  /** The state before the rows of this day. */
  readonly day: number;
  readonly mark: LedgerMark;
  /** It was made at an edit. */
  readonly isOwn: boolean;
}

/** The days of which a ledger has to read the rows again. */
interface Stale {
  readonly from: number;
  readonly to: number;
}

/**
 * One logbook: its files, what they define, and a ledger for each body of water and one for the room and its gear.
 *
 * Files are set, edited and removed at once; what follows from them is derived when it is asked for (`refresh`), and only so far
 * as it is stale: an edit of a day re-does, from that day on, the ledgers that its changed rows name.
 */
export class Logbook {
  private readonly files = new Map<string, Source>();
  private ranks = new Map<Source, number>();
  private readonly days: Days;
  private theBook: Book | undefined;
  private ledgerList: Ledger[] = [];
  /** By the number of a station's name the number of its ledger; -1 for other names. */
  private ledgerOfName = new Int16Array(0);
  private marks: Mark[][] = [];
  /** By the number of the ledger. */
  private readonly staleOf = new Map<number, Stale>();
  private staleDays = true;
  private readonly observerFor: (ledger: number) => Observer;
  private asked = Number.NaN;

  /** @param observerFor what listens to a ledger while it reads the log */
  constructor(observerFor: (ledger: number) => Observer) {
    this.observerFor = observerFor;
    this.days = new Days((block) => this.ranks.get(block.file) ?? 0);
  }

  /**
   * The day that somebody asked to see the logbook as of, before what its room says; NaN if nobody did. Entries after it do not count
   * yet.
   */
  get asOf(): number {
    return this.asked;
  }

  set asOf(day: number) {
    if (Object.is(day, this.asked)) return;
    const was = this.lastDay;
    this.asked = day;
    const is = this.lastDay;
    // Another day is another today. What was derived stands, unless entries count now that did not, or no longer do.
    this.staleDays ||= this.blocks().some((block) => block.day > was !== block.day > is);
  }

  /** The day after which entries do not count yet, asked for or stated by the room; NaN where there is none. */
  private get lastDay(): number {
    const stated = this.theBook?.asOf;
    return !Number.isNaN(this.asked) || typeof stated !== "number" ? this.asked : stated;
  }

  get sources(): ReadonlyMap<string, Source> {
    return this.files;
  }

  /** Puts a file in, or another text in its place. */
  set(path: string, text: string): void {
    this.put(new Source(path, text));
  }

  /** Puts a file in that is already read. */
  put(source: Source): void {
    const known = this.files.get(source.path);
    this.files.set(source.path, source);
    if (known === undefined) this.rank();
    else if (known !== source) {
      this.ranks.set(source, this.ranks.get(known) ?? 0);
      this.ranks.delete(known);
    }
    this.staleDays = true;
    if ([...(known?.blocks ?? []), ...source.blocks].some((block) => block.kind === "definition"))
      this.theBook = undefined;
  }

  remove(path: string): void {
    const known = this.files.get(path);
    if (known === undefined) return;
    this.files.delete(path);
    this.rank();
    this.staleDays = true;
    if (known.blocks.some((block) => block.kind === "definition")) this.theBook = undefined;
  }

  /** Replaces a part of a file's text. */
  edit(path: string, start: number, end: number, inserted: string): void {
    const source = this.files.get(path);
    if (source === undefined) return;
    this.take(source.edit(start, end, inserted));
  }

  /** Takes over what an edit did to the blocks of one of the files. */
  take({ removed, added, revised }: BlockChange): void {
    if ([...removed, ...added].some((block) => block.kind === "definition")) this.theBook = undefined;
    if (this.theBook === undefined || this.staleDays) {
      this.staleDays = true;
      return;
    }
    for (const block of removed) {
      this.days.remove(block);
      this.stale(block, block.facts, 0, block.facts.count);
    }
    for (const block of added) {
      if (block.day > this.lastDay) continue;
      this.days.add(block);
      this.stale(block, block.facts, 0, block.facts.count);
    }
    if (revised !== undefined && !(revised.block.day > this.lastDay)) {
      this.days.revise(revised.block);
      this.stale(revised.block, revised.before, revised.from, revised.beforeEnd);
      this.stale(revised.block, revised.block.facts, revised.from, revised.afterEnd);
    }
  }

  /** Brings everything up to date. Returns the ledgers that were derived again. */
  refresh(): readonly number[] {
    const isAnew = this.theBook === undefined;
    if (!isAnew && !this.staleDays && this.staleOf.size === 0) return noLedgers;
    this.bind();
    if (isAnew || this.staleDays) {
      for (const _ of this.refreshing());
      return this.ledgerList.map((_, at) => at);
    }
    const derived = [...this.staleOf.keys()];
    for (const [ledger, stale] of this.staleOf) this.derive(ledger, stale);
    this.staleOf.clear();
    return derived;
  }

  /** Reads all the log in pieces, for who does other things between them. Until it is through the logbook is not to be asked. */
  *refreshing(): Generator<void> {
    this.bind();
    if (!this.staleDays) return;
    this.staleDays = false;
    this.days.fill(this.blocks().filter((block) => !(block.day > this.lastDay)));
    this.makeLedgers();
    this.staleOf.clear();
    yield* this.deriveAll();
  }

  private bind(): Book {
    if (this.theBook === undefined) {
      deriveCounts.books++;
      this.theBook = new Book(this.blocks().filter((block) => block.kind === "definition"));
      // Ledgers are made anew with the book.
      this.staleDays = true;
    }
    return this.theBook;
  }

  /** What is defined. */
  get book(): Book {
    this.refresh();
    return this.theBook!;
  }

  /** The book as it stands while ledgers are being made from it; `book` for everybody else. */
  get bound(): Book {
    return this.theBook!;
  }

  /** A ledger as it stands, without bringing it up to date: for what listens while it is derived. */
  ledgerAsIs(at: number): Ledger | undefined {
    return this.ledgerList[at];
  }

  /** A ledger for each body of water, by its number, and last that of the room and its gear. */
  get ledgers(): readonly Ledger[] {
    this.refresh();
    return this.ledgerList;
  }

  /** The days with how often they were filled anew, and which were edited since. */
  get dayEdits(): { readonly fills: number; readonly edited: readonly number[] } {
    this.refresh();
    return this.days;
  }

  /** The days with entries, in order. */
  get dayGroups(): readonly DayGroup[] {
    this.refresh();
    return this.days.groups;
  }

  ledgerOf(station: Station): Ledger {
    return this.ledgers[this.ledgerNumber(station)]!;
  }

  ledgerNumber(station: Station): number {
    return station.body >= 0 ? station.body : this.ledgerList.length - 1;
  }

  /** The day that is today for this logbook. @param worldDay today outside */
  today(worldDay: number): number {
    if (!Number.isNaN(this.asked)) return this.asked;
    const { asOf } = this.bind();
    if (asOf === "last-entry") return this.lastEntry ?? worldDay;
    return Number.isNaN(asOf) ? worldDay : asOf;
  }

  /** The last day with entries, without deriving anything. */
  private get lastEntry(): number | undefined {
    if (!this.staleDays) return this.days.groups.at(-1)?.day;
    const days = this.blocks().flatMap(({ day }) => (Number.isNaN(day) ? [] : [day]));
    return days.length === 0 ? undefined : days.reduce((a, b) => Math.max(a, b));
  }

  /** All blocks in order of files and lines. */
  blocks(): Block[] {
    return [...this.files.values()]
      .sort((a, b) => this.ranks.get(a)! - this.ranks.get(b)!)
      .flatMap((source) => source.blocks);
  }

  /**
   * Reads the log once more for one body of water with another listener, up to the end of a day: for what is shown of the past.
   * @param ledger the number of the ledger
   */
  replay(ledger: number, observer: Observer, untilDay = Number.POSITIVE_INFINITY): Ledger {
    this.refresh();
    const fresh = this.makeLedger(ledger, observer);
    for (const group of this.days.groups) {
      if (group.day > untilDay) break;
      this.readGroup(group, fresh, ledger);
    }
    return fresh;
  }

  private rank(): void {
    this.ranks = new Map(
      [...this.files.values()].sort((a, b) => (a.path < b.path ? -1 : 1)).map((source, at) => [source, at]),
    );
  }

  private makeLedgers(): void {
    const { bodies, stations } = this.theBook!;
    this.ledgerList = Array.from({ length: bodies.length + 1 }, (_, at) =>
      this.makeLedger(at, this.observerFor(at)),
    );
    this.marks = this.ledgerList.map((ledger) => [
      { day: Number.NEGATIVE_INFINITY, mark: ledger.mark(), isOwn: false },
    ]);
    this.ledgerOfName = new Int16Array(nameCount()).fill(-1);
    for (const station of stations) this.ledgerOfName[nameOf(station.name)] = this.ledgerNumber(station);
  }

  private makeLedger(at: number, observer: Observer): Ledger {
    const book = this.theBook!;
    const body = book.bodies[at];
    const stations = book.stations.filter((station) =>
      body === undefined ? station.body < 0 : station.body === body.id,
    );
    return new Ledger(book, body, stations, observer);
  }

  private *deriveAll(): Generator<void> {
    const { groups } = this.days;
    const near = firstFrom(groups, (groups.at(-1)?.day ?? 0) - nearDays);
    deriveCounts.ledgers += this.ledgerList.length;
    for (let index = 0; index < groups.length; index++) {
      const group = groups[index]!;
      if (index === near || (index > 0 && index % daysApart === 0)) {
        this.ledgerList.forEach((ledger, at) => {
          this.marks[at]!.push({ day: group.day, mark: ledger.mark(), isOwn: false });
        });
        yield;
      }
      this.readGroup(group, undefined, -1);
    }
  }

  /**
   * Derives one ledger again: from the last mark before what is stale up to the first behind it at which the ledger stands as it did. From
   * there on it does what it did, and nothing is read.
   */
  private derive(at: number, { from, to }: Stale): void {
    deriveCounts.ledgers++;
    const ledger = this.ledgerList[at]!;
    const marks = this.marks[at]!;
    const later = marks.splice(marks.findLastIndex(({ day }) => day <= from) + 1);
    const start = marks.at(-1)!;
    const rest = ledger.reset(start.mark, from);
    const { groups } = this.days;
    let next = 0;
    for (let index = this.days.firstFrom(start.day); index < groups.length; index++) {
      const { day } = groups[index]!;
      for (; next < later.length && later[next]!.day <= day; next++) {
        const old = later[next]!;
        if (old.day > to && ledger.standsAs(old.mark, rest, old.day)) {
          const moved = ledger.rejoin(old.mark, rest);
          for (const each of later.slice(next)) marks.push({ ...each, mark: moved(each.mark) });
          this.dropMarks(marks, from);
          return;
        }
        marks.push({ ...old, mark: ledger.mark() });
      }
      // Who writes goes on writing there: the next edit begins at this day, and ends at the one behind it.
      const last = marks.at(-1)!.day;
      if (last < day && ((day >= from && last < from) || (day > to && last <= to)))
        marks.push({ day, mark: ledger.mark(), isOwn: true });
      this.readGroup(groups[index]!, ledger, at);
    }
    ledger.settle(rest);
    this.dropMarks(marks, from);
  }

  /** Keeps so many of the marks that edits made, the ones nearest to the latest edit. */
  private dropMarks(marks: Mark[], day: number): void {
    while (marks.reduce((own, { isOwn }) => own + Number(isOwn), 0) > ownMarksKept) {
      const first = marks.findIndex(({ isOwn }) => isOwn);
      const last = marks.findLastIndex(({ isOwn }) => isOwn);
      marks.splice(day - marks[first]!.day > marks[last]!.day - day ? first : last, 1);
    }
  }

  /** Reads the rows of a day into all ledgers, or into one. */
  private readGroup(group: DayGroup, only: Ledger | undefined, onlyAt: number): void {
    const { blocks, order } = group;
    if (order !== undefined)
      for (let at = 0; at < order.length; at += 2) {
        const block = blocks[order[at]!]!;
        const row = order[at + 1]!;
        if (only === undefined || this.mayConcern(block.facts, row, onlyAt))
          this.readRow(group.day, block, row, only, onlyAt);
      }
    else
      for (const block of blocks)
        for (let row = 0; row < block.facts.count; row++)
          if (only === undefined || this.mayConcern(block.facts, row, onlyAt))
            this.readRow(group.day, block, row, only, onlyAt);
  }

  /** Whether a row may say something to a ledger. Most rows are another's: they are passed over before anything is looked up. */
  private mayConcern({ ints }: Facts, row: number, ledger: number): boolean {
    const target = ints[row * intsPerRow + Col.target]!;
    return (
      target < 0 || this.ledgerOfName[target] === ledger || reachesFurther(ints[row * intsPerRow]! & 0xff)
    );
  }

  private readRow(day: number, block: Block, row: number, only: Ledger | undefined, onlyAt: number): void {
    const { facts } = block;
    const book = this.theBook!;
    const { ledgerList } = this;
    const misc = ledgerList.length - 1;
    const isFor = (station: Station): boolean =>
      only === undefined || (station.body >= 0 ? station.body : misc) === onlyAt;
    const ledgerFor = (station: Station): Ledger =>
      only ?? ledgerList[station.body >= 0 ? station.body : misc]!;
    const target = facts.ints[row * intsPerRow + Col.target]!;
    const kind = kindOfRow(facts, row);
    let moment: { time: number; block: Block; row: number } | undefined;
    const now = () =>
      (moment ??= { time: day + minuteOfRow(facts, row) / 1440, block, row: idOfRow(block, row) });
    if (target >= 0) {
      const station = book.station(target);
      if (station === undefined || !mayTarget(kindOf(kind), station.kind)) return;
      if (isFor(station)) {
        deriveCounts.rows++;
        ledgerFor(station).apply(now(), facts, row, station, true, none);
      }
    } else {
      const tanks = book.groupTanks(~target);
      if (tanks === undefined) return;
      const seen = new Set<number>();
      const isOfWater = kind === Kind.change || kind === Kind.topUp || kind === Kind.dose;
      for (const tank of tanks) {
        if (isFor(tank)) {
          const together = isOfWater ? tanks.filter((each) => each.body === tank.body) : none;
          deriveCounts.rows++;
          ledgerFor(tank).apply(now(), facts, row, tank, !seen.has(tank.body), together);
        }
        seen.add(tank.body);
      }
    }
    if (kind === Kind.move) {
      const to = book.station(facts.ints[row * intsPerRow + Col.object]!);
      // Each tank of a group sends as many; what would go to where it is stays there.
      const from =
        target >= 0
          ? Number(book.station(target) !== to)
          : book.groupTanks(~target)!.filter((tank) => tank !== to).length;
      if (to?.kind === "tank" && isFor(to))
        for (let tank = 0; tank < from; tank++) ledgerFor(to).receive(now(), facts, row, to as Tank);
    } else if (kind === Kind.service || kind === Kind.clean || kind === Kind.check) {
      const subject = facts.ints[row * intsPerRow + Col.subject]!;
      for (const gear of gearsMeant(book, target, subject, kind))
        if (isFor(gear)) ledgerFor(gear).serve(now(), facts, row, gear);
      const served = servedBy(book, target);
      if (served !== undefined && isFor(served)) ledgerFor(served).serve(now(), facts, row, served, target);
      // What the room has done to a gear by a duty may be written wherever that is.
      const room = book.stations[0]!;
      const thing = subject === noName ? target : subject;
      if (
        kind !== Kind.clean &&
        book.station(target) !== room &&
        book.station(thing)?.kind === "gear" &&
        isFor(room)
      )
        ledgerFor(room).serve(now(), facts, row, room, thing);
    } else if (kind === Kind.left) {
      const room = book.stations[0]!;
      if (book.station(target) !== room && isFor(room))
        ledgerFor(room).serve(now(), facts, row, room, facts.ints[row * intsPerRow + Col.subject]!);
    } else if (kind === Kind.disinfect) {
      const subject = facts.ints[row * intsPerRow + Col.subject]!;
      const gear = book.station(subject);
      if (gear?.kind === "gear" && gear !== book.station(target) && isFor(gear))
        ledgerFor(gear).serve(now(), facts, row, gear);
      // A tool that the room has disinfected by a duty may be written of at any tank, or by itself.
      const room = book.stations[0]!;
      const thing = subject === noName ? target : subject;
      if (room !== book.station(target) && thing >= 0 && isFor(room))
        ledgerFor(room).serve(now(), facts, row, room, thing);
    }
  }

  /** Marks the ledgers stale that some rows name. */
  private stale(block: Block, facts: Facts, from: number, end: number): void {
    const book = this.theBook!;
    if (Number.isNaN(block.day)) return;
    const mark = (station: Station | undefined): void => {
      if (station === undefined) return;
      const at = this.ledgerNumber(station);
      const { from, to } = this.staleOf.get(at) ?? { from: block.day, to: block.day };
      this.staleOf.set(at, { from: Math.min(block.day, from), to: Math.max(block.day, to) });
    };
    for (let row = from; row < end; row++) {
      const target = facts.ints[row * intsPerRow + Col.target]!;
      if (target >= 0) mark(book.station(target));
      else for (const tank of book.groupTanks(~target) ?? []) mark(tank);
      const kind = kindOfRow(facts, row);
      if (kind === Kind.move) mark(book.station(facts.ints[row * intsPerRow + Col.object]!));
      if (kind === Kind.service || kind === Kind.clean || kind === Kind.check) {
        for (const gear of gearsMeant(book, target, facts.ints[row * intsPerRow + Col.subject]!, kind))
          mark(gear);
        mark(servedBy(book, target));
        if (kind !== Kind.clean) mark(book.stations[0]);
      }
      if (kind === Kind.left) mark(book.stations[0]);
      if (kind === Kind.disinfect) {
        mark(book.station(facts.ints[row * intsPerRow + Col.subject]!));
        mark(book.stations[0]);
      }
    }
  }
}

/** Whether entries of a kind may concern a station beside their target: where animals go, gear that is serviced, tools. */
function reachesFurther(kind: number): boolean {
  return (
    kind === Kind.move ||
    kind === Kind.service ||
    kind === Kind.check ||
    kind === Kind.clean ||
    kind === Kind.left ||
    kind === Kind.disinfect
  );
}

/** The tank or system that a gear serves; undefined where the name is that of no gear, or it serves none. */
function servedBy(book: Book, name: number): Station | undefined {
  const gear = name >= 0 ? book.station(name) : undefined;
  return gear?.kind === "gear" ? book.station(nameOf((gear as Gear).on)) : undefined;
}
