import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, choiceOfRow, type Facts, floatsPerRow, intsPerRow, kindOfRow, Num } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import { amountOf, isAbout } from "./amounts.ts";
import { keptOfFound } from "./kept-of-found.ts";
import { keptWithLines, type MadeOfLines } from "./kept-with-lines.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";

/** What the log says of the sick: the entries of one case, from the first animal that shows signs until it is closed. */

/** A row of a case, referred to by its block and the number of the row. */
export interface CaseEntry {
  readonly day: number;
  /** In days, as the ledgers have it. */
  readonly time: number;
  readonly block: Block;
  readonly row: number;
  readonly kind: number;
  readonly stations: readonly Station[];
}

export interface SickEntry extends CaseEntry {
  readonly species: string;
  /** Empty where none is named. */
  readonly lot: string;
  /** How many show signs, of how many at risk; NaN where it is not said. Of a range its middle. */
  readonly affected: number;
  readonly atRisk: number;
  readonly isAbout: boolean;
}

export interface Case {
  /** Empty for animals that were written down as sick without a case. */
  readonly name: string;
  /** From 1: a case that was closed and comes back is opened again under its name. */
  readonly episode: number;
  /** Since it was opened, or opened again. */
  readonly since: number;
  /** What names it, in order of time. */
  readonly entries: readonly CaseEntry[];
  readonly sick: readonly SickEntry[];
  /** The latest entry of sick animals; undefined for a case that was opened by a sample. */
  readonly latest: SickEntry | undefined;
  /** Where animals showed signs. */
  readonly stations: readonly Station[];
  /** The day it was closed; NaN while it is open. */
  readonly closed: number;
  /** How it ended: the number of the word of its `close`, from 1; 0 where none is said, or it is open. */
  readonly outcome: number;
  /** What names it after it was closed, before it was opened again. */
  readonly afterwards: readonly CaseEntry[];
}

/** An entry that names a case which was not opened by then. */
export interface StrayEntry {
  readonly name: string;
  readonly entry: CaseEntry;
}

export interface Threads {
  readonly cases: readonly Case[];
  readonly strays: readonly StrayEntry[];
  /** Blocks of which lines were read, or tell what is in no column: of the sick, and of baths. */
  readonly read: readonly Block[];
}

type Writable<T> = { -readonly [Key in keyof T]: T[Key] };
interface Open extends Writable<Omit<Case, "entries" | "sick" | "stations" | "afterwards">> {
  readonly entries: CaseEntry[];
  readonly sick: SickEntry[];
  readonly stations: Set<Station>;
  readonly afterwards: CaseEntry[];
}

/** Every case up to the end of a day, in the order in which they were opened. */
export const casesUntil = (logbook: Logbook, day: number): Case[] => [...threadsUntil(logbook, day).cases];

/** Cases with what names none of them. Signs or a sample open a case; signs open it again. */
export function threadsUntil(logbook: Logbook, day: number): Threads {
  const last = logbook.dayGroups.at(-1)?.day ?? day;
  // Of all days after the last entry there is the same to tell.
  const until = day >= last ? Number.POSITIVE_INFINITY : day;
  const rows = findRows(logbook, until);
  const make = (): MadeOfLines<Threads> => {
    const value = readThreads(logbook, rows);
    return { value, blocks: value.read };
  };
  return Number.isFinite(until)
    ? keptWithLines(logbook, `case threads ${until}`, make)
    : keptOfFound(logbook, "case threads", [logbook.book, rows], make);
}

