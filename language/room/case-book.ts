import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, type Facts, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Station, Tank } from "../book/stations.ts";
import { isAbout, middleOf } from "./amounts.ts";
import { type Case, type CaseEntry, caseOfBath, entryAt, threadsUntil } from "./cases.ts";
import { firstFrom } from "./days.ts";
import { keptWithLines } from "./kept-with-lines.ts";
import type { Logbook } from "./logbook.ts";
import { type LossWord, lossWords } from "./movement.ts";
import { type LogRow, rareRows, rowFinder } from "./rare-rows.ts";

/** What belongs to a case beside what names it: its tanks through time, what was given in their water, who died in them. */

/** A tank that sick animals of a case are in. */
export interface CaseHome {
  readonly tank: Tank;
  /** The day of the first signs in it, or on which sick animals were moved into it. */
  readonly from: number;
  /** The entry that says so. */
  readonly by: CaseEntry;
}

export interface CaseDeath {
  readonly entry: CaseEntry;
  readonly tank: Tank;
  readonly species: string;
  readonly lot: string;
  readonly animals: number;
  readonly isAbout: boolean;
  readonly how: LossWord;
  /** The entry names the case. */
  readonly isNamed: boolean;
}

/** Animals of a case that went from one of its tanks to another. */
export interface CaseMove {
  readonly entry: CaseEntry;
  readonly from: Tank;
  readonly to: Tank;
  readonly species: string;
  readonly lot: string;
  readonly animals: number;
}

export interface CaseStory extends Case {
  readonly homes: readonly CaseHome[];
  readonly deaths: readonly CaseDeath[];
  readonly moves: readonly CaseMove[];
  /** Doses in its water and baths of its animals that name no case, while it was open. */
  readonly linked: readonly CaseEntry[];
}

/** Every case that has a name up to the end of a day, with what belongs to it; in the order in which they were opened. */
export function caseStories(logbook: Logbook, day: number): readonly CaseStory[] {
  return keptWithLines(logbook, `case stories ${day}`, () => {
    const { cases, read } = threadsUntil(logbook, day);
    const moves = findMoves(logbook, day);
    const homed = cases
      .filter(({ name }) => name !== "")
      .map((each) => ({ case: each, ...homesOf(logbook, each, within(moves, each)) }));
    const deaths = deathsOf(logbook, homed, day);
    const treatments = findTreatments(logbook, day);
    const value = homed.map(
      (each, at): CaseStory => ({
        ...each.case,
        homes: each.homes,
        moves: each.moves,
        deaths: deaths[at]!,
        linked: within(treatments, each.case).flatMap((row) => linkedTreatment(logbook.book, each, row)),
      }),
    );
    return { value, blocks: read };
  });
}

/** The latest of a name, or one of its episodes. */
export function caseNamed(
  logbook: Logbook,
  name: string,
  day: number,
  episode?: number,
): CaseStory | undefined {
  return caseStories(logbook, day).findLast(
    (each) => each.name === name && (episode === undefined || each.episode === episode),
  );
}

/** Those of some rows, in order of days, that lie within the time of a case. */
function within(rows: readonly LogRow[], { since, closed }: Case): readonly LogRow[] {
  const from = firstFrom(rows, since);
  return rows.slice(from, Number.isNaN(closed) ? undefined : firstFrom(rows, closed + 1));
}

interface Homed {
  readonly case: Case;
  readonly homes: readonly CaseHome[];
  readonly moves: readonly CaseMove[];
}

/** The tanks of a station: itself, or those that share the water of a system. */
export function tanksOf(book: Book, station: Station): readonly Tank[] {
  if (station.kind === "tank") return [station as Tank];
  return station.kind === "system" ? (book.bodies[station.body]?.tanks ?? []) : [];
}

const findMoves = rowFinder((facts, row) => kindOfRow(facts, row) === Kind.move);

/**
 * Where its sick are: where signs were seen; and a tank of the role `hospital` from the day on which animals of its species were moved
 * into it out of one of the others. Moves between its tanks are told, as they take the sick along.
 */
function homesOf(logbook: Logbook, of: Case, within: readonly LogRow[]): Omit<Homed, "case"> {
  const { book } = logbook;
  const homes = new Map<Tank, CaseHome>();
  for (const entry of of.sick)
    for (const station of entry.stations)
      for (const tank of tanksOf(book, station)) {
        if (!homes.has(tank)) homes.set(tank, { tank, from: entry.day, by: entry });
      }
  const species = new Set(of.sick.map((entry) => entry.species));
  const moves: CaseMove[] = [];
  for (const row of within) {
    const word = (column: number): string => wordOf(row.facts.ints[row.row * intsPerRow + column]!);
    if (!species.has(word(Col.subject))) continue;
    const entry = entryAt(book, row);
    const to = book.station(nameOf(word(Col.object)));
    if (entry === undefined || to?.kind !== "tank") continue;
    const into = to as Tank;
    for (const from of entry.stations) {
      const home = homes.get(from as Tank);
      if (home === undefined || home.from > row.day || from === into) continue;
      const known = homes.get(into);
      if (known === undefined && into.role !== "hospital") continue;
      // Signs that are first written down there after the move came with it.
      if (known === undefined || known.from > row.day)
        homes.set(into, { tank: into, from: row.day, by: entry });
      moves.push({
        entry,
        from: home.tank,
        to: into,
        species: word(Col.subject),
        lot: word(Col.lot),
        animals: middleOf(row.facts, row.row),
      });
    }
  }
  return { homes: [...homes.values()].sort((a, b) => a.from - b.from), moves };
}

