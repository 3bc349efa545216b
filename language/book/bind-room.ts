import type { Binder } from "./binder.ts";
import { type Defined, dateOf, one, property } from "./defined.ts";
import { parameterOf } from "./parameters.ts";

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
