/**
 * Every unit a log may use, with its factor and where the factor is published.
 *
 * canonical = value * factor + offset, in the canonical unit of the dimension (`dimension.ts`).
 * Definitions of length, volume and mass are exact: NIST SP 811 (2008) Appendix B and NIST Handbook 44
 * Appendix C. Hardness follows from the definition of each degree and the abridged atomic weights of CIAAW
 * 2021: Ca 40.078, C 12.011, O 15.999, N 14.007, H 1.0080, P 30.973761998.
 *
 * The order is the identity: a unit's `id` is its place in this table, so new units go to the end.
 */
import type { Dimension } from "./dimension.ts";

/** What a concentration is counted as. `undefined` on a unit means: as the parameter itself is counted. */
export type Basis = "N" | "NO3" | "NO2" | "NH3" | "NH4" | "P" | "PO4" | "CaCO3" | "CaO" | "HCO3";

export interface Unit {
  readonly id: number;
  /** The spelling this tool prints. */
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: number;
  readonly offset: number;
  readonly basis?: Basis;
  /**
   * Exact spellings that are read as this unit, the symbol among them unless the symbol is shared. Case
   * counts: `mg/l` is no spelling of `mg/L` (`looseUnit` finds it, and the log is told).
   */
  readonly spellings: readonly string[];
  readonly source: string;
}

const CA = 40.078;
const C = 12.011;
const O = 15.999;
const H = 1.008;
/** mg of each per meq: half a molar mass for the divalent, a whole one for bicarbonate. */
export const CACO3_MG_PER_MEQ = (CA + C + 3 * O) / 2;
const CAO_MG_PER_MEQ = (CA + O) / 2;
const HCO3_MG_PER_MEQ = H + C + 3 * O;

const US_GALLON_L = 3.785411784;
const IMPERIAL_GALLON_L = 4.54609;
const GRAIN_MG = 64.79891;
const POUND_MG = 453592.37;

const SI = "SI, BIPM 2019";
const SP811 = "NIST SP 811 (2008) App. B, exact";
const HB44 = "NIST Handbook 44 App. C, exact";
const DEGREE = "definition of the degree with CIAAW 2021 weights";
const TRADE = "counted thing";

const rows: Unit[] = [];

function unit(
  dimension: Dimension,
  symbol: string,
  factor: number,
  spellings: string,
  source: string,
  more: { offset?: number; basis?: Basis } = {},
): void {
  rows.push({
    id: rows.length,
    symbol,
    dimension,
    factor,
    offset: more.offset ?? 0,
    spellings: spellings === "" ? [] : spellings.split(", "),
    source,
    ...(more.basis === undefined ? {} : { basis: more.basis }),
  });
}

unit("count", "", 1, "pcs, pc, piece, pieces", TRADE);
unit("pH", "pH", 1, "pH", "IUPAC 2002, pH scale");

unit("temperature", "C", 1, "C, °C, degC, deg_C, Celsius, celsius", SI);
unit("temperature", "F", 5 / 9, "F, °F, degF, deg_F, Fahrenheit, fahrenheit", SP811, { offset: -160 / 9 });
// No kelvin: in a log `24 K` is a slip or potassium.
// A difference is never spelled apart from a temperature: `differenceUnit` leads here.
unit("temperature-difference", "C", 1, "", SI);
unit("temperature-difference", "F", 5 / 9, "", SP811);

unit("volume", "L", 1, "L, litre, litres, liter, liters", SI);
unit("volume", "mL", 1e-3, "mL, cc, cm3, cm³, millilitre, millilitres, milliliter, milliliters", SI);
unit("volume", "uL", 1e-6, "uL, µL, μL", SI);
unit("volume", "m3", 1000, "m3, m³", SI);
unit("volume", "US gal", US_GALLON_L, "US gal, US gallon, US gallons, gal(US), usgal", HB44);
unit(
  "volume",
  "imp gal",
  IMPERIAL_GALLON_L,
  "imp gal, imp gallon, imp gallons, UK gal, gal(imp), impgal",
  SP811,
);
unit("volume", "US qt", US_GALLON_L / 4, "US qt, US quart, US quarts", HB44);
unit("volume", "imp qt", IMPERIAL_GALLON_L / 4, "imp qt, imp quart, imp quarts, UK qt", SP811);
unit("volume", "US pt", US_GALLON_L / 8, "US pt, US pint, US pints", HB44);
unit("volume", "imp pt", IMPERIAL_GALLON_L / 8, "imp pt, imp pint, imp pints, UK pt, UK pint", SP811);
unit("volume", "US cup", US_GALLON_L / 16, "US cup, US cups", HB44);
unit("volume", "US fl oz", US_GALLON_L / 128, "US fl oz, US floz", HB44);
unit("volume", "imp fl oz", IMPERIAL_GALLON_L / 160, "imp fl oz, imp floz, UK fl oz", SP811);
unit("volume", "US tbsp", US_GALLON_L / 256, "US tbsp, US tablespoon, US tablespoons", HB44);
unit("volume", "US tsp", US_GALLON_L / 768, "US tsp, US teaspoon, US teaspoons", HB44);
const LABEL = "food-label measure, 21 CFR 101.9(b)(5)(viii)";
unit("volume", "metric tbsp", 0.015, "metric tbsp, metric tablespoon, metric tablespoons", LABEL);
unit("volume", "metric tsp", 0.005, "metric tsp, metric teaspoon, metric teaspoons", LABEL);
unit("volume", "ft3", 28.316846592, "ft3, ft³", SP811);
unit("volume", "in3", 0.016387064, "in3, in³", SP811);

