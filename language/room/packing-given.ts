import { entryOf } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import { parameterOf } from "../book/parameters.ts";
import type { Order, Species, Tank } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { PackedWater, Weight } from "./packing.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** What is known for packing: the water of a tank, how long and warm a journey is, what an animal weighs. */

/** Readings older than this do not say what the water is. A choice of this tool. */
const readingDays = 60;

/** The water of a tank by its latest tests before a time; undefined where pH and KH were not read of late. */
export function waterToPack(ledger: Ledger, until: number): PackedWater | undefined {
  const from: Why[] = [];
  const latest = (name: string): number => {
    const series = ledger.readings[parameterOf(name).id];
    const at = series === undefined ? -1 : series.from(until) - 1;
    if (series === undefined || at < 0 || series.time[at]! < until - readingDays) return Number.NaN;
    from.push({
      ...whyEntry({ block: series.block[at]!, row: series.row[at]! }),
      value: `${name} of the water`,
    });
    // Of a censored reading the end that is worse for the animals is taken: ammonia at what the test can tell.
    const [low, high] = [series.first[at]!, series.second[at]!];
    return Number.isFinite(high) ? (name === "ammonia" ? high : (low + high) / 2) : low;
  };
  const pH = latest("pH");
  // Canonical, and so in meq/L.
  const alkalinityMeqL = latest("KH");
  if (Number.isNaN(pH + alkalinityMeqL)) return undefined;
  const total = latest("ammonia");
  return {
    pH,
    alkalinityMeqL,
    totalMgLN: Number.isNaN(total) ? 0 : total,
    temperatureC: latest("temperature"),
    from,
  };
}

/** What says how warm and how long a journey is. */
export interface Journey {
  readonly hours: number;
  readonly temperatureC: number;
  /** What was not stated and is assumed, in words. */
  readonly assumed: readonly string[];
}

/** The longest and warmest of an order; where it does not say, what is given, and else what the published loads are for. */
export function journeyOf(
  order: Order | undefined,
  given: { readonly hours: number; readonly temperatureC: number },
  tankC: number,
): Journey {
  const assumed: string[] = [];
  const pick = (what: string, unit: string, ...figures: readonly [number, string][]): number => {
    for (const [figure, from] of figures)
      if (!Number.isNaN(figure)) {
        if (from !== "") assumed.push(`${what} ${Number(figure.toPrecision(3))} ${unit}: ${from}`);
        return figure;
      }
    return Number.NaN;
  };
  const hours = pick(
    "journey",
    "h",
    [given.hours, ""],
    [order?.highHours ?? Number.NaN, ""],
    [24, "the order does not say, so that of the published loads"],
  );
  const temperatureC = pick(
    "warmest",
    "C",
    [given.temperatureC, ""],
    [order?.highC ?? Number.NaN, ""],
    [tankC, "the order does not say, so that of the tank"],
    [25, "neither order nor tank says, so that of the published loads"],
  );
  return { hours, temperatureC, assumed };
}

/** Weights measured longer ago do not say what an animal weighs. A choice of this tool. */
const weighedDays = 365;
const mgPerG = 1000;

/** What one animal weighs: as it was last measured in its tank, else in another, else an adult as it is stated. */
export function weightOf(
  logbook: Logbook,
  name: string,
  tank: Tank | undefined,
  day: number,
): Weight | undefined {
  const { book } = logbook;
  const here = tank === undefined ? [] : [tank];
  for (const each of [...here, ...book.tanks.filter((other) => other !== tank)]) {
    const weighed = measuredWeight(logbook.ledgerOf(each), each, name, day);
    if (weighed !== undefined) return weighed;
  }
  return statedWeight(book.species.get(name), name);
}

function measuredWeight(ledger: Ledger, tank: Tank, name: string, day: number): Weight | undefined {
  const { conditions, stock, book } = ledger;
  const holding = stock.known(tank.id, nameOf(name));
  if (holding === undefined) return undefined;
  for (let at = conditions.from(day + 1) - 1; at >= 0 && conditions.time[at]! > day - weighedDays; at--) {
    if (conditions.tag[at] !== holding.index) continue;
    const entry = { block: conditions.block[at]!, row: conditions.row[at]! };
    const weight = entryOf(entry.block, entry.row)?.item.weight;
    const grams =
      weight === undefined ? Number.NaN : book.units.canonical(weight.value, weight.unit, "mass") / mgPerG;
    if (!(grams > 0)) continue;
    const value = `${formatNumber(grams, 3)} g, measured in ${tank.name}`;
    return { grams, why: { ...whyEntry(entry), value } };
  }
  return undefined;
}

/** The adult weight as it is stated of a species. */
function statedWeight(species: Species | undefined, name: string): Weight | undefined {
  if (species === undefined || Number.isNaN(species.weightG)) return undefined;
  return {
    grams: species.weightG,
    why: {
      what: `weight of one ${name}`,
      value: `${Number(species.weightG.toPrecision(3))} g, an adult's, as stated`,
      from: [whyStated(species.place)],
    },
  };
}
