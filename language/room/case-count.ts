import { entryOf } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import type { Station, Tank } from "../book/stations.ts";
import { type CaseDeath, type CaseMove, type CaseStory, tanksOf } from "./case-book.ts";
import type { CaseEntry, SickEntry } from "./cases.ts";
import { animalsBefore, type Course, courses, lotCourses } from "./course.ts";
import type { Logbook } from "./logbook.ts";
import { partyOf } from "./party.ts";

/**
 * How many animals of a case were affected, of how many, day by day.
 *
 * Animals are counted where they are: by tank and species, and by lot where all entries of the two name one. Ever affected are, where `new` is
 * stated, those; else the least that the counts force: at no time fewer than show signs then, with the dead and those that were moved on. An
 * animal that recovers and another that falls ill in the same tank between two counts look like one: so that it is a least is said.
 */

/** Animals of a case in one place. */
export interface CaseStrand {
  readonly station: Station;
  readonly species: string;
  /** Empty for all of the species. */
  readonly lot: string;
  /** Showing signs, by the latest entry and what died and was moved since; NaN while nobody counted. */
  readonly affected: number;
  /** There now: as the latest entry states, less what died and left since, and no more than the book has. NaN where nobody knows. */
  readonly present: number;
  /** Those that fell ill here. */
  readonly ever: number;
  /** Those that were at risk here and came from no other tank of the case; NaN where nobody knows. */
  readonly atRisk: number;
  readonly dead: number;
}

export interface CaseDay {
  readonly day: number;
  /** Found to be affected that day, and dead that day. */
  readonly fresh: number;
  readonly dead: number;
  /** At its end, on days on which somebody counted the sick; NaN on others. */
  readonly affected: number;
  readonly present: number;
}

export interface CaseCount {
  readonly strands: readonly CaseStrand[];
  readonly affected: number;
  readonly ever: number;
  /** Affected ever is a least: an entry after the first does not say how many are new. */
  readonly isLeast: boolean;
  readonly atRisk: number;
  /** What the number at risk follows from: as stated, or by the book at the first signs. */
  readonly atRiskBy: "stated" | "book" | "both" | "unknown";
  readonly dead: number;
  /** Some of the counts are estimates. */
  readonly isAbout: boolean;
  /** Days on which something was found, in order. */
  readonly days: readonly CaseDay[];
  /** The entries it follows from. */
  readonly from: readonly CaseEntry[];
}

interface Strand {
  readonly station: Station;
  readonly species: string;
  readonly lot: string;
  readonly tanks: readonly Tank[];
  affected: number;
  /** As stated last, carried on. */
  present: number;
  dead: number;
  /** Affected, and all animals, that were moved to and from other tanks of the case. */
  affectedOut: number;
  affectedIn: number;
  out: number;
  in: number;
  ever: number;
  stated: number;
  byBook: number;
  entries: number;
  /** The day of its first signs. */
  since: number;
}

type Event =
  | { readonly is: "sick"; readonly at: CaseEntry; readonly sick: SickEntry }
  | { readonly is: "death"; readonly at: CaseEntry; readonly death: CaseDeath }
  | { readonly is: "move"; readonly at: CaseEntry; readonly move: CaseMove };