unit("length", "cm", 1, "cm, centimetre, centimetres, centimeter, centimeters", SI);
unit("length", "mm", 0.1, "mm, millimetre, millimetres, millimeter, millimeters", SI);
unit("length", "m", 100, "m, metre, metres, meter, meters", SI);
unit("length", "in", 2.54, "in, inch, inches", SP811);
unit("length", "ft", 30.48, "ft, foot, feet", SP811);

unit("mass", "mg", 1, "mg, milligram, milligrams", SI);
unit("mass", "ug", 1e-3, "ug, µg, μg, mcg, microgram, micrograms", SI);
unit("mass", "g", 1000, "g, gram, grams, gramme, grammes", SI);
unit("mass", "kg", 1e6, "kg, kilo, kilos, kilogram, kilograms", SI);
unit("mass", "lb", POUND_MG, "lb, lbs, pound, pounds", SP811);
unit("mass", "oz av", POUND_MG / 16, "oz av, oz(av), oz avdp, ounce av, ounces av", SP811);
unit("mass", "grain", GRAIN_MG, "grain, grains", SP811);

unit("concentration", "mg/L", 1, "mg/L", SI);
unit("concentration", "ug/L", 1e-3, "ug/L, µg/L, μg/L, ppb", SI);
unit("concentration", "g/L", 1000, "g/L, mg/mL, kg/m3", SI);
// `ppb` is used of dissolved metals, always by mass; `ppm` is ambiguous (`ambiguous.ts`).
// By mass in a litre, as dosing uses it; sea-water salinity (g/kg) is another quantity, `seawater.ts`.
unit("concentration", "ppt", 1000, "ppt, ‰", "1 ppt = 1 g/L in dosing, formula sheet of SRAC 410");
const ION = "CIAAW 2021 weights";
unit("concentration", "mg/L N", 1, "mg/L N, mg/L-N, mg/L as N", ION, { basis: "N" });
unit("concentration", "mg/L NO3", 1, "mg/L NO3, mg/L as NO3", ION, { basis: "NO3" });
unit("concentration", "mg/L NO2", 1, "mg/L NO2, mg/L as NO2", ION, { basis: "NO2" });
unit("concentration", "mg/L NH3", 1, "mg/L NH3, mg/L as NH3", ION, { basis: "NH3" });
unit("concentration", "mg/L NH4", 1, "mg/L NH4, mg/L as NH4", ION, { basis: "NH4" });
unit("concentration", "mg/L P", 1, "mg/L P, mg/L-P, mg/L as P", ION, { basis: "P" });
unit("concentration", "mg/L PO4", 1, "mg/L PO4, mg/L as PO4", ION, { basis: "PO4" });

unit("volume-concentration", "uL/L", 1, "uL/L, µL/L, μL/L, mL/m3", SI);
unit("volume-concentration", "mL/L", 1000, "mL/L", SI);

unit("hardness", "meq/L", 1, "meq/L, mval/L", SI);
unit("hardness", "dH", 10 / CAO_MG_PER_MEQ, "dH, °dH, odH", DEGREE);
unit("hardness", "dGH", 10 / CAO_MG_PER_MEQ, "dGH, °dGH, °GH", DEGREE);
unit("hardness", "dKH", 10 / CAO_MG_PER_MEQ, "dKH, °dKH, °KH", DEGREE);
unit("hardness", "fH", 10 / CACO3_MG_PER_MEQ, "fH, °fH, °f, °TH", DEGREE);
unit("hardness", "eH", GRAIN_MG / IMPERIAL_GALLON_L / CACO3_MG_PER_MEQ, "eH, °eH, °e, Clark", DEGREE);
unit("hardness", "gpg", GRAIN_MG / US_GALLON_L / CACO3_MG_PER_MEQ, "gpg", DEGREE);
const AS_CACO3 = "mg/L CaCO3, mg/L as CaCO3, ppm CaCO3";
unit("hardness", "mg/L CaCO3", 1 / CACO3_MG_PER_MEQ, AS_CACO3, ION, { basis: "CaCO3" });
unit("hardness", "mg/L CaO", 1 / CAO_MG_PER_MEQ, "mg/L CaO", ION, { basis: "CaO" });
unit("hardness", "mg/L HCO3", 1 / HCO3_MG_PER_MEQ, "mg/L HCO3", ION, { basis: "HCO3" });
// A water report counts hardness in mmol/L of calcium and magnesium (two equivalents each), alkalinity in
// mmol/L of acid taken up (one): the bare `mmol/L` is therefore ambiguous.
unit("hardness", "mmol/L Ca", 2, "mmol/L Ca, mmol/L CaCO3", SI);
unit("hardness", "mmol/L HCO3", 1, "mmol/L HCO3, mmol/L H", SI);

