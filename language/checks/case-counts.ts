import { spokenDay } from "../book/dates.ts";
import { entryOf } from "../book/entry.ts";
import { wordOf } from "../book/interner.ts";
import { formatNumber } from "../quantity/format.ts";
import { isAboutAsMany } from "../room/about.ts";
import { type CaseStory, tanksOf } from "../room/case-book.ts";
import { ratesOf } from "../room/case-rates.ts";
import type { CaseEntry, SickEntry } from "../room/cases.ts";
import { animalsBefore, courses, entriesBefore, isAboutBefore } from "../room/course.ts";
import type { Logbook } from "../room/logbook.ts";
import { whyEntry } from "../room/why.ts";
import type { RowFinding } from "./observe.ts";

/** Counts of the sick against each other and against the book. */

const finding = (
  { block, row }: CaseEntry,
  slot: string,
): Pick<RowFinding, "code" | "block" | "row" | "slots" | "severity"> => ({
  code: "case/more-than-at-risk",
  block,
  row,
  slots: [slot],
  severity: () => "warning",
});

/** Figures of one entry that cannot be, by themselves or by the book. */
export function moreFinding(logbook: Logbook, entry: SickEntry): RowFinding | undefined {
  const { affected, atRisk, species, day } = entry;
  const count = (animals: number): string => formatNumber(animals, 6);
  if (affected > atRisk)
    return {
      ...finding(entry, "affected"),
      message: () => `${count(affected)} show signs of ${count(atRisk)} at risk`,
    };
  const fresh = entryOf(entry.block, entry.row)?.item.new?.value ?? Number.NaN;
  if (fresh > affected)
    return {
      ...finding(entry, "new"),
      message: () => `${count(fresh)} are new of ${count(affected)} that show signs`,
    };
  const [station, ...others] = entry.stations;
  if (others.length > 0 || station === undefined || entry.isAbout || entry.lot !== "") return undefined;
  const book = bookOn(logbook, station, species, day);
  if (book === undefined || !(atRisk > book.most) || (book.isAbout && isAboutAsMany(atRisk, book.most)))
    return undefined;
  return {
    ...finding(entry, "at risk"),
    message: () =>
      `${count(atRisk)} are at risk, and by the book there are ${book.isAbout ? "~" : ""}${count(book.most)} ${species}`,
    why: () => ({
      what: `${species} in ${station.name} on ${spokenDay(day)}`,
      value: count(book.most),
      formula: "by the book at the end of the day, with those that left on it",
      from: book.from.map(whyEntry),
    }),
  };
}

/** The most that there were on a day by the book of the tanks of a station: at its beginning, after each entry, at its end. */
function bookOn(
  logbook: Logbook,
  station: SickEntry["stations"][number],
  species: string,
  day: number,
): { most: number; isAbout: boolean; from: { block: CaseEntry["block"]; row: number }[] } | undefined {
  const tanks = tanksOf(logbook.book, station);
  let [most, isAbout] = [0, false];
  const from: { block: CaseEntry["block"]; row: number }[] = [];
  for (const tank of tanks) {
    const ledger = logbook.ledgerOf(tank);
    const course = courses(ledger).find(
      ({ holding }) => holding.tank === tank.id && wordOf(holding.species) === species,
    );
    if (course === undefined) return undefined;
    const { series, at } = course;
    const end = entriesBefore(course, day + 1);
    const of = at.slice(entriesBefore(course, day), end);
    const figures = [animalsBefore(course, day), ...of.map((index) => series.second[index]!)].filter(
      (animals) => !Number.isNaN(animals),
    );
    if (figures.length === 0) return undefined;
    most += Math.max(...figures);
    isAbout ||= isAboutBefore(ledger, course, day + 1);
    const last = at[end - 1];
    if (last !== undefined) from.push({ block: series.block[last]!, row: series.row[last]! });
  }
  return tanks.length === 0 ? undefined : { most, isAbout, from };
}

/** More were ever affected than are at risk, where no single entry says so. */
export function everFinding(
  logbook: Logbook,
  story: CaseStory,
): (CaseEntry & { readonly finding: RowFinding }) | undefined {
  const { latest, name } = story;
  if (latest === undefined) return undefined;
  const { count } = ratesOf(logbook, story, Number.POSITIVE_INFINITY);
  if (!(count.ever > count.atRisk)) return undefined;
  const figure = (animals: number): string => formatNumber(animals, 6);
  return {
    ...latest,
    finding: {
      ...finding(latest, "affected"),
      message: () =>
        `with this ${figure(count.ever)} were affected by ${name} of ${figure(count.atRisk)} at risk`,
      why: () => ({
        what: `affected ever by ${name}`,
        value: `${figure(count.ever)} of ${figure(count.atRisk)}`,
        from: count.from.map(whyEntry),
      }),
    },
  };
}