/** How many were affected up to the end of a day. */
export function countOf(logbook: Logbook, story: CaseStory, day: number): CaseCount {
  const strands: Strand[] = [];
  const byLot = lotsApart(story);
  const strandOf = (station: Station, species: string, lot: string): Strand => {
    const own = byLot(station, species) ? lot : "";
    const known =
      strands.find((each) => each.station === station && each.species === species && each.lot === own) ??
      // A death that names no lot, or in one of the tanks of a system, is of what is counted there.
      strands.find(
        (each) =>
          each.species === species &&
          (each.station === station || each.tanks.includes(station as Tank)) &&
          (own === "" || each.lot === ""),
      );
    if (known !== undefined) return known;
    const fresh = emptyStrand(station, species, own, tanksOf(logbook.book, station));
    strands.push(fresh);
    return fresh;
  };
  const events = eventsOf(story).filter(({ at }) => at.day <= day);
  const days = new Map<number, { fresh: number; dead: number; isCounted: boolean }>();
  const told: CaseDay[] = [];
  let [isLeast, isAbout] = [false, false];
  const ever = (): number => strands.reduce((sum, each) => sum + each.ever, 0);
  for (const [index, event] of events.entries()) {
    const on = event.at.day;
    const today = days.get(on) ?? { fresh: 0, dead: 0, isCounted: false };
    days.set(on, today);
    const before = ever();
    switch (event.is) {
      case "sick":
        for (const station of event.sick.stations) {
          const strand = strandOf(station, event.sick.species, event.sick.lot);
          const fresh = newIn(event.sick);
          // So many of none are no news, and the first count is all new to the case.
          if (Number.isNaN(fresh) && strand.entries > 0 && event.sick.affected !== 0) isLeast = true;
          if (Number.isNaN(event.sick.affected)) isLeast = true;
          takeSick(strand, event.sick, fresh);
        }
        isAbout ||= event.sick.isAbout;
        today.isCounted ||= !Number.isNaN(event.sick.affected);
        break;
      case "death": {
        const { tank, species, lot, animals } = event.death;
        takeDeath(strandOf(tank, species, lot), animals);
        today.dead += animals;
        isAbout ||= event.death.isAbout;
        break;
      }
      case "move": {
        const { from, to, species, lot, animals } = event.move;
        takeMove(strandOf(from, species, lot), strandOf(to, species, lot), animals);
      }
    }
    today.fresh += ever() - before;
    if (events[index + 1]?.at.day === on) continue;
    // By the book of the day of the first signs, with those that it lost or sent on that day.
    for (const each of strands)
      if (each.since === on && Number.isNaN(each.byBook))
        each.byBook = bookOf(logbook, each, on) + each.dead + each.out - each.in;
    const isPlain = today.isCounted && strands.every((each) => !Number.isNaN(each.affected));
    told.push({
      day: on,
      fresh: today.fresh,
      dead: today.dead,
      affected: isPlain
        ? sumOf(strands, (each) => affectedOf(each, presentOf(logbook, each, on)))
        : Number.NaN,
      present: isPlain ? sumOf(strands, (each) => presentOf(logbook, each, on)) : Number.NaN,
    });
  }
  const end = Number.isNaN(story.closed) ? day : Math.min(story.closed, day);
  const shown = strands.map((each): CaseStrand => {
    // Of a case that is over as it was at its end: its animals may be elsewhere by now.
    const present = presentOf(logbook, each, end);
    return {
      station: each.station,
      species: each.species,
      lot: each.lot,
      affected: affectedOf(each, present),
      present,
      ever: each.ever,
      atRisk: atRiskOf(each),
      dead: each.dead,
    };
  });
  const ways = new Set(strands.map(wayOf));
  return {
    strands: shown,
    affected: sumOf(shown, ({ affected }) => affected),
    ever: ever(),
    isLeast,
    atRisk: sumOf(shown, ({ atRisk }) => atRisk),
    atRiskBy: ways.has("unknown")
      ? "unknown"
      : ways.size === 2
        ? "both"
        : ((ways.values().next().value ?? "unknown") as CaseCount["atRiskBy"]),
    dead: sumOf(shown, ({ dead }) => dead),
    isAbout,
    days: told,
    from: events.map(({ at }) => at),
  };
}

const sumOf = <Item>(items: readonly Item[], of: (item: Item) => number): number =>
  items.reduce((sum, item) => sum + of(item), 0);

const emptyStrand = (station: Station, species: string, lot: string, tanks: readonly Tank[]): Strand => ({
  station,
  species,
  lot,
  tanks,
  affected: 0,
  present: Number.NaN,
  dead: 0,
  affectedOut: 0,
  affectedIn: 0,
  out: 0,
  in: 0,
  ever: 0,
  stated: Number.NaN,
  byBook: Number.NaN,
  entries: 0,
  since: Number.NaN,
});

/** Whether all entries of a species in a place name a lot, so that the lots are counted apart. */
function lotsApart({ sick }: CaseStory): (station: Station, species: string) => boolean {
  return (station, species) => {
    const there = sick.filter((each) => each.species === species && each.stations.includes(station));
    return there.length > 0 && there.every(({ lot }) => lot !== "");
  };
}

/** In order of time; of one time as they are written. */
function eventsOf({ sick, deaths, moves }: CaseStory): Event[] {
  const events: Event[] = [
    ...sick.map((entry): Event => ({ is: "sick", at: entry, sick: entry })),
    ...deaths.map((death): Event => ({ is: "death", at: death.entry, death })),
    ...moves.map((move): Event => ({ is: "move", at: move.entry, move })),
  ];
  return events.sort(
    (a, b) =>
      a.at.time - b.at.time ||
      (a.at.block === b.at.block ? rowAt(a.at) - rowAt(b.at) : isAbove(a.at, b.at) ? -1 : 1),
  );
}

