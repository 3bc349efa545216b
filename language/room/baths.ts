import type { Book } from "../book/book.ts";
import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, Num, unitOfSecond } from "../book/facts.ts";
import { nameOf, noName, wordOf } from "../book/interner.ts";
import type { Item } from "../book/reading.ts";
import { rowOfId } from "../book/source.ts";
import type { Remedy, Station, Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { Mark } from "../syntax/pieces.ts";
import { courses } from "./course.ts";
import { addedBy, addedInWords } from "./dose-amount.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rareRows } from "./rare-rows.ts";
import type { Reason } from "./reason.ts";
import { stationsOf, subjectOf } from "./taken-out.ts";
import { settledTime } from "./water.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** Baths and dips: animals in a vessel apart from their tank. Nothing of it comes into the tank's water. */
export interface Bath {
  readonly row: LogRow;
  readonly tanks: readonly Tank[];
  readonly species: string;
  /** As written; NaN where nothing is. */
  readonly animals: number;
  readonly remedy: Remedy;
  /** In the remedy's unit; NaN if it cannot be computed, with the reason in `unknown`. */
  readonly concentration: number;
  readonly unknown: string;
  /** The arithmetic; empty where it cannot be computed. */
  readonly words: string;
  /** From the shortest to the longest that is written. */
  readonly lowMinutes: number;
  readonly highMinutes: number;
  /** Of the vessel; NaN if it is not stated. */
  readonly volumeL: number;
  readonly lot: string;
  readonly case: string;
}

const bathsOnly: ReadonlySet<number> = new Set([Kind.bath]);

/** The baths up to the end of a day with a remedy that is defined, in order of time. */
export function bathsUntil(logbook: Logbook, day: number): Bath[] {
  return rareRows(logbook, bathsOnly, day).flatMap((row) => bathOf(logbook, row) ?? []);
}

/** The baths of the animals of one water up to the end of a day; of a group those of its tanks in this water. */
export function bathsOf(logbook: Logbook, ledger: Ledger, day: number): Bath[] {
  const { health, body } = ledger;
  const baths: Bath[] = [];
  for (let at = 0; at < health.length && health.time[at]! < day + 1; at++) {
    if (health.tag[at] !== Kind.bath) continue;
    const [block, id] = [health.block[at]!, health.row[at]!];
    const row = rowOfId(block, id);
    if (row < 0) continue;
    const { facts } = block;
    const all = bathOf(logbook, {
      day: block.day,
      time: health.time[at]!,
      block,
      facts,
      row,
      id,
      kind: Kind.bath,
    });
    const tanks = all?.tanks.filter((tank) => tank.body === body?.id) ?? [];
    if (all !== undefined && tanks.length > 0) baths.push({ ...all, tanks });
  }
  return baths;
}

/** What a row says of a bath; undefined where its remedy, or its tank, is not defined. */
export function bathOf(logbook: Logbook, row: LogRow): Bath | undefined {
  const { book } = logbook;
  const remedy = remedyOf(book, row.facts, row.row);
  const tanks = stationsOf(logbook, row).filter((station): station is Tank => station.kind === "tank");
  if (remedy === undefined || tanks.length === 0) return undefined;
  const item = entryOf(row.block, row.id)?.item ?? {};
  const { volume, time } = item;
  const volumeL =
    volume === undefined ? Number.NaN : book.units.canonical(volume.value, volume.unit, "volume");
  const value = row.facts.floats[row.row * floatsPerRow + Num.second]!;
  const code = unitOfSecond(row.facts, row.row);
  const made = addedBy(remedy, book.units, value, code, volumeL);
  const minutes = (days: number): number => days * 1440;
  const low =
    time === undefined ? Number.NaN : minutes(book.units.canonical(time.value, time.unit, "duration"));
  const isRange = time?.mark === Mark.range;
  const high = isRange ? minutes(book.units.canonical(time!.second, time!.unit, "duration")) : low;
  return {
    row,
    tanks,
    species: subjectOf(row),
    animals: row.facts.floats[row.row * floatsPerRow]!,
    remedy,
    concentration: "added" in made ? made.added : Number.NaN,
    unknown: "unknown" in made ? ofVessel(made.unknown) : "",
    words: "added" in made ? addedInWords(remedy, book.units, value, code, volumeL) : "",
    lowMinutes: low,
    highMinutes: high,
    volumeL,
    lot: textOf(item, "lot"),
    case: textOf(item, "case"),
  };
}

/** What is said of a tank, of the vessel. */
const ofVessel = (unknown: string): string =>
  unknown === "the volume of the tank is not stated" ? "the volume of the bath is not stated" : unknown;

const textOf = (item: Item, slot: string): string => item[slot]?.text ?? "";

function remedyOf(book: Book, facts: Facts, row: number): Remedy | undefined {
  const object = facts.ints[row * intsPerRow + Col.object]!;
  return object === noName ? undefined : book.remedy(wordOf(object));
}

/** What the book had of a species in a tank just before a bath, and the entry that says so. */
export interface HeldBefore {
  readonly animals: number;
  readonly isAbout: boolean;
  readonly at: Pick<LogRow, "block"> & { readonly row: number };
}

/** Undefined where the book never had any. */
export function heldBeforeBath(ledger: Ledger, tank: Tank, { row, species }: Bath): HeldBefore | undefined {
  const { health, animals } = ledger;
  const index = health.find(row.time, row.block, row.id);
  const until = index < 0 ? row.time : settledTime(health, index);
  const name = nameOf(species);
  const course = courses(ledger).find(({ holding }) => holding.tank === tank.id && holding.species === name);
  const at = course?.at.findLast((each) => settledTime(animals, each) < until);
  return at === undefined
    ? undefined
    : {
        animals: animals.second[at]!,
        isAbout: animals.isAbout[at] === 1,
        at: { block: animals.block[at]!, row: animals.row[at]! },
      };
}

/**
 * Baths after which animals of a species in a tank may not leave yet: the days that are stated of the remedy count from a bath as from a
 * dose. Whoever of the species was bathed, they are not told apart.
 * @param until a time as `settledTime` gives it; what stands at or after it does not count
 */
export function bathReasons(
  ledger: Ledger,
  tank: Tank,
  species: string,
  day: number,
  until: number,
): Reason[] {
  const { health, book } = ledger;
  const name = nameOf(species);
  const told = new Map<Remedy, Reason>();
  for (let at = health.length - 1; at >= 0; at--) {
    if (health.tag[at] !== Kind.bath || health.second[at] !== name || settledTime(health, at) >= until)
      continue;
    const [block, id] = [health.block[at]!, health.row[at]!];
    const row = rowOfId(block, id);
    if (row < 0 || !isOf(book, block.facts, row, tank)) continue;
    const remedy = remedyOf(book, block.facts, row);
    if (remedy === undefined || told.has(remedy)) continue;
    const given = Math.floor(health.time[at]!);
    const free = given + Math.ceil(remedy.withdrawalDays);
    if (!(free > day)) continue;
    const why = (): Why => ({
      what: `last bath of ${species} of ${tank.name} in ${remedy.name}`,
      value: `${spokenDay(given)}, not to leave before ${spokenDay(free)}`,
      formula: `day of the bath + ${formatNumber(remedy.withdrawalDays)} d, as you stated`,
      from: [whyEntry({ block, row: id }), whyStated(remedy.place)],
    });
    told.set(remedy, { is: "withdrawal", until: free, name: remedy.name, amount: Number.NaN, why });
  }
  return [...told.values()];
}

function isOf(book: Book, facts: Facts, row: number, tank: Tank): boolean {
  const target = facts.ints[row * intsPerRow + Col.target]!;
  const stations: readonly Station[] =
    target < 0
      ? (book.groupTanks(~target) ?? [])
      : [book.station(target)].filter((each) => each !== undefined);
  return stations.includes(tank);
}
