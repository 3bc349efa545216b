/**
 * Spellings that mean more than one unit. None is ever guessed: the room declares what it means, or the
 * entry's dimension together with a declared unit leaves one meaning only, or the caller reports the spelling
 * with its candidates.
 *
 * - `gal`, `quart`, `pint`, `fl oz`, `gph`, `gpm`: US or imperial, by the declared gallon.
 * - `ppm`: mg/L (by mass) or uL/L (by volume), by the declared ppm. Of hardness or alkalinity it can only be
 * by
 *   mass, but of what is open: settled where the room keeps that figure in mg/L CaCO3.
 * - `deg`, `degrees`, `°`: of temperature the declared temperature unit; of hardness the declared degree.
 * - `oz`: a mass where a mass is asked for; a volume where a volume is asked for and the gallon is declared.
 * - `gr`: gram or grain. `mmol/L`: of hardness (two equivalents) or of alkalinity (one). Neither has a
 *   declaration: write `g`, `grain`, `mmol/L Ca`, `mmol/L HCO3`.
 * - `tsp`, `tbsp`: the US customary or the 5 and 15 mL measure, by the declared spoon.
 */
import type { Dimension } from "./dimension.ts";
import { differenceUnit, UNITS, type Unit } from "./unit-table.ts";

/**
 * What the room declares: a unit for each dimension it cares about, and what the ambiguous spellings mean.
 */
export type Declared = {
  readonly gallon?: "US" | "imperial" | undefined;
  readonly ppm?: "mg/L" | "uL/L" | undefined;
  readonly spoon?: "US" | "metric" | undefined;
  /** The unit of alkalinity; the unit of hardness is under its dimension. */
  readonly alkalinity?: Unit | undefined;
} & { readonly [D in Dimension]?: Unit | undefined };

function named(symbol: string): Unit {
  const unit = UNITS.find((each) => each.symbol === symbol && each.spellings.length > 0);
  if (unit === undefined) throw new RangeError(`no unit has the symbol ${symbol}`);
  return unit;
}

const table = new Map<string, readonly Unit[]>();

function ambiguous(spellings: string, ...symbols: string[]): void {
  const units = symbols.map(named);
  for (const spelling of spellings.split(", ")) table.set(spelling, units);
}

ambiguous("gal, gals, gallon, gallons", "US gal", "imp gal");
ambiguous("qt, qts, quart, quarts", "US qt", "imp qt");
ambiguous("pt, pint, pints", "US pt", "imp pt");
ambiguous("fl oz, floz", "US fl oz", "imp fl oz");
ambiguous("gal/h, gph, GPH", "US gal/h", "imp gal/h");
ambiguous("gal/min, gpm, GPM", "US gal/min", "imp gal/min");
ambiguous("tsp, teaspoon, teaspoons", "US tsp", "metric tsp");
ambiguous("tbsp, tablespoon, tablespoons", "US tbsp", "metric tbsp");
ambiguous("ppm", "mg/L", "uL/L", "mg/L CaCO3");
ambiguous("deg, degree, degrees, °", "C", "F", "dGH", "dKH", "fH", "eH");
ambiguous("oz, ounce, ounces", "oz av", "US fl oz", "imp fl oz");
ambiguous("gr", "g", "grain");
ambiguous("mmol/L", "mmol/L Ca", "mmol/L HCO3");

/** Each ambiguous spelling with the units it may mean. */
export const AMBIGUOUS: ReadonlyMap<string, readonly Unit[]> = table;

/**
 * The one unit an ambiguous spelling means here, or undefined when what is declared leaves more than one.
 * @param dimension what the entry asks for, where that is known
 */
export function settle(text: string, dimension: Dimension | undefined, declared: Declared): Unit | undefined {
  const candidates = table.get(text);
  if (candidates === undefined) return undefined;
  // A temperature difference is written with the units of temperature.
  const difference = dimension === "temperature-difference";
  const wanted = difference ? "temperature" : (dimension ?? dimensionOf(text, candidates, declared));
  const left = candidates.filter((unit) => unit.dimension === wanted && agrees(unit, text, declared));
  const first = left[0];
  // Two degrees of the same size (dGH and dKH) are one meaning.
  if (first === undefined || left.some((unit) => unit.factor !== first.factor)) return undefined;
  return difference ? differenceUnit(first) : first;
}

/**
 * The dimension of the candidates where the entry leaves it open: only if they share one, or `ppm` is
 * declared.
 */
function dimensionOf(text: string, candidates: readonly Unit[], declared: Declared): Dimension | undefined {
  if (text === "ppm") return candidates.find((unit) => unit.symbol === declared.ppm)?.dimension;
  const first = candidates[0]?.dimension;
  return candidates.every((unit) => unit.dimension === first) ? first : undefined;
}

/** Whether the declarations name this reading. What is not declared names nothing, so nothing is guessed. */
function agrees(unit: Unit, text: string, declared: Declared): boolean {
  const { symbol } = unit;
  if (text === "ppm") {
    if (unit.dimension === "hardness") return keptAs(unit, declared);
    return declared.ppm === symbol;
  }
  if (symbol === "C" || symbol === "F") return declared.temperature === unit;
  if (unit.dimension === "hardness") return symbol.startsWith("mmol") ? false : keptAs(unit, declared);
  if (symbol.endsWith("tsp") || symbol.endsWith("tbsp")) {
    return declared.spoon !== undefined && symbol.startsWith(declared.spoon);
  }
  if (symbol.startsWith("US ")) return declared.gallon === "US";
  if (symbol.startsWith("imp ")) return declared.gallon === "imperial";
  return text !== "gr";
}

function keptAs(unit: Unit, declared: Declared): boolean {
  return declared.hardness === unit || declared.alkalinity === unit;
}
