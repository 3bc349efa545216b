import { isoOf } from "../book/dates.ts";
import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { isAboutAsMany } from "./about.ts";
import { type BroodEntry, broodEntries, type Counted, type Parentage, parentsNamed } from "./brood-rows.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";

/**
 * Broods: from the eggs on, or from birth. Entries that name a lot belong together, wherever they are written; those without one are
 * followed as far as they tell, by tank, species and day.
 */
export interface Brood {
  /** Empty for a brood without a name. */
  readonly lot: string;
  /** `p7`; of a brood without a name `praecox in b1, 2026-03-01`. */
  readonly name: string;
  readonly species: string;
  readonly entries: readonly BroodEntry[];
  readonly tally: Tally;
  readonly parents: Parentage;
  /** Of an entry without a lot: how many spawnings it may belong to; 0 where it is plain. */
  readonly among: number;
}

/** What the entries of a brood come to. Days are NaN where nothing says so. */
export interface Tally {
  /** The first and the last spawning. */
  readonly spawned: number;
  readonly lastSpawned: number;
  readonly laid: Counted;
  /** Living eggs at the first count and at the last. */
  readonly fertile: Counted;
  readonly alive: Counted;
  readonly hatchedOn: number;
  readonly hatched: Counted;
  readonly swamOn: number;
  readonly swimming: Counted;
  /** Animals by tank, from their birth on; of a brood without a name nobody can follow them. */
  readonly living: ReadonlyMap<Tank, Counted>;
  /** What became of the hatched. */
  readonly lost: number;
  readonly culled: number;
  /** Sold or shipped. */
  readonly left: number;
  /** Short by a count; below 0 where more were counted than the book had. */
  readonly unaccounted: number;
  readonly state: BroodState;
}

export type BroodState = "eggs" | "hatched" | "swimming" | "gone" | "lost";

/** Every brood up to the end of a day, in the order in which they begin. */
export function broodsUntil(logbook: Logbook, day: number): readonly Brood[] {
  return keptFor(logbook, `broods ${day}`, () => {
    const named = new Map<string, BroodEntry[]>();
    const unnamed = new Unnamed(logbook);
    for (const entry of broodEntries(logbook, day)) {
      if (entry.lot === "") {
        unnamed.take(entry);
        continue;
      }
      const key = `${entry.lot} ${entry.species}`;
      const known = named.get(key);
      if (known === undefined) named.set(key, [entry]);
      else known.push(entry);
    }
    // A lot of which no egg and no birth is told came from elsewhere: it is a batch.
    const lots = [...named.values()].filter((entries) => entries.some(isOfBroods));
    const before = keptBroods.get(logbook);
    const now = new Map<BroodEntry, Brood>();
    keptBroods.set(logbook, now);
    const made = (entries: readonly BroodEntry[], among: number): Brood => {
      const known = before?.get(entries[0]!);
      const brood =
        known !== undefined && known.among === among && isSame(known.entries, entries)
          ? known
          : broodOf(entries, among);
      now.set(entries[0]!, brood);
      return brood;
    };
    return [
      ...lots.map((entries) => made(entries, 0)),
      ...unnamed.found.map(({ entries, among }) => made(entries, among)),
    ].sort((a, b) => a.entries[0]!.time - b.entries[0]!.time);
  });
}

/** The broods of a logbook by their first entries: one whose entries are the same stays the same object. */
const keptBroods = new WeakMap<Logbook, Map<BroodEntry, Brood>>();

const isSame = (some: readonly BroodEntry[], others: readonly BroodEntry[]): boolean =>
  some.length === others.length && some.every((entry, at) => entry === others[at]);

const isOfBroods = ({ is }: BroodEntry): boolean =>
  is === "spawn" || is === "eggs" || is === "hatch" || is === "swim";

