import { UNITS } from "../quantity/units.ts";
import { Mark } from "../syntax/pieces.ts";
import { shelfLifeOf } from "./bind-shelf-life.ts";
import type { Binder } from "./binder.ts";
import { type Defined, dateOf, nameplace, one, wordsOf } from "./defined.ts";
import type { FoodKind } from "./definitions/food.ts";
import type { AnimalKind } from "./definitions/species.ts";
import type { Value } from "./reading.ts";
import type { Development, Food, Lot, Order, Species } from "./stations.ts";

/** What lives in the room, what it is fed, and who waits for it. */

const mgPerG = 1000;
const hoursPerDay = 24;

export function speciesOf(binder: Binder, defined: Defined): Species {
  const { definition } = defined;
  const kind = (one(definition, "kind")?.kind?.text ?? "fish") as AnimalKind;
  const base = binder.number(defined, one(definition, "base")?.base, "temperature");
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    kind,
    traits: new Set([kind, definition.name, ...wordsOf(definition, "traits")]),
    diet: one(definition, "diet")?.diet?.text ?? "",
    school: one(definition, "school")?.school?.value ?? Number.NaN,
    adultCm: binder.number(defined, one(definition, "adult")?.adult, "length"),
    weightG: binder.number(defined, one(definition, "weight")?.weight, "mass") / mgPerG,
    needs: definition.properties.flatMap((each) => each.needs ?? []),
    apart: wordsOf(definition, "apart"),
    hatches: developmentOf(binder, defined, "hatches"),
    swims: developmentOf(binder, defined, "swims"),
    baseC: Number.isNaN(base) ? 0 : base,
  };
}

function developmentOf(binder: Binder, defined: Defined, word: string): Development | undefined {
  const { time, temperature } = one(defined.definition, word) ?? {};
  if (time === undefined || temperature === undefined) return undefined;
  const { low, high } = endsOf(binder, defined, time, "duration");
  const temperatureC = binder.number(defined, temperature, "temperature");
  return Number.isNaN(low + temperatureC) ? undefined : { lowDays: low, highDays: high, temperatureC };
}

/** Both ends of a range; of one figure the same twice. */
function endsOf(
  binder: Binder,
  defined: Defined,
  value: Value | undefined,
  dimension: "duration" | "temperature",
): { low: number; high: number } {
  const low = binder.number(defined, value, dimension);
  return { low, high: value?.mark === Mark.range ? binder.upper(value, dimension) : low };
}

export function foodOf(binder: Binder, defined: Defined): Food {
  const { definition } = defined;
  const ready = endsOf(binder, defined, one(definition, "ready")?.ready, "duration");
  const portionG = new Map<string, number>();
  for (const { filled, word } of definition.properties) {
    const { portion, mass } = filled.items[0] ?? {};
    if (word !== "portion" || portion === undefined || mass === undefined) continue;
    const symbol = UNITS[portion.unit]?.symbol;
    const grams = binder.number(defined, mass, "mass") / mgPerG;
    if (symbol !== undefined && portion.value > 0) portionG.set(symbol, grams / portion.value);
  }
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    kind: one(definition, "kind")?.kind?.text as FoodKind | undefined,
    ...shelfLifeOf(binder, defined),
    proteinFraction: binder.number(defined, one(definition, "protein")?.protein, "fraction"),
    portionG,
    readyFromDays: ready.low,
    readyUntilDays: ready.high,
    price: one(definition, "price")?.price?.value ?? Number.NaN,
  };
}

export function lotOf(defined: Defined): Lot {
  const { definition } = defined;
  const text = (word: string): string => one(definition, word)?.[word]?.text ?? "";
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    species: text("species"),
    line: text("line"),
    generation: text("generation"),
    father: text("father"),
    mother: text("mother"),
    born: dateOf(one(definition, "born")?.born),
    sex: (text("sex") || undefined) as Lot["sex"],
    supplier: text("from"),
  };
}

export function orderOf(binder: Binder, defined: Defined): Order {
  const { block, definition } = defined;
  const text = (word: string): string => one(definition, word)?.[word]?.text ?? "";
  const hours = endsOf(binder, defined, one(definition, "hours")?.hours, "duration");
  const warm = endsOf(binder, defined, one(definition, "temperature")?.temperature, "temperature");
  return {
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    wants: definition.properties
      .filter(({ word }) => word === "wants")
      .flatMap(({ filled }) => filled.items)
      .flatMap(({ species, animals }) =>
        species === undefined || animals === undefined
          ? []
          : [
              {
                species: species.text,
                animals: animals.value,
                place: { block, start: species.start, end: animals.end },
              },
            ],
      ),
    buyer: text("buyer"),
    placed: dateOf(one(definition, "placed")?.placed),
    due: dateOf(one(definition, "due")?.due),
    carrier: text("carrier"),
    route: text("route"),
    lowHours: hours.low * hoursPerDay,
    highHours: hours.high * hoursPerDay,
    lowC: warm.low,
    highC: warm.high,
  };
}
