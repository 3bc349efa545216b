import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Binder } from "./binder.ts";
import { spokenDay } from "./dates.ts";
import { type Defined, dateOf } from "./defined.ts";
import type { Property } from "./definition.ts";
import { kindNumber } from "./entries/registry.ts";
import type { Value } from "./reading.ts";
import type { Place } from "./stations.ts";

/** What the room states of its keeper's days: what one holds, and on which nobody works. */

/** What one keeper can do in a day; NaN where it is not stated. */
export interface Capacity {
  readonly tanks: number;
  readonly litres: number;
  readonly minutes: number;
}

/** By the number of the weekday, 1 for Monday: what is stated of that day alone. */
export type WeekdayCapacities = ReadonlyMap<number, Partial<Capacity>>;

/** Days on which nobody works in the room, from the first to the last. */
export interface Absence {
  readonly from: number;
  readonly until: number;
  readonly why: string;
  /** Kinds of entries that are done all the same, by someone else. */
  readonly covered: readonly number[];
  readonly place: Place;
}

/** A weekday on which nobody works, and the kinds of entries that are done all the same. */
export type DaysOff = ReadonlyMap<number, readonly number[]>;

const minutesPerDay = 1440;

const propertiesOf = (room: Defined | undefined, wanted: string): readonly Property[] =>
  room?.definition.properties.filter(({ word }) => word === wanted) ?? [];

/** What each day holds, and what some weekdays hold instead. What stands later replaces what is above it. */
export function capacitiesOf(
  binder: Binder,
  room: Defined | undefined,
): { readonly capacity: Capacity; readonly weekdays: WeekdayCapacities } {
  const capacity = { tanks: Number.NaN, litres: Number.NaN, minutes: Number.NaN };
  const weekdays = new Map<number, Partial<Capacity>>();
  if (room === undefined) return { capacity, weekdays };
  for (const { start, end, filled } of propertiesOf(room, "capacity")) {
    const stated: { -readonly [each in keyof Capacity]?: number } = {};
    const days: number[] = [];
    let isPastDays = false;
    for (const { amount, on, weekday } of filled.items) {
      if (amount !== undefined) {
        const key = amountKey(amount);
        if (isPastDays || (key !== undefined && stated[key] !== undefined)) {
          const message = isPastDays
            ? "weekdays stand at the end, and what stands before them is all for them; other days have a line of their own"
            : `this line says ${key} twice; other days have a line of their own`;
          binder.report(room.block, "definition/capacity", amount, message);
        } else if (key !== undefined) stated[key] = amountOf(binder, room, amount, key);
      }
      const day = on ?? weekday;
      if (day === undefined) continue;
      days.push(day.code);
      isPastDays = true;
    }
    if (Object.keys(stated).length === 0) {
      const place = { start, end: Math.min(end, start + "capacity".length) };
      binder.report(room.block, "entry/missing", place, "capacity needs an amount: capacity 7 tanks, 400 L");
    }
    if (days.length === 0) Object.assign(capacity, stated);
    for (const day of days) weekdays.set(day, { ...weekdays.get(day), ...stated });
  }
  return { capacity, weekdays };
}

/** Of the ambiguous units only those of volume can stand here. */
function amountKey({ unit }: Value): keyof Capacity | undefined {
  const dimension = unit === noUnit ? "count" : (UNITS[unit]?.dimension ?? "volume");
  return dimension === "count"
    ? "tanks"
    : dimension === "volume"
      ? "litres"
      : dimension === "duration"
        ? "minutes"
        : undefined;
}

function amountOf(binder: Binder, room: Defined, amount: Value, key: keyof Capacity): number {
  if (key === "tanks") return amount.value;
  return key === "litres"
    ? binder.number(room, amount, "volume")
    : Math.round(binder.number(room, amount, "duration") * minutesPerDay * 1000) / 1000;
}

/** The absences that are stated, by their first day; one that ends before it begins is reported and left out. */
export function absencesOf(binder: Binder, room: Defined | undefined): Absence[] {
  if (room === undefined) return [];
  const absences: Absence[] = [];
  for (const property of propertiesOf(room, "away")) {
    const item = property.filled.items[0] ?? {};
    const head = { start: property.start, end: property.start + "away".length };
    const report = (place: Place | Value | typeof head, message: string): void =>
      binder.report(room.block, "definition/away", place, message);
    if (item.day !== undefined && item.from !== undefined)
      report(item.day, "which of the two is the first day? away from 2026-04-03 until 2026-04-10");
    const first = item.from ?? item.day;
    if (first === undefined) {
      const message = "away needs a day: away from 2026-04-03 until 2026-04-10, away 2026-12-25";
      binder.report(room.block, "entry/missing", head, message);
      continue;
    }
    const from = dateOf(first);
    const until = item.until === undefined ? from : dateOf(item.until);
    if (until < from) report(item.until!, "this absence ends before it begins");
    if (!(until >= from)) continue;
    const place = { block: room.block, start: property.start, end: property.end };
    absences.push({ from, until, why: item.why?.text ?? "", covered: coveredOf(property), place });
  }
  absences.sort((a, b) => a.from - b.from || a.until - b.until);
  for (const [at, later] of absences.entries()) {
    const before = absences.slice(0, at).find(({ until }) => until >= later.from);
    if (before === undefined) continue;
    const upTo = spokenDay(Math.min(before.until, later.until), later.from);
    binder.report(
      room.block,
      "definition/away-twice",
      later.place,
      `from ${spokenDay(later.from)} until ${upTo} another absence is stated already`,
      [],
      [{ place: before.place, message: "the other" }],
    );
  }
  return absences;
}

/** The weekdays off; where all seven are, none is. */
export function daysOffOf(binder: Binder, room: Defined | undefined): DaysOff {
  const off = new Map<number, readonly number[]>();
  if (room === undefined) return off;
  for (const property of propertiesOf(room, "off")) {
    const days = property.filled.items.flatMap(({ weekday }) => weekday?.code ?? []);
    if (days.length === 0) {
      const place = { start: property.start, end: property.start + "off".length };
      binder.report(room.block, "entry/missing", place, "off needs a weekday: off sunday");
    }
    for (const day of days) off.set(day, [...(off.get(day) ?? []), ...coveredOf(property)]);
    if (off.size < 7) continue;
    const message =
      "with this every day of the week is off: nothing would ever be due. No weekday counts as off";
    binder.report(room.block, "definition/off", property, message);
    return new Map();
  }
  return off;
}

const coveredOf = ({ filled }: Property): number[] => [
  ...new Set(
    filled.items.flatMap(({ covered, kind }) =>
      [covered, kind].flatMap((each) => (each === undefined ? [] : (kindNumber(each.text) ?? []))),
    ),
  ),
];
