import { molarMass } from "../../../language/science/elements.ts";
import { isOutside } from "../../../language/science/result.ts";
import { speciesMgL } from "../../../language/science/salts.ts";
import { type Calculation, gives } from "../calculation.ts";
import { converted, type Inputs, MissingInput } from "../inputs.ts";
import { convertedBetween, measureOf } from "../measure.ts";

/** Units by the words that names have for them. A dH here is a dGH: one size, two uses. */
const WORDS: Readonly<Record<string, string>> = {
  us_gal: "US gal",
  imp_gal: "imp gal",
  uk_gal: "imp gal",
  us_gallon: "US gal",
  imp_gallon: "imp gal",
  us_quart: "US qt",
  us_pint: "US pt",
  us_cup: "US cup",
  us_floz: "US fl oz",
  us_tbsp: "US tbsp",
  us_tsp: "US tsp",
  imp_quart: "imp qt",
  imp_pint: "imp pt",
  imp_floz: "imp fl oz",
  acre_foot: "acre_ft",
  acre_feet: "acre_ft",
  cubic_inch: "in3",
  cubic_inches: "in3",
  cubic_foot: "ft3",
  cubic_feet: "ft3",
  cubic_metre: "m3",
  cubic_meter: "m3",
  food_label_tsp: "metric tsp",
  ounce: "oz",
  pound: "lb",
  celsius: "C",
  fahrenheit: "F",
  kelvin: "K",
  meq: "meq/L",
  mmol: "mmol/L Ca",
  mmol_L: "mmol/L Ca",
  mgCaCO3: "mg/L CaCO3",
  ppm_CaCO3: "mg/L CaCO3",
  mgHCO3: "mg/L HCO3",
  mgCaO: "mg/L CaO",
  English: "eH",
  Clark: "eH",
  French: "fH",
  German: "dH",
  grain_per_USgal: "gpg",
  grain_per_us_gal: "gpg",
  percent_w_v: "1e1 g/L",
};

const JOINS = [
  { join: "_to_", isTurned: false },
  { join: "_in_", isTurned: false },
  { join: "_per_", isTurned: true },
  { join: "_from_", isTurned: true },
];

/** `us_gal_to_L`, `fH_per_dH`, `N_to_NO3`: the conversion that a name asks for; undefined when it asks for none. */
export function conversionOf(quantity: string): Calculation | undefined {
  for (const { join, isTurned } of JOINS) {
    for (let at = quantity.indexOf(join); at >= 0; at = quantity.indexOf(join, at + 1)) {
      const sides = [quantity.slice(0, at), quantity.slice(at + join.length)] as const;
      const [from, to] = isTurned ? [sides[1], sides[0]] : sides;
      const found = ofUnits(wordOf(from), wordOf(to)) ?? (isTurned ? undefined : ofSpecies(from, to));
      if (found !== undefined) return found;
    }
  }
  return undefined;
}

function wordOf(text: string): string {
  return Object.hasOwn(WORDS, text) ? WORDS[text]! : text;
}

function ofUnits(from: string, to: string): Calculation | undefined {
  const [was, will] = [measureOf(from), measureOf(to)];
  if (was === undefined || will === undefined || convertedBetween(1, was, will) === undefined)
    return undefined;
  return gives(to, (given) => {
    const key = [...given.values.keys()].find((each) => each === "x" || each.startsWith("x_"));
    if (key === undefined) throw new MissingInput(`no input x in ${from}`);
    // A name that says gallons and an input that says cups: one of them is wrong.
    const written = key === "x" ? was : measureOf(wordOf(key.slice(2)));
    if (written?.factor !== was.factor || written.dimension !== was.dimension)
      throw new MissingInput(`${key} is not in ${from}`);
    return converted(given.number(key), from, to);
  });
}

/** mg/L counted as one species, counted as another. */
function ofSpecies(from: string, to: string): Calculation | undefined {
  if (isOutside(molarMass(from)) || isOutside(molarMass(to))) return undefined;
  return gives("mg/L", (given) => speciesMgL(concentration(given), from, to));
}

/** `x` in mg/L, whatever it is said to count. */
export function concentration(given: Inputs): number {
  return given.in("x", "mg/L");
}