/** The brood that an entry belongs to; undefined if it belongs to none. */
export function broodOfEntry(
  broods: readonly Brood[],
  { block, row }: Pick<BroodEntry, "block" | "row">,
): Brood | undefined {
  let index = byEntry.get(broods);
  if (index === undefined) {
    index = new Map();
    byEntry.set(broods, index);
    for (const brood of broods)
      for (const entry of brood.entries) {
        const known = index.get(entry.block);
        if (known === undefined) index.set(entry.block, new Map([[entry.row, brood]]));
        else known.set(entry.row, brood);
      }
  }
  return index.get(block)?.get(row);
}

/** Broods by their entries: of each list once, when it is first asked for. */
const byEntry = new WeakMap<readonly Brood[], Map<Block, Map<number, Brood>>>();

function broodOf(entries: readonly BroodEntry[], among: number): Brood {
  const first = entries[0]!;
  const spawn = entries.find((entry) => {
    const { father, mother } = entry.is === "spawn" ? parentsNamed(entry) : {};
    return father !== undefined || mother !== undefined;
  });
  return {
    lot: first.lot,
    name: first.lot === "" ? `${first.species} in ${first.tank.name}, ${isoOf(first.day)}` : first.lot,
    species: first.species,
    entries,
    tally: tallyOf(entries),
    parents: spawn === undefined ? { father: undefined, mother: undefined } : parentsNamed(spawn),
    among,
  };
}

/** What some entries of one brood come to, in their order. */
export function tallyOf(entries: readonly BroodEntry[]): Tally {
  const of = (is: BroodEntry["is"]): BroodEntry[] => entries.filter((entry) => entry.is === is);
  const [spawns, eggs, hatches, swims] = [of("spawn"), of("eggs"), of("hatch"), of("swim")];
  const young = followed(entries);
  const hatchedOn = hatches[0]?.day ?? Number.NaN;
  const swamOn = swims[0]?.day ?? Number.NaN;
  const alive = sumOf(eggs.filter(({ day }) => day === eggs.at(-1)!.day));
  const total = sumOf([...young.living.values()]).count;
  const isFollowed = entries[0]?.lot !== "";
  const isOut = isFollowed && (young.living.size === 0 || total === 0);
  const state = ((): BroodState => {
    if (hatches.length === 0 && swims.length === 0)
      return eggs.length > 0 && alive.count === 0 ? "lost" : "eggs";
    if (hatches.length > 0 && isOut) return young.left > 0 ? "gone" : "lost";
    return swims.length > 0 ? "swimming" : "hatched";
  })();
  return {
    spawned: spawns[0]?.day ?? Number.NaN,
    lastSpawned: spawns.at(-1)?.day ?? Number.NaN,
    laid: sumOf(spawns),
    fertile: sumOf(eggs.filter(({ day }) => day === eggs[0]!.day)),
    alive,
    hatchedOn,
    hatched: sumOf(hatches),
    swamOn,
    swimming: sumOf(latestByTank(swims)),
    ...young,
    state,
  };
}

const none: Counted = { count: Number.NaN, isAbout: false };

/** All together; NaN where one of them is not numbered, and where there is none. */
function sumOf(counts: readonly Counted[]): Counted {
  if (counts.length === 0) return none;
  return {
    count: counts.reduce((sum, { count }) => sum + count, 0),
    isAbout: counts.some(({ isAbout }) => isAbout),
  };
}

function latestByTank(entries: readonly BroodEntry[]): BroodEntry[] {
  return [...new Map(entries.map((entry) => [entry.tank, entry])).values()];
}

