import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, one, property } from "./defined.ts";
import { parameterOf } from "./parameters.ts";

/** What one keeper can do in a day; NaN where it is not stated. */
export interface Capacity {
  readonly tanks: number;
  readonly litres: number;
  readonly minutes: number;
}

/** How fast water runs at a change, L/h; NaN where it is not stated. */
export interface Flow {
  readonly drain: number;
  readonly fill: number;
}

export function flowOf(binder: Binder, room: Defined | undefined): Flow {
  const flow = { drain: Number.NaN, fill: Number.NaN };
  if (room === undefined) return flow;
  for (const { way, rate } of property(room.definition, "flow")?.filled.items ?? []) {
    const litresPerHour = binder.number(room, rate, "flow");
    // A flow of nothing never ends.
    if (!(litresPerHour > 0)) continue;
    if (way?.text === "drain") flow.drain = litresPerHour;
    if (way?.text === "fill") flow.fill = litresPerHour;
  }
  return flow;
}

const minutesPerDay = 1440;

export function capacityOf(binder: Binder, room: Defined | undefined): Capacity {
  const capacity = { tanks: Number.NaN, litres: Number.NaN, minutes: Number.NaN };
  if (room === undefined) return capacity;
  for (const { amount } of property(room.definition, "capacity")?.filled.items ?? []) {
    if (amount === undefined) continue;
    // Of the ambiguous units only those of volume can stand here.
    const dimension = amount.unit === noUnit ? "count" : (UNITS[amount.unit]?.dimension ?? "volume");
    if (dimension === "count") capacity.tanks = amount.value;
    if (dimension === "volume") capacity.litres = binder.number(room, amount, "volume");
    if (dimension === "duration") capacity.minutes = binder.number(room, amount, "duration") * minutesPerDay;
  }
  return capacity;
}

/** Days on which nobody works in the room, from the first to the last. */
export interface Absence {
  readonly from: number;
  readonly until: number;
  readonly why: string;
}

/** The absences that are stated, by their first day; one that ends before it begins is reported and left out. */
export function absencesOf(binder: Binder, room: Defined | undefined): Absence[] {
  const absences: Absence[] = [];
  for (const { word, filled } of room?.definition.properties ?? []) {
    const item = word === "away" ? filled.items[0] : undefined;
    const from = dateOf(item?.from);
    if (room === undefined || item === undefined || Number.isNaN(from)) continue;
    const until = item.until === undefined ? from : dateOf(item.until);
    if (until < from) {
      const message = "this absence ends before it begins";
      binder.report(room.block, "definition/away", item.until!, message);
    } else if (!Number.isNaN(until)) absences.push({ from, until, why: item.why?.text ?? "" });
  }
  return absences.sort((a, b) => a.from - b.from || a.until - b.until);
}

/** The step of each test that is stated, canonical, by the number of the parameter. */
export function stepsOf(binder: Binder, room: Defined | undefined): ReadonlyMap<number, number> {
  const steps = new Map<number, number>();
  for (const property of room?.definition.properties ?? []) {
    if (room === undefined || property.word !== "steps") continue;
    for (const { parameter, reading } of property.filled.items) {
      if (parameter === undefined || reading === undefined) continue;
      const known = parameterOf(parameter.text);
      // A step is a difference: of a temperature the zero of its scale falls out.
      const { first } = binder.reading(room, known, reading);
      const nought = binder.units.reading(known, 0, reading.unit);
      if (first - nought > 0) steps.set(known.id, first - nought);
    }
  }
  return steps;
}

/** Which day is today: `last-entry`, a day, or NaN for the day of the world outside. */
export function asOfOf(room: Defined | undefined): "last-entry" | number {
  const item = one(room?.definition, "as-of");
  return item?.word === undefined ? dateOf(item?.date) : "last-entry";
}
