import { Kind } from "../book/entries/registry.ts";
import { Col, intsPerRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Lot, Tank } from "../book/stations.ts";
import { animalsBefore, lotCourses } from "./course.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { namesOfParty } from "./party.ts";
import { rowFinder } from "./rare-rows.ts";

/** The lots of a room: batches, broods, animals with a name, by the entries that name them and what is stated of them. */

/** An entry that names a lot. */
export interface LotEntry {
  readonly time: number;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
  readonly kind: number;
  readonly species: string;
  /** The name of its target; of a group its complement. */
  readonly target: number;
  /** Of an arrival the supplier. */
  readonly object: number;
}

export interface LotStory {
  readonly name: string;
  /** What is stated of it; undefined if it is not defined. */
  readonly stated: Lot | undefined;
  /** In order of time. */
  readonly entries: readonly LotEntry[];
  /** Those among them by which it came to be: arrivals, spawnings, hatches. */
  readonly made: readonly LotEntry[];
}

const makers: ReadonlySet<number> = new Set([Kind.arrive, Kind.spawn, Kind.hatch]);

/** Every lot that is defined or named, by its name. */
export function lotStories(logbook: Logbook): ReadonlyMap<string, LotStory> {
  return keptFor(logbook, "lot stories", () => storiesIn(logbook));
}

function storiesIn(logbook: Logbook): ReadonlyMap<string, LotStory> {
  const stories = new Map<
    string,
    { name: string; stated: Lot | undefined; entries: LotEntry[]; made: LotEntry[] }
  >();
  const storyOf = (name: string) => {
    let story = stories.get(name);
    if (story === undefined) {
      story = { name, stated: logbook.book.lots.get(name), entries: [], made: [] };
      stories.set(name, story);
    }
    return story;
  };
  for (const name of logbook.book.lots.keys()) storyOf(name);
  for (const [lot, entry] of lotEntries(logbook)) {
    const story = storyOf(wordOf(lot));
    story.entries.push(entry);
    if (makers.has(entry.kind)) story.made.push(entry);
  }
  return stories;
}

/** The entries of one lot. */
export function lotStory(logbook: Logbook, name: string): LotStory | undefined {
  return lotStories(logbook).get(name);
}

const findLotRows = rowFinder((facts, row) => facts.ints[row * intsPerRow + Col.lot] !== noName);

/** Entries that name a lot, with its number, in order of time. One whose tank is not defined is nobody's, and counts nowhere. */
function lotEntries(logbook: Logbook): (readonly [lot: number, LotEntry])[] {
  const { book } = logbook;
  const isDefined = (target: number): boolean =>
    target < 0 ? (book.groupTanks(~target)?.length ?? 0) > 0 : book.station(target) !== undefined;
  const found: (readonly [number, LotEntry])[] = [];
  for (const { time, block, facts, row, id, kind } of findLotRows(logbook, Number.POSITIVE_INFINITY)) {
    const column = (which: number): number => facts.ints[row * intsPerRow + which]!;
    const target = column(Col.target);
    if (!isDefined(target)) continue;
    const species = wordOf(column(Col.subject));
    found.push([
      column(Col.lot),
      { time, block, row: id, kind, species, target, object: column(Col.object) },
    ]);
  }
  return found;
}

/** The species that a lot holds: what is stated, and what it was made of. */
export function speciesOfLot({ stated, made }: LotStory): Set<string> {
  const species = new Set(made.map((entry) => entry.species));
  if (stated !== undefined && stated.species !== "") species.add(stated.species);
  return species;
}

/** Who it came from: as stated, else as its arrival says; empty for what was bred here. */
export function supplierOfLot({ stated, made }: LotStory): string {
  if (stated !== undefined && stated.supplier !== "") return stated.supplier;
  const arrival = made.find(({ kind, object }) => kind === Kind.arrive && object !== noName);
  return arrival === undefined ? "" : wordOf(arrival.object);
}

/** The day its animals were born: as stated, else when they hatched. NaN where nobody says. */
export function bornOfLot({ stated, made }: LotStory): number {
  if (stated !== undefined && !Number.isNaN(stated.born)) return stated.born;
  return Math.floor(made.find(({ kind }) => kind === Kind.hatch)?.time ?? Number.NaN);
}

/** Animals of a lot in a tank. */
export interface LotHome {
  readonly tank: Tank;
  readonly species: string;
  readonly animals: number;
}

/** Where the animals of lots are at the end of a day, by the entries that name them. @param name of one lot; of all if it is left out */
export function lotsAt(logbook: Logbook, day: number, name?: string): (LotHome & { readonly lot: string })[] {
  const { stations } = logbook.book;
  return logbook.ledgers.flatMap((ledger) =>
    lotCourses(ledger).flatMap((course) => {
      const { species, lot } = namesOfParty(course.holding.species);
      if (name !== undefined && wordOf(lot) !== name) return [];
      const animals = animalsBefore(course, day + 1);
      if (!(animals > 0)) return [];
      const tank = stations[course.holding.tank] as Tank;
      return [{ tank, species: wordOf(species), lot: wordOf(lot), animals }];
    }),
  );
}
