import { spokenDay } from "../../book/dates.ts";
import { Kind, kindOf } from "../../book/entries/registry.ts";
import { nameOf, wordOf } from "../../book/interner.ts";
import { parameters } from "../../book/parameters.ts";
import type { Duty, Station, Tank } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import type { Holding } from "../../room/stock.ts";
import { type DueEntry, linesThatDid, wordsOfAct } from "../due-entries.ts";
import { byUse } from "../recent.ts";
import { lastReading } from "../round-sheet.ts";
import { holdingsOf } from "../unseen.ts";
import type { View } from "../view.ts";
import type { BoardBlank, BoardTask, BoardWay } from "./board-card.ts";

/** How something is written when it is done: as it was the last times, else as its duty says; what is measured or seen is left blank. */

/** So many ways are offered. */
const mostWays = 5;

export const plainWay = (words: string): BoardWay => ({ words, blanks: [], end: "" });

/** What answers a notice: nothing is owed by a duty, and the notice says why. */
export const noticeTask = (
  task: Pick<BoardTask, "key" | "target" | "kind" | "place"> & {
    readonly way: BoardWay;
    readonly caution?: string;
  },
): BoardTask => {
  const { key, target, kind, place, way, caution = "" } = task;
  return { key, target, kind, ways: [way], late: 0, when: "", last: "", why: "", litres: "", caution, place };
};

/** What a line begins with, and the ways to go on. */
export interface Ways {
  readonly target: string;
  readonly ways: readonly BoardWay[];
}

/** A duty that one line does: of it the usual ways come first. Not for tests and counts. */
export function waysOf(view: View, station: Station, duty: Duty, day: number): Ways {
  const { words, blanks } = wordsOfAct(duty);
  const act = kindOf(duty.kind).word;
  if (blanks.length > 0) {
    const label = words === act ? act : words.slice(act.length + 1);
    return {
      target: station.name,
      ways: [{ words, blanks: [{ before: " ", label, last: "" }], end: "" }],
    };
  }
  const lines = linesThatDid(view, duty, day);
  // A line of a group or of another place is as well one of this place.
  const [place] = byUse(lines.map(({ target }) => (isOf(view, target, station) ? target : station.name)));
  const usual = byUse(lines.map((line) => `${line.kind} ${line.arguments}`.trim()));
  const texts = usual.length === 0 ? [words] : usual.slice(0, mostWays);
  return { target: place ?? station.name, ways: texts.map(plainWay) };
}

/** Whether what is written of a target is of a station: of itself, or of the gear that serves it. */
function isOf({ checked }: View, target: string, station: Station): boolean {
  if (target === station.name) return true;
  const { on } = checked.book.gears.find(({ id }) => id === station.id) ?? { on: "" };
  return station.kind === "gear" && target === on;
}

/** `test nitrate _, pH _`, with what was read last. */
export function testWay(view: View, station: Station, names: readonly string[], day: number): BoardWay {
  const { checked } = view;
  const { units } = checked.book;
  const blanks = names.map((name, at): BoardBlank => {
    const parameter = parameters.find((each) => each.name === name);
    const last = parameter === undefined ? undefined : lastReading(checked, station, parameter, day);
    const unit = parameter === undefined || parameter.dimension === "pH" ? "" : units.shown(parameter).symbol;
    return {
      before: `${at === 0 ? " " : ", "}${name} `,
      label: unit === "" ? name : `${name}, ${unit}`,
      last: last === undefined ? "" : `${last.text} on ${spokenDay(Math.floor(last.time), day)}`,
    };
  });
  return { words: "test", blanks, end: "" };
}

/** `count horn _, praecox _`, with what the book has. */
export function countWay(holdings: readonly Holding[]): BoardWay {
  const blanks = holdings.map(({ species, animals, isAbout }, at): BoardBlank => {
    const name = wordOf(species);
    const book = Number.isFinite(animals)
      ? `${isAbout ? "~" : ""}${formatNumber(animals, 6)} by the book`
      : "";
    return { before: `${at === 0 ? " " : ", "}${name} `, label: name, last: book };
  });
  return { words: "count", blanks, end: "" };
}

/** The holdings that a duty to count is about: all of the tank where it names no species. */
export function holdingsToCount(view: View, tank: Tank, duties: readonly Duty[]): Holding[] {
  const own = holdingsOf(view.checked, tank);
  const isAll = duties.some(({ subjects }) => subjects === undefined);
  const named = new Set(duties.flatMap(({ subjects }) => [...(subjects ?? [])]));
  const missing = [...named].filter((name) => !own.some(({ species }) => species === name));
  return [
    ...own.filter(({ species }) => isAll || named.has(species)),
    ...missing.map((species) => holdingOfNone(tank, species)),
  ];
}

const holdingOfNone = (tank: Tank, species: number): Holding => ({
  index: -1,
  tank: tank.id,
  species,
  animals: Number.NaN,
  isAbout: false,
  lastCount: Number.NaN,
  lastCountTime: Number.NaN,
});

/** An entry that a course owes. Its blanks are tests of parameters, or the amount of a dose in a unit. */
export function courseWay(view: View, station: Station | undefined, entry: DueEntry, day: number): BoardWay {
  const { words, blanks, end, kind } = entry;
  if (kind === Kind.test && station !== undefined)
    return testWay(
      view,
      station,
      blanks.map((blank) => blank.replace(/^,/, "").trim()),
      day,
    );
  return {
    words,
    blanks: blanks.map((before) => ({ before, label: `${words}${end}`.trim(), last: "" })),
    end,
  };
}

/** The station that a target names; undefined for a group. */
export const stationNamed = ({ checked }: View, target: string): Station | undefined =>
  target.startsWith("@") ? undefined : checked.book.station(nameOf(target));
