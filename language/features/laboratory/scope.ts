import type { Book } from "../../book/book.ts";
import type { Station, Tank } from "../../book/stations.ts";
import type { CheckedLogbook } from "../../checks/check.ts";
import { type CaseStory, caseNamed, tanksOf } from "../../room/case-book.ts";
import type { Ledger } from "../../room/ledger.ts";
import type { Logbook } from "../../room/logbook.ts";

/** What all parts of a sheet are made from: the case, the day, and the tanks it is about. */
export interface SheetScope {
  readonly checked: CheckedLogbook;
  readonly logbook: Logbook;
  readonly book: Book;
  readonly story: CaseStory;
  /** All that is told was known by its end. */
  readonly day: number;
  /** Where animals showed signs, in order. */
  readonly sickTanks: readonly Tank[];
  /** Those, then where sick animals were moved, then other tanks of which an entry names the case. */
  readonly tanks: readonly Tank[];
}

/**
 * The latest episode of a case; undefined for a case that is not known by the day. One that is closed is told as of the day it was closed:
 * what came after is not of it.
 */
export function sheetScope(checked: CheckedLogbook, name: string, today: number): SheetScope | undefined {
  const { logbook, book } = checked;
  const story = name === "" ? undefined : caseNamed(logbook, name, today);
  if (story === undefined) return undefined;
  const sickTanks = [...new Set(story.stations.flatMap((station) => tanksOf(book, station)))];
  const movedTo = story.homes.map(({ tank }) => tank);
  const others = story.entries.flatMap(({ stations }) => stations.filter(isTank));
  return {
    checked,
    logbook,
    book,
    story,
    day: Number.isNaN(story.closed) ? today : Math.min(today, story.closed),
    sickTanks,
    tanks: [...new Set([...sickTanks, ...movedTo, ...others])],
  };
}

const isTank = (station: Station): station is Tank => station.kind === "tank";

/** A body of water with the tanks of the sheet that are in it. */
export interface SheetWater {
  readonly ledger: Ledger;
  readonly tanks: readonly Tank[];
  readonly isSick: boolean;
}

/** The waters of the tanks, each once. */
export function watersOf({ logbook, tanks, sickTanks }: SheetScope): SheetWater[] {
  const ledgers = [...new Set(tanks.map((tank) => logbook.ledgerOf(tank)))];
  return ledgers.map((ledger) => {
    const own = tanks.filter((tank) => logbook.ledgerOf(tank) === ledger);
    return { ledger, tanks: own, isSick: own.some((tank) => sickTanks.includes(tank)) };
  });
}

/** `q1`, or `rack-water (r1, r2)`. */
export function waterName({ ledger, tanks }: SheetWater): string {
  const names = tanks.map(({ name }) => name).join(", ");
  const system = ledger.body?.system?.name;
  return system === undefined ? names : `${system} (${names})`;
}