function readThreads(logbook: Logbook, found: readonly LogRow[]): Threads {
  const known = new Map<string, Open>();
  const cases: Open[] = [];
  const strays: StrayEntry[] = [];
  const open = (name: string, on: number): Open => {
    const before = name === "" ? undefined : known.get(name);
    const fresh: Open = {
      name,
      episode: (before?.episode ?? 0) + 1,
      since: on,
      entries: [],
      sick: [],
      latest: undefined,
      stations: new Set(),
      closed: Number.NaN,
      outcome: 0,
      afterwards: [],
    };
    known.set(name, fresh);
    cases.push(fresh);
    return fresh;
  };
  const rows = found.filter((row) => row.kind !== Kind.bath || nameIn(row) !== "");
  const signsOn = new Map<string, Set<number>>();
  for (const row of rows)
    if (row.kind === Kind.sick)
      signsOn.set(nameIn(row), (signsOn.get(nameIn(row)) ?? new Set()).add(row.day));
  for (const row of rows) {
    const { facts, row: at, kind } = row;
    const name = nameIn(row);
    const entry = entryAt(logbook.book, row);
    // What is written of nothing that is defined does not count.
    if (entry === undefined) continue;
    const last = name === "" ? undefined : known.get(name);
    const isOpen = last !== undefined && Number.isNaN(last.closed);
    // A loss or a dose above the signs of the same day is of the case that they open.
    const opens =
      kind === Kind.sick ||
      (kind === Kind.sample && last === undefined) ||
      (kind !== Kind.close && signsOn.get(name)?.has(row.day) === true);
    const thread = isOpen ? last : opens ? open(name, row.day) : last;
    if (thread === undefined) {
      strays.push({ name, entry });
      continue;
    }
    if (!Number.isNaN(thread.closed)) {
      thread.afterwards.push(entry);
      continue;
    }
    thread.entries.push(entry);
    if (kind === Kind.close) {
      thread.closed = row.day;
      thread.outcome = choiceOfRow(facts, at);
    }
    if (kind !== Kind.sick) continue;
    thread.latest = { ...entry, ...sickOf(facts, at) };
    thread.sick.push(thread.latest);
    for (const station of entry.stations) thread.stations.add(station);
  }
  const read = found.filter(({ kind }) => kind === Kind.bath || kind === Kind.sick).map(({ block }) => block);
  return { cases: cases.map((each) => ({ ...each, stations: [...each.stations] })), strays, read };
}

const named: ReadonlySet<number> = new Set([
  Kind.sick,
  Kind.sample,
  Kind.send,
  Kind.ask,
  Kind.result,
  Kind.close,
  Kind.dose,
  Kind.lose,
]);

/** Rows that name a case; what is sick without one among them, and every bath: the case of a bath stands in its line only. */
const findRows = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  if (kind === Kind.bath || kind === Kind.sick) return true;
  return named.has(kind) && facts.ints[row * intsPerRow + Col.object] !== noName;
});

/** The case that a row names; empty where it names none. */
function nameIn({ facts, row, kind, block, id }: LogRow): string {
  if (kind === Kind.bath) return caseOfBath(block, id);
  return wordOf(facts.ints[row * intsPerRow + Col.object]!);
}

/** The case that a bath names. */
export const caseOfBath = (block: Block, id: number): string => entryOf(block, id)?.item.case?.text ?? "";

/** The row as an entry; undefined where its target is not defined. */
export function entryAt(
  book: Book,
  { day, time, block, facts, row, id, kind }: LogRow,
): CaseEntry | undefined {
  const stations = stationsOf(book, facts, row);
  return stations.length === 0 ? undefined : { day, time, block, row: id, kind, stations };
}

function stationsOf(book: Book, facts: Facts, row: number): readonly Station[] {
  const target = facts.ints[row * intsPerRow + Col.target]!;
  if (target < 0) return book.groupTanks(~target) ?? [];
  const station = book.station(target);
  return station === undefined ? [] : [station];
}

function sickOf(
  facts: Facts,
  row: number,
): Pick<SickEntry, "species" | "lot" | "affected" | "atRisk" | "isAbout"> {
  const word = (column: number): string => wordOf(facts.ints[row * intsPerRow + column]!);
  return {
    species: word(Col.subject),
    lot: word(Col.lot),
    affected: Math.floor(amountOf(facts, row)),
    atRisk: facts.floats[row * floatsPerRow + Num.second]!,
    isAbout: isAbout(facts, row),
  };
}
