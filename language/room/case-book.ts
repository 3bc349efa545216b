import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, choiceOfRow, intsPerRow, kindOfRow } from "../book/facts.ts";
import { nameOf, wordOf } from "../book/interner.ts";
import type { Station, Tank } from "../book/stations.ts";
import { isAbout, middleOf } from "./amounts.ts";
import { type Case, type CaseEntry, caseOfBath, entryAt, threadsUntil } from "./cases.ts";
import { firstFrom } from "./days.ts";
import { keptOfFound } from "./kept-of-found.ts";
import { keptWithLines, type MadeOfLines } from "./kept-with-lines.ts";
import type { Logbook } from "./logbook.ts";
import { type LossWord, lossWords } from "./movement.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";

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
  const last = logbook.dayGroups.at(-1)?.day ?? day;
  // Of all days after the last entry there is the same to tell.
  const until = day >= last ? Number.POSITIVE_INFINITY : day;
  if (Number.isFinite(until))
    return keptWithLines(logbook, `case stories ${until}`, () => storiesUntil(logbook, until));
  const of = [findMoves, findLosses, findTreatments].map((find) => find(logbook, until));
  return keptOfFound(logbook, "case stories", [threadsUntil(logbook, until), ...of], () =>
    storiesUntil(logbook, until),
  );
}

function storiesUntil(logbook: Logbook, day: number): MadeOfLines<readonly CaseStory[]> {
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
    const word = (column: number): string => wordIn(row, column);
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

const findLosses = rowFinder((facts, row) => kindOfRow(facts, row) === Kind.lose);
/** A death is not what the keeper culled, nor what is missing or jumped, unless the entry names the case. */
const isDeath = (how: LossWord): boolean => how !== "culled" && how !== "missing" && how !== "jumped";

/**
 * The deaths of each case: those that name it, and those of its species in its tanks while it was open that name none. Where several cases are
 * open for a species in a tank it is of the one whose signs were written down last.
 */
function deathsOf(logbook: Logbook, homed: readonly Homed[], day: number): CaseDeath[][] {
  const rows = findLosses(logbook, day);
  const here = new Map<Station, number[]>();
  for (const [at, { homes }] of homed.entries())
    for (const { tank } of homes) here.set(tank, [...(here.get(tank) ?? []), at]);
  const named = new Map<string, LogRow[]>();
  for (const row of rows) {
    const name = wordIn(row, Col.object);
    if (name !== "") named.set(name, [...(named.get(name) ?? []), row]);
  }
  return homed.map(({ case: each, homes }, index) => {
    const own = (named.get(each.name) ?? []).filter((row) => isAmong(each, row));
    const linked = within(rows, each).filter(
      (row) => wordIn(row, Col.object) === "" && isDeath(howLost(row)),
    );
    const isHere = (tank: Station, row: LogRow): boolean =>
      homes.some((home) => home.tank === tank) &&
      openFor(
        homed,
        here.get(tank) ?? [],
        tank as Tank,
        wordIn(row, Col.subject),
        wordIn(row, Col.lot),
        row.day,
      ) === index;
    const deaths = [
      ...own.flatMap((row) => deathsIn(logbook.book, row, () => true)),
      ...linked.flatMap((row) => deathsIn(logbook.book, row, (tank) => isHere(tank, row))),
    ];
    return deaths.sort((a, b) => a.entry.time - b.entry.time);
  });
}

/** The deaths of a row, one a tank. */
function deathsIn(book: Book, row: LogRow, isMeant: (tank: Station) => boolean): CaseDeath[] {
  const target = row.facts.ints[row.row * intsPerRow + Col.target]!;
  // Most losses are of tanks without a case: they are passed over before anything is made of them.
  if (target >= 0 && !isMeant(book.station(target)!)) return [];
  const entry = entryAt(book, row);
  if (entry === undefined) return [];
  return entry.stations
    .filter((station) => station.kind === "tank" && isMeant(station))
    .map(
      (tank): CaseDeath => ({
        entry,
        tank: tank as Tank,
        species: wordIn(row, Col.subject),
        lot: wordIn(row, Col.lot),
        animals: middleOf(row.facts, row.row),
        isAbout: isAbout(row.facts, row.row),
        how: howLost(row),
        isNamed: wordIn(row, Col.object) !== "",
      }),
    );
}

const wordIn = ({ facts, row }: LogRow, column: number): string =>
  wordOf(facts.ints[row * intsPerRow + column]!);

const howLost = ({ facts, row }: LogRow): LossWord => lossWords[(choiceOfRow(facts, row) + 5) % 6]!;

/** Whether a row is among the entries of a case. */
const isAmong = ({ entries, afterwards }: Case, { block, id }: LogRow): boolean =>
  [...entries, ...afterwards].some((entry) => entry.block === block && entry.row === id);

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
  const { day, kind, block, id } = row;
  const there = homes.filter(({ from }) => from <= day);
  if (there.length === 0 || of.closed < day) return [];
  const word = (column: number): string => wordIn(row, column);
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
