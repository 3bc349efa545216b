import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, choiceOfRow, type Facts, floatsPerRow, intsPerRow, kindOfRow, Num } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Place, Tank } from "../book/stations.ts";
import { isAbout, middleOf } from "./amounts.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { lossWords } from "./movement.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";

/** The entries that tell of broods: what is laid and hatches, and what becomes of animals with a name. */

export type BroodEntryIs =
  | "spawn"
  | "eggs"
  | "hatch"
  | "swim"
  | "arrive"
  | "count"
  | "lose"
  | "cull"
  | "move"
  | "sell"
  | "ship";

/** A number of eggs or animals; NaN where none is written. */
export interface Counted {
  readonly count: number;
  readonly isAbout: boolean;
}

export interface BroodEntry extends Counted {
  readonly is: BroodEntryIs;
  readonly time: number;
  readonly day: number;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
  readonly tank: Tank;
  readonly species: string;
  /** Empty where no lot is named. */
  readonly lot: string;
  /** Where they went, of a move. */
  readonly to: Tank | undefined;
  /** Both ends of a range of a count; undefined for one figure. */
  readonly range: { readonly low: number; readonly high: number } | undefined;
  /** Whether a count says which of them were seen, and not how many there are. */
  readonly isOf: boolean;
}

/** A lot named as a parent in an entry, or in a definition. */
export interface ParentNamed {
  readonly name: string;
  /** Where it stands when asked: a brood is kept while lines above it are edited. */
  readonly place: Place;
}

const broodKinds: ReadonlySet<number> = new Set([Kind.spawn, Kind.eggs, Kind.hatch, Kind.swim]);
const lotKinds: ReadonlySet<number> = new Set([
  Kind.arrive,
  Kind.count,
  Kind.lose,
  Kind.move,
  Kind.sell,
  Kind.ship,
]);

const findRows = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  return broodKinds.has(kind) || (lotKinds.has(kind) && facts.ints[row * intsPerRow + Col.lot] !== noName);
});

/** Every such entry up to the end of a day, in order of time; of a group one for each of its tanks. */
export function broodEntries(logbook: Logbook, until: number): readonly BroodEntry[] {
  return keptFor(logbook, `brood entries ${until}`, () => read(logbook, until));
}

function read(logbook: Logbook, until: number): BroodEntry[] {
  const { book } = logbook;
  return findRows(logbook, until).flatMap((row) => {
    let kept = keptEntries.get(row.facts);
    if (kept?.book !== book) {
      kept = { book, byRow: new Map() };
      keptEntries.set(row.facts, kept);
    }
    let entries = kept.byRow.get(row.row);
    if (entries === undefined) {
      entries = entriesOf(book, row);
      kept.byRow.set(row.row, entries);
    }
    return entries;
  });
}

/** What a row says: true for its facts and one book. So the entries of days that were not edited stay the same objects. */
const keptEntries = new WeakMap<Facts, { readonly book: Book; readonly byRow: Map<number, BroodEntry[]> }>();

function entriesOf(book: Book, { day, time, block, facts, row, id, kind }: LogRow): BroodEntry[] {
  const column = (which: number): number => facts.ints[row * intsPerRow + which]!;
  const target = column(Col.target);
  const subject = column(Col.subject);
  if (subject === noName) return [];
  const station = target >= 0 ? book.station(target) : undefined;
  const tanks =
    target < 0 ? (book.groupTanks(~target) ?? []) : station?.kind === "tank" ? [station as Tank] : [];
  const end = kind === Kind.move ? book.station(column(Col.object)) : undefined;
  const to = end?.kind === "tank" ? (end as Tank) : undefined;
  const of = kind === Kind.count ? facts.floats[row * floatsPerRow + Num.second]! : Number.NaN;
  const low = facts.floats[row * floatsPerRow]!;
  const high = facts.floats[row * floatsPerRow + Num.high]!;
  return (
    tanks
      // Nothing goes to where it is, or to a tank that is not there.
      .filter((tank) => kind !== Kind.move || (to !== undefined && to !== tank))
      .map((tank) => ({
        is: whatIs(kind, facts, row),
        time,
        day,
        block,
        row: id,
        tank,
        species: wordOf(subject),
        lot: wordOf(column(Col.lot)),
        count: !Number.isNaN(of) ? of : Number.isNaN(low) ? Number.NaN : middleOf(facts, row),
        isAbout: isAbout(facts, row),
        to,
        range: Number.isNaN(high) ? undefined : { low, high },
        isOf: !Number.isNaN(of),
      }))
  );
}

function whatIs(kind: number, facts: Facts, row: number): BroodEntryIs {
  switch (kind) {
    case Kind.spawn:
      return "spawn";
    case Kind.eggs:
      return "eggs";
    case Kind.hatch:
      return "hatch";
    case Kind.swim:
      return "swim";
    case Kind.arrive:
      return "arrive";
    case Kind.count:
      return "count";
    case Kind.move:
      return "move";
    case Kind.sell:
      return "sell";
    case Kind.ship:
      return "ship";
    default: {
      const how = lossWords[choiceOfRow(facts, row) - 1];
      return how === "culled" || how === "euthanised" ? "cull" : "lose";
    }
  }
}

export interface Parentage {
  readonly father: ParentNamed | undefined;
  readonly mother: ParentNamed | undefined;
}

interface KeptParents {
  readonly facts: Facts;
  readonly byRow: Map<number, Parentage>;
}

const keptParents = new WeakMap<Block, KeptParents>();
const noParents: Parentage = { father: undefined, mother: undefined };

/** The parents that a spawning names; kept until its block is edited. */
export function parentsNamed({ block, row }: Pick<BroodEntry, "block" | "row">): Parentage {
  // Most days name no parents, and need not be read as objects.
  if (!/\b(?:father|mother)\b/.test(block.text)) return noParents;
  let kept = keptParents.get(block);
  if (kept?.facts !== block.facts) {
    kept = { facts: block.facts, byRow: new Map() };
    keptParents.set(block, kept);
  }
  let parents = kept.byRow.get(row);
  if (parents === undefined) {
    const { facts } = block;
    const item = entryOf(block, row)?.item;
    const named = (role: "father" | "mother"): ParentNamed | undefined => {
      const value = item?.[role];
      if (value === undefined || value.text === "") return undefined;
      const read: Place = { block, start: value.start, end: value.end };
      return {
        name: value.text,
        get place() {
          return block.facts === facts ? read : (parentsNamed({ block, row })[role]?.place ?? read);
        },
      };
    };
    parents = { father: named("father"), mother: named("mother") };
    kept.byRow.set(row, parents);
  }
  return parents;
}
