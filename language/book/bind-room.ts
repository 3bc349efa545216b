import { noUnit } from "../quantity/unit-codes.ts";
import { UNITS } from "../quantity/units.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, one, property } from "./defined.ts";

/** What one keeper can do in a day; NaN where it is not stated. */
export interface Capacity {
  readonly tanks: number;
  readonly litres: number;
  readonly minutes: number;
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

/** Which day is today: `last-entry`, a day, or NaN for the day of the world outside. */
export function asOfOf(room: Defined | undefined): "last-entry" | number {
  const item = one(room?.definition, "as-of");
  return item?.word === undefined ? dateOf(item?.date) : "last-entry";
}
