import type { Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { ammoniaFromFeedGN } from "../science/feeding.ts";
import { biomass } from "./biomass.ts";
import { mealsOf } from "./feeding.ts";
import { foodAmount } from "./food-amount.ts";
import type { Logbook } from "./logbook.ts";
import { type Why, whyEntry } from "./why.ts";

/** How much a tank was fed a day, by weight, beside what lives in it. */

export interface Ration {
  readonly tank: Tank;
  readonly days: number;
  /** Grams a day of what has a weight; NaN where nothing has. */
  readonly gramsADay: number;
  /** Why some of it has no weight, each reason once; empty where all has. */
  readonly unknown: readonly string[];
  /** Of the animals; NaN where one of the species was neither weighed nor states a weight. */
  readonly biomassG: number;
  /** Species of which nobody knows what they weigh. */
  readonly unweighed: readonly string[];
  /** Grams a day over the biomass; NaN where one of them is not known. */
  readonly share: number;
  /** Nitrogen of the ammonia that becomes of it, a day, of the food that states its protein; NaN where none does. */
  readonly ammoniaGN: number;
  readonly why: () => Why;
}

/** Over the days up to the end of a day. */
export function rationOn(logbook: Logbook, tank: Tank, day: number, days: number): Ration {
  const { book } = logbook;
  const meals = mealsOf(logbook, tank, day - days + 1, day);
  const unknown = new Set<string>();
  let grams = 0;
  let weighed = 0;
  let nitrogen = 0;
  let withProtein = 0;
  for (const { food: name, facts, row } of meals) {
    const food = book.foods.get(name);
    const amount = foodAmount(food, name, book.units, facts, row);
    if (Number.isNaN(amount.grams)) {
      unknown.add(amount.symbol === "" ? `${name}: ${amount.unknown}` : amount.unknown);
      continue;
    }
    weighed++;
    grams += amount.grams;
    const protein = food?.proteinFraction ?? Number.NaN;
    if (Number.isNaN(protein)) continue;
    withProtein++;
    nitrogen += ammoniaFromFeedGN(amount.grams, protein);
  }
  const mass = biomass(logbook.ledgerOf(tank), tank, day + 1);
  const biomassG = mass.masses.length === 0 || mass.unknown.length > 0 ? Number.NaN : mass.grams;
  const gramsADay = weighed === 0 ? Number.NaN : grams / days;
  const share = gramsADay / biomassG;
  return {
    tank,
    days,
    gramsADay,
    unknown: [...unknown],
    biomassG,
    unweighed: mass.unknown,
    share,
    ammoniaGN: withProtein === 0 ? Number.NaN : nitrogen / days,
    why: () => ({
      what: `ration of ${tank.name}`,
      value: Number.isNaN(share)
        ? `${formatNumber(gramsADay)} g a day`
        : `${formatNumber(share * 100)} % of ${formatNumber(biomassG)} g a day`,
      formula: `grams fed in ${days} days / days / weight of the animals`,
      from: [
        ...meals.map(whyEntry),
        ...(Number.isNaN(biomassG) ? [] : [mass.why]),
        ...(withProtein === 0
          ? []
          : [
              {
                what: "ammonia from the food a day",
                value: `${formatNumber((nitrogen / days) * 1000)} mg N`,
                formula: "food × protein × 0.092",
                source:
                  "M. B. Timmons & J. M. Ebeling, Recirculating Aquaculture; recalled. A planning figure for dry food, weighed as it is",
                from: [],
              },
            ]),
      ],
    }),
  };
}
