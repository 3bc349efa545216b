import { entryOf } from "../book/entry.ts";
import type { Tank } from "../book/stations.ts";
import { Mark } from "../syntax/pieces.ts";
import type { Culture } from "./cultures.ts";
import { foodAmount } from "./food-amount.ts";
import type { Logbook } from "./logbook.ts";

/** How brine-shrimp cysts were set to hatch, beside the published ranges: orientation, and no finding. */

export interface HatchFigure {
  readonly what: "temperature" | "salt" | "cysts";
  readonly value: number;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly isWithin: boolean;
}

export const hatchSource =
  "M. B. New 2002, Farming freshwater prawns, FAO Fisheries Technical Paper 428, annex 4 (read in a reprint), after P. Lavens & P. Sorgeloos 1996, FAO Fisheries Technical Paper 361: of brine-shrimp cysts";

/** Below 25 C they hatch more slowly, above 33 C the cysts are lost for good. */
const temperatureC = { low: 25, high: 28 };
const saltGL = { low: 5, high: 35 };
/** At most, in vessels below 20 L, and in larger ones. */
const cystsSmallGL = 5;
const cystsLargeGL = 2;
const smallBelowL = 20;

/** What of a start can be set beside the ranges. Only a start that says how salty the water is: it is what tells a hatch of cysts. */
export function hatchFigures(logbook: Logbook, culture: Culture): HatchFigure[] {
  const { start, food, name } = culture;
  const { units } = logbook.book;
  const salt = entryOf(start.block, start.id)?.item.salt;
  if (salt === undefined) return [];
  const high = salt.mark === Mark.range ? salt.second : salt.value;
  const saltMgL = units.canonical((salt.value + high) / 2, salt.unit, "concentration");
  const figures: HatchFigure[] = [];
  const put = (what: HatchFigure["what"], value: number, unit: string, low: number, most: number): void => {
    if (!Number.isNaN(value))
      figures.push({ what, value, unit, low, high: most, isWithin: value >= low && value <= most });
  };
  put("temperature", culture.temperatureC, "C", temperatureC.low, temperatureC.high);
  put("salt", saltMgL / 1000, "g/L", saltGL.low, saltGL.high);
  const { grams } = foodAmount(food, name, units, start.facts, start.row);
  const station = start.target < 0 ? undefined : logbook.book.station(start.target);
  const volumeL = station?.kind === "tank" ? (station as Tank).volumeL : Number.NaN;
  put("cysts", grams / volumeL, "g/L", 0, volumeL < smallBelowL ? cystsSmallGL : cystsLargeGL);
  return figures;
}