/** The animals of a lot from tank to tank, by the same rules as the book of the lot. */
function followed(
  entries: readonly BroodEntry[],
): Pick<Tally, "living" | "lost" | "culled" | "left" | "unaccounted"> {
  const living = new Map<Tank, { count: number; isAbout: boolean }>();
  const sums = { lost: 0, culled: 0, left: 0, unaccounted: 0 };
  const enter = (tank: Tank, { count, isAbout }: Counted): void => {
    const known = living.get(tank);
    living.set(tank, {
      count: (known?.count ?? 0) + (Number.isNaN(count) ? 0 : count),
      isAbout: isAbout || known?.isAbout === true,
    });
  };
  /** How many could leave: no more than are there. */
  const leave = (tank: Tank, count: number): number => {
    const known = living.get(tank);
    const gone = Math.min(known?.count ?? 0, count);
    if (known !== undefined) known.count -= gone;
    return gone;
  };
  for (const entry of entries) {
    const { tank, count, to } = entry;
    switch (entry.is) {
      case "hatch":
      case "arrive":
        enter(tank, entry);
        break;
      case "lose":
        sums.lost += leave(tank, count);
        break;
      case "cull":
        sums.culled += leave(tank, count);
        break;
      case "sell":
      case "ship":
        sums.left += leave(tank, count);
        break;
      case "move":
        // Before anything hatched it is the eggs that go.
        if (living.size === 0) break;
        leave(tank, count);
        enter(to!, entry);
        break;
      case "count": {
        const known = living.get(tank);
        if (known === undefined) {
          enter(tank, entry);
          break;
        }
        if (!entry.isOf && leavesAlone(entry, known)) break;
        sums.unaccounted += known.count - count;
        known.count = count;
        if (!entry.isOf) known.isAbout = entry.isAbout;
        break;
      }
    }
  }
  for (const [tank, { count }] of living) if (count === 0) living.delete(tank);
  return { living, ...sums };
}

/** Whether a count agrees with the book so far that the book stays as it is. */
function leavesAlone({ range, isAbout, count }: BroodEntry, known: Counted): boolean {
  if (range !== undefined) return known.count >= range.low && known.count <= range.high;
  return isAbout && !known.isAbout && isAboutAsMany(count, known.count);
}

/** Eggs without a name of which nothing is stated are waited for so many days. *Common practice, no source.* */
const waitedDays = 60;
/** Eggs of one brood go on hatching for so many days. *Common practice, no source.* */
const hatchingDays = 3;

interface Open {
  readonly entries: BroodEntry[];
  readonly among: number;
}

/** Entries that name no lot: each belongs to the one spawning of its tank and species that it can belong to, or stands alone. */
class Unnamed {
  readonly found: Open[] = [];
  private readonly open = new Map<string, Open[]>();
  private readonly logbook: Logbook;

  constructor(logbook: Logbook) {
    this.logbook = logbook;
  }

  take(entry: BroodEntry): void {
    const key = `${entry.tank.name} ${entry.species}`;
    const waits = waitDaysOf(this.logbook, entry.species);
    const open = (this.open.get(key) ?? []).filter(({ entries }) => entry.day - entries.at(-1)!.day <= waits);
    this.open.set(key, open);
    const may = entry.is === "spawn" ? [] : open.filter(({ entries }) => mayFollow(entries, entry));
    const [only] = may;
    if (only !== undefined && may.length === 1) {
      only.entries.push(entry);
      return;
    }
    const fresh: Open = { entries: [entry], among: may.length };
    this.found.push(fresh);
    open.push(fresh);
  }
}

/** Whether an entry can be the next of a brood. */
function mayFollow(entries: readonly BroodEntry[], { is, day }: BroodEntry): boolean {
  const hatch = entries.find((each) => each.is === "hatch");
  const isBegun = entries.some((each) => each.is === "spawn" || each.is === "eggs");
  if (is === "eggs") return isBegun && hatch === undefined;
  if (is === "hatch") return isBegun && (hatch === undefined || day - hatch.day <= hatchingDays);
  return hatch !== undefined || isBegun;
}

/** How long eggs of a species without a name are waited for: twice what is stated. */
export function waitDaysOf({ bound }: Logbook, species: string): number {
  const stated = bound.species.get(species)?.hatches;
  return stated === undefined ? waitedDays : 2 * stated.highDays;
}

/** The tank in which the eggs, and then the young, of a brood were on a day: that of the last entry that tells. */
export function homeOf({ entries }: Pick<Brood, "entries">, day: number): Tank {
  let home = entries[0]!.tank;
  for (const entry of entries) {
    if (entry.day > day) break;
    if (isOfBroods(entry)) home = entry.tank;
    else if (entry.is === "move") home = entry.to ?? home;
  }
  return home;
}