unit("conductivity", "uS/cm", 1, "uS/cm, µS/cm, μS/cm, uS, µS, μS, umho/cm", SI);
unit("conductivity", "mS/cm", 1000, "mS/cm, mS, dS/m", SI);

unit("fraction", "%", 0.01, "%, percent, pct", SI);
unit("fraction", "g/kg", 1e-3, "g/kg", SI);
unit("fraction", "mg/kg", 1e-6, "mg/kg", SI);

unit("duration", "d", 1, "d, day, days", SI);
unit("duration", "h", 1 / 24, "h, hr, hrs, hour, hours", SI);
unit("duration", "min", 1 / 1440, "min, mins, minute, minutes", SI);
unit("duration", "s", 1 / 86400, "s, sec, secs, second, seconds", SI);
unit("duration", "w", 7, "w, wk, wks, week, weeks", SI);

unit("flow", "L/h", 1, "L/h, L/hr, lph, LPH", SI);
unit("flow", "L/min", 60, "L/min, lpm, LPM", SI);
unit("flow", "L/d", 1 / 24, "L/d, L/day", SI);
unit("flow", "mL/min", 0.06, "mL/min", SI);
unit("flow", "mL/h", 1e-3, "mL/h", SI);
unit("flow", "m3/h", 1000, "m3/h, m³/h", SI);
unit("flow", "US gal/h", US_GALLON_L, "US gal/h, US gph", HB44);
unit("flow", "imp gal/h", IMPERIAL_GALLON_L, "imp gal/h, imp gph, UK gal/h", SP811);
unit("flow", "US gal/min", 60 * US_GALLON_L, "US gal/min, US gpm", HB44);
unit("flow", "imp gal/min", 60 * IMPERIAL_GALLON_L, "imp gal/min, imp gpm, UK gal/min", SP811);

unit("illuminance", "lx", 1, "lx, lux", SI);
unit("illuminance", "klx", 1000, "klx, klux", SI);
unit("illuminance", "fc", 1 / 0.09290304, "fc, footcandle, footcandles", SP811);
const FLUX = "umol/m2/s, µmol/m2/s, μmol/m2/s, µmol/m²/s, μmol/m²/s, umol/m²/s, PAR";
unit("light-flux", "umol/m2/s", 1, FLUX, SI);
unit("power", "W", 1, "W, watt, watts", SI);
unit("power", "kW", 1000, "kW", SI);
unit("redox", "mV", 1, "mV, millivolt, millivolts", SI);
unit("redox", "V", 1000, "V, volt, volts", SI);
unit("rate", "mg/L/d", 1, "mg/L/d, mg/L/day", SI);

for (const [symbol, spellings] of [
  ["drop", "drop, drops"],
  ["cube", "cube, cubes"],
  ["pinch", "pinch, pinches"],
  ["scoop", "scoop, scoops"],
  ["pellet", "pellet, pellets"],
  ["tab", "tab, tabs, tablet, tablets"],
  ["wafer", "wafer, wafers"],
  ["sheet", "sheet, sheets"],
  ["spoon", "spoon, spoons, spoonful, spoonfuls"],
  ["squirt", "squirt, squirts"],
  ["pump", "pump, pumps"],
  ["capful", "capful, capfuls, cap, caps"],
  ["sachet", "sachet, sachets"],
  ["portion", "portion, portions"],
  ["slice", "slice, slices"],
  ["leaf", "leaf, leaves"],
] as const) {
  unit("portion", symbol, 1, spellings, TRADE);
}
for (const [code, spellings] of [
  ["EUR", "EUR, €, euro, euros"],
  ["USD", "USD, US$"],
  ["GBP", "GBP, £"],
  ["CHF", "CHF"],
  ["CAD", "CAD"],
  ["AUD", "AUD"],
  ["NZD", "NZD"],
  ["SEK", "SEK"],
  ["NOK", "NOK"],
  ["DKK", "DKK"],
  ["PLN", "PLN"],
  ["CZK", "CZK"],
  ["JPY", "JPY"],
] as const) {
  unit("price", code, 1, spellings, "ISO 4217");
}

/** All units; a unit's `id` is its index. */
export const UNITS: readonly Unit[] = rows;

/**
 * The unit of a difference between two temperatures written in this unit; any other unit is returned as it
 * is.
 */
export function differenceUnit(unit: Unit): Unit {
  if (unit.dimension !== "temperature") return unit;
  const same = rows.find(
    (each) => each.dimension === "temperature-difference" && each.symbol === unit.symbol,
  );
  return same ?? unit;
}
