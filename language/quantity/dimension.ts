/**
 * The kinds of figure a fish room writes down. Two figures compare only within one dimension.
 *
 * Hardness and alkalinity share `hardness`: both are counted in equivalents per litre. Parts by mass and
 * parts by volume are two dimensions, because a litre of formalin is not a kilogram of it. Portions (cubes,
 * drops, pinches) and prices keep their unit: a cube is no number of drops, a euro no number of pounds.
 */
export type Dimension =
  | "temperature"
  | "temperature-difference"
  | "volume"
  | "length"
  | "mass"
  | "concentration"
  | "volume-concentration"
  | "hardness"
  | "conductivity"
  | "pH"
  | "fraction"
  | "count"
  | "duration"
  | "flow"
  | "illuminance"
  | "light-flux"
  | "power"
  | "redox"
  | "portion"
  | "price"
  | "rate";

/** The unit in which values of a dimension are kept, by the symbol of that unit. */
export const CANONICAL: Readonly<Record<Dimension, string>> = {
  temperature: "C",
  "temperature-difference": "C",
  volume: "L",
  length: "cm",
  mass: "mg",
  concentration: "mg/L",
  "volume-concentration": "uL/L",
  hardness: "meq/L",
  conductivity: "uS/cm",
  pH: "pH",
  fraction: "1",
  count: "1",
  duration: "d",
  flow: "L/h",
  illuminance: "lx",
  "light-flux": "umol/m2/s",
  power: "W",
  redox: "mV",
  portion: "1",
  price: "1",
  rate: "mg/L/d",
};

/** The least value that can exist, in the canonical unit: where the interval of a reading `<5` begins. */
export const LEAST: Readonly<Record<Dimension, number>> = {
  temperature: -273.15,
  "temperature-difference": -Infinity,
  volume: 0,
  length: 0,
  mass: 0,
  concentration: 0,
  "volume-concentration": 0,
  hardness: 0,
  conductivity: 0,
  pH: -Infinity,
  fraction: 0,
  count: 0,
  duration: 0,
  flow: 0,
  illuminance: 0,
  "light-flux": 0,
  power: 0,
  redox: -Infinity,
  portion: 0,
  price: 0,
  rate: -Infinity,
};

/** Dimensions whose units are things of their own and do not convert into each other. */
export function keepsUnit(dimension: Dimension): boolean {
  return dimension === "portion" || dimension === "price";
}