/** Whether the block of one entry stands above that of another, in the order of files and lines. */
const isAbove = ({ block: a }: CaseEntry, { block: b }: CaseEntry): boolean =>
  a.file === b.file ? a.start < b.start : a.file.path < b.file.path;

/** Where a row stands among those of its block: its number may be any. */
const rowAt = ({ block, row }: CaseEntry): number => (block.ids === undefined ? row : block.ids.indexOf(row));

/** How many of the sick are new, as the entry states; NaN where it does not. */
function newIn({ block, row }: SickEntry): number {
  const value = entryOf(block, row)?.item.new;
  return value === undefined ? Number.NaN : value.value;
}

function takeSick(strand: Strand, sick: SickEntry, fresh: number): void {
  if (strand.entries++ === 0) strand.since = sick.day;
  // Signs without a number are of one at least.
  strand.affected = Number.isNaN(sick.affected) ? Math.max(1, strand.affected) : sick.affected;
  const forced = forcedBy(strand);
  strand.ever = Math.max(forced, strand.ever + (Number.isNaN(fresh) ? 0 : fresh));
  if (Number.isNaN(sick.atRisk)) return;
  strand.present = sick.atRisk;
  const all = sick.atRisk + strand.dead + strand.out - strand.in;
  strand.stated = Number.isNaN(strand.stated) ? all : Math.max(strand.stated, all);
}

/** Not fewer than these fell ill in a place: those that show signs, the dead, those that went on, less those that came ill. */
const forcedBy = ({ affected, dead, affectedOut, affectedIn }: Strand): number =>
  Math.max(0, affected + dead + affectedOut - affectedIn);

function takeDeath(strand: Strand, animals: number): void {
  // The dead were ill: of those that were counted as long as there are any, then of others.
  strand.affected -= Math.min(animals, strand.affected);
  strand.dead += animals;
  strand.present -= animals;
  strand.ever = Math.max(strand.ever, forcedBy(strand));
}

function takeMove(from: Strand, to: Strand, animals: number): void {
  // Who is set apart is set apart for being ill.
  const ill = Math.min(animals, from.affected);
  from.affected -= ill;
  from.affectedOut += ill;
  from.out += animals;
  from.present -= animals;
  to.affected += ill;
  to.affectedIn += ill;
  to.in += animals;
  to.present += animals;
}

/** The book of a place at the end of a day; NaN where it knows nothing of one of its tanks. */
function bookOf(logbook: Logbook, { tanks, species, lot }: Strand, day: number): number {
  let sum = Number.NaN;
  for (const tank of tanks) {
    const course = courseOf(logbook, tank, species, lot);
    const animals = course === undefined ? Number.NaN : animalsBefore(course, day + 1);
    if (!Number.isNaN(animals)) sum = (Number.isNaN(sum) ? 0 : sum) + animals;
  }
  return sum;
}

function courseOf(logbook: Logbook, tank: Tank, species: string, lot: string): Course | undefined {
  const ledger = logbook.ledgerOf(tank);
  const [all, name] =
    lot === ""
      ? [courses(ledger), nameOf(species)]
      : [lotCourses(ledger), partyOf(nameOf(species), nameOf(lot))];
  return all.find(({ holding }) => holding.tank === tank.id && holding.species === name);
}

/** As stated last, less what died and was moved since; no more than the book has, which knows what was culled, sold or is missing. */
function presentOf(logbook: Logbook, strand: Strand, day: number): number {
  const byBook = bookOf(logbook, strand, day);
  if (Number.isNaN(strand.present)) return byBook;
  return Math.max(0, Number.isNaN(byBook) ? strand.present : Math.min(strand.present, byBook));
}

/** Showing signs, no more than are there. */
function affectedOf({ affected }: Strand, present: number): number {
  return Number.isNaN(present) ? affected : Math.min(affected, present);
}

/** What is stated, else what the book had at the first signs, with those that died or left before; those that came from a tank of the case count there. */
function atRiskOf(strand: Strand): number {
  if (strand.entries === 0) return 0;
  return Math.max(0, Number.isNaN(strand.stated) ? strand.byBook : strand.stated);
}

function wayOf(strand: Strand): CaseCount["atRiskBy"] {
  if (!Number.isNaN(strand.stated)) return "stated";
  return strand.entries === 0 || !Number.isNaN(strand.byBook) ? "book" : "unknown";
}
