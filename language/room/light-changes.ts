import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import {
  Col,
  choiceOfRow,
  type Facts,
  floatsPerRow,
  intsPerRow,
  kindOfRow,
  Num,
  unitOfAmount,
  unitOfSecond,
} from "../book/facts.ts";
import { nameOf } from "../book/interner.ts";
import type { Gear, Station, Tank } from "../book/stations.ts";
import type { Dimension } from "../quantity/dimension.ts";
import { UNITS } from "../quantity/units.ts";
import { amountOf } from "./amounts.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";
import { means, stationsOf, subjectOf } from "./taken-out.ts";

/** The light over a tank: how it was set, and when it became another. */

export interface LightSetting {
  readonly row: LogRow;
  /** A day; NaN where no entry said so far. */
  readonly hours: number;
  /** Canonical, with what it is measured in; NaN and undefined where no entry said so far. */
  readonly intensity: number;
  readonly of: Dimension | undefined;
}

/** The light became another: by its hours or its intensity, or as a lamp was replaced. */
export interface LightChange {
  readonly row: LogRow;
  readonly isLamp: boolean;
  /** As it was and as it is from then on; the same twice for a lamp, undefined where nothing says how it was. */
  readonly before: LightSetting | undefined;
  readonly after: LightSetting | undefined;
}

/** `replaced`, by its number among the choices of a service. */
const replacedChoice = 2;

const findLight = rowFinder((facts, row) => {
  const kind = kindOfRow(facts, row);
  return kind === Kind.light || (kind === Kind.service && choiceOfRow(facts, row) === replacedChoice);
});

/** The tanks that a row is about: those of a group, of a system, of the room, and the ones that a gear serves. */
export function tanksMeant(logbook: Logbook, row: LogRow): readonly Tank[] {
  return [...new Set(stationsOf(logbook, row).flatMap((station) => tanksOf(logbook, station)))];
}

const targets = new WeakMap<Book, Map<Tank, ReadonlySet<number>>>();

/** The targets that mean a tank, as `Col.target` has them: its own name, those of its system, groups and gear, and the room. */
export function targetsOf(logbook: Logbook, tank: Tank): ReadonlySet<number> {
  const { book } = logbook;
  let known = targets.get(book);
  if (known === undefined) {
    known = new Map();
    targets.set(book, known);
  }
  let found = known.get(tank);
  if (found === undefined) {
    const stations = book.stations.filter((station) => tanksOf(logbook, station).includes(tank));
    const groups = [...book.groups].filter(([, group]) => group.tanks.includes(tank));
    found = new Set([...stations.map(({ name }) => nameOf(name)), ...groups.map(([name]) => ~nameOf(name))]);
    known.set(tank, found);
  }
  return found;
}

export const targetOf = ({ facts, row }: LogRow): number => facts.ints[row * intsPerRow + Col.target]!;

function tanksOf({ book }: Logbook, station: Station): readonly Tank[] {
  switch (station.kind) {
    case "tank":
      return [station as Tank];
    case "room":
      return book.tanks;
    case "system":
      return book.bodies[station.body]?.tanks ?? [];
    case "gear":
      return book.stations
        .filter(({ name, kind }) => name === (station as Gear).on && (kind === "tank" || kind === "system"))
        .flatMap((served) =>
          served.kind === "tank" ? [served as Tank] : (book.bodies[served.body]?.tanks ?? []),
        );
  }
}

/** Every setting of the light over a tank up to the end of a day, in order; of a day the last. What an entry does not say stays as it was. */
export function lightSettings(logbook: Logbook, tank: Tank, until: number): LightSetting[] {
  const settings: LightSetting[] = [];
  const meant = targetsOf(logbook, tank);
  for (const row of findLight(logbook, until, (kind) => kind === Kind.light)) {
    if (!meant.has(targetOf(row))) continue;
    const last = settings.at(-1);
    const said = saidBy(logbook, row);
    if (said === undefined) continue;
    const setting: LightSetting = {
      row,
      hours: Number.isNaN(said.hours) ? (last?.hours ?? Number.NaN) : said.hours,
      ...(said.of === undefined
        ? { intensity: last?.intensity ?? Number.NaN, of: last?.of }
        : { intensity: said.intensity, of: said.of }),
    };
    if (last?.row.day === row.day) settings.pop();
    settings.push(setting);
  }
  return settings;
}