const losses: ReadonlySet<number> = new Set([Kind.lose]);
/** A death is not what the keeper culled, nor what is missing or jumped, unless the entry names the case. */
const isDeath = (how: LossWord): boolean => how !== "culled" && how !== "missing" && how !== "jumped";

/**
 * The deaths of each case: those that name it, and those of its species in its tanks while it was open that name none. Where several cases are
 * open for a species in a tank it is of the one whose signs were written down last.
 */
function deathsOf(logbook: Logbook, homed: readonly Homed[], day: number): CaseDeath[][] {
  const deaths: CaseDeath[][] = homed.map(() => []);
  const here = new Map<Tank, number[]>();
  for (const [at, { homes }] of homed.entries())
    for (const { tank } of homes) here.set(tank, [...(here.get(tank) ?? []), at]);
  for (const row of rareRows(logbook, losses, day)) {
    const entry = entryAt(logbook.book, row);
    if (entry === undefined) continue;
    const { facts, row: at } = row;
    const word = (column: number): string => wordOf(facts.ints[at * intsPerRow + column]!);
    const [species, lot, name] = [word(Col.subject), word(Col.lot), word(Col.object)];
    const how = howLost(facts, at);
    for (const station of entry.stations) {
      if (station.kind !== "tank") continue;
      const tank = station as Tank;
      const of =
        name !== ""
          ? namedBy(homed, name, row)
          : isDeath(how)
            ? openFor(homed, here.get(tank) ?? [], tank, species, lot, row.day)
            : -1;
      if (of < 0) continue;
      deaths[of]!.push({
        entry,
        tank,
        species,
        lot,
        animals: middleOf(facts, at),
        isAbout: isAbout(facts, at),
        how,
        isNamed: name !== "",
      });
    }
  }
  return deaths;
}

const howLost = (facts: Facts, row: number): LossWord => lossWords[(choiceOfRow(facts, row) + 5) % 6]!;

/** The case, by its index, whose entries a row is among. */
const namedBy = (homed: readonly Homed[], name: string, { block, id }: LogRow): number =>
  homed.findIndex(
    ({ case: { name: known, entries, afterwards } }) =>
      known === name &&
      [...entries, ...afterwards].some((entry) => entry.block === block && entry.row === id),
  );

/** The case, by its index among those that are in a tank, that a death there on a day is of; -1 for none. */
function openFor(
  homed: readonly Homed[],
  here: readonly number[],
  tank: Tank,
  species: string,
  lot: string,
  day: number,
): number {
  let [best, latest] = [-1, Number.NEGATIVE_INFINITY];
  for (const at of here) {
    const { case: each, homes } = homed[at]!;
    const home = homes.find((known) => known.tank === tank);
    if (home === undefined || home.from > day || each.closed < day) continue;
    const signs = each.sick.filter((entry) => entry.species === species && entry.day <= day);
    if (signs.length === 0) continue;
    // Signs of one lot say nothing of another.
    if (lot !== "" && signs.every((entry) => entry.lot !== "" && entry.lot !== lot)) continue;
    const last = signs.findLast(({ stations }) => stations.some(({ body }) => body === tank.body))?.time;
    if ((last ?? home.from) < latest) continue;
    [best, latest] = [at, last ?? home.from];
  }
  return best;
}

const findTreatments = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  return kind === Kind.dose || kind === Kind.bath;
});

/** A dose in the water of the tanks of a case while it is open, or a bath of its animals, that names no case. */
function linkedTreatment(book: Book, { case: of, homes }: Homed, row: LogRow): CaseEntry[] {
  const { day, kind, facts, block, id } = row;
  const there = homes.filter(({ from }) => from <= day);
  if (there.length === 0 || of.closed < day) return [];
  const word = (column: number): string => wordOf(facts.ints[row.row * intsPerRow + column]!);
  if (kind === Kind.dose ? word(Col.object) !== "" : caseOfBath(block, id) !== "") return [];
  const entry = entryAt(book, row);
  if (entry === undefined) return [];
  const isHere =
    kind === Kind.dose
      ? entry.stations.some(({ body }) => body >= 0 && there.some(({ tank }) => tank.body === body))
      : entry.stations.some((station) => there.some(({ tank }) => tank === station)) &&
        of.sick.some(({ species }) => species === word(Col.subject));
  return isHere ? [entry] : [];
}