/** What an entry says; undefined where that is nothing. */
function saidBy({ book }: Logbook, { facts, row }: LogRow): Omit<LightSetting, "row"> | undefined {
  const days = book.units.canonical(amountOf(facts, row), unitOfAmount(facts, row), "duration");
  // 7 h are 7 h, not what is left of them by way of days.
  const hours = Math.round(24 * days * 1e9) / 1e9;
  const code = unitOfSecond(facts, row);
  const second = secondOf(facts, row);
  const of = Number.isNaN(second) ? undefined : UNITS[code]?.dimension;
  if (Number.isNaN(hours) && of === undefined) return undefined;
  return { hours, intensity: of === undefined ? Number.NaN : book.units.canonical(second, code, of), of };
}

const secondOf = (facts: Facts, row: number): number => facts.floats[row * floatsPerRow + Num.second]!;

/** When the light over a tank became another, up to the end of a day, in order. The first setting says how it was, and is no change. */
export function lightChanges(logbook: Logbook, tank: Tank, until: number): readonly LightChange[] {
  return keptFor(logbook, `light of ${tank.id} until ${until}`, () => changesOf(logbook, tank, until));
}

function changesOf(logbook: Logbook, tank: Tank, until: number): LightChange[] {
  const meant = targetsOf(logbook, tank);
  const settings = lightSettings(logbook, tank, until);
  const changes: LightChange[] = [];
  settings.forEach((after, at) => {
    const before = settings[at - 1];
    if (before !== undefined && isOther(before, after))
      changes.push({ row: after.row, isLamp: false, before, after });
  });
  for (const row of findLight(logbook, until, (kind) => kind === Kind.service)) {
    if (!meant.has(targetOf(row)) || !isLampReplaced(logbook, row)) continue;
    // A lamp that is set anew when it is replaced is one change.
    if (changes.some((change) => change.row.day === row.day)) continue;
    const now = settings.findLast((setting) => setting.row.day <= row.day);
    changes.push({ row, isLamp: true, before: now, after: now });
  }
  return changes.sort((a, b) => a.row.time - b.row.time);
}

/** Whether a service replaced a lamp: one by its name, one by the word, or that at which it is written. */
export function isLampReplaced(logbook: Logbook, row: LogRow): boolean {
  if (row.kind !== Kind.service || choiceOfRow(row.facts, row.row) !== replacedChoice) return false;
  const { gears } = logbook.book;
  const subject = subjectOf(row);
  if (subject !== "") return subject === "lamp" || means(gears, subject, "light");
  return stationsOf(logbook, row).some(
    (station) => station.kind === "gear" && (station as Gear).sort === "lamp",
  );
}

/** Hours that nobody stated before are no change of them; so it is with the intensity. */
function isOther(before: LightSetting, after: LightSetting): boolean {
  const apart = (a: number, b: number): boolean => Math.abs(a - b) > 1e-9;
  return (
    apart(before.hours, after.hours) ||
    (before.of !== undefined && before.of !== after.of) ||
    apart(before.intensity, after.intensity)
  );
}

/** How much light a day after a change against before, by hours and intensity together: 1.5 for half as much again. NaN where one of them is not known. */
export function lightRatio({ before, after, isLamp: isNewLamp }: LightChange): number {
  if (before === undefined || after === undefined || isNewLamp) return Number.NaN;
  const hours = after.hours / before.hours;
  if (before.of === undefined && after.of === undefined) return hours;
  return before.of === after.of ? hours * (after.intensity / before.intensity) : Number.NaN;
}
