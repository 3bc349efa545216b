import type { Dimension } from "../quantity/dimension.ts";
import type { Basis } from "../quantity/unit-table.ts";
import { type Unit, unitOf } from "../quantity/units.ts";

/**
 * What a water test may measure. `possible` are the bounds of what a reading can be at all in a fish room, in `unit`: wide, from memory of instrument
 * ranges and chemistry, and no advice on what animals need; they catch a slip of the finger.
 */
export interface Parameter {
  readonly id: number;
  readonly name: string;
  /** Other spellings, in lower case. */
  readonly aliases: readonly string[];
  readonly title: string;
  readonly dimension: Dimension;
  /** The unit of a number without one, unless the room declares another. */
  readonly unit: Unit;
  /** What a concentration without a basis counts, unless the room declares another. */
  readonly basis?: Basis;
  readonly possible: readonly [low: number, high: number];
  /** A change of water takes it out and puts the source's in; temperature and pH do not mix so. */
  readonly mixes: boolean;
}

type Row = Omit<Parameter, "id" | "unit" | "mixes" | "aliases"> & {
  unit: string;
  aliases?: string;
  mixes?: boolean;
};

const rows: Row[] = [
  {
    name: "temperature",
    aliases: "temp t",
    title: "Temperature",
    dimension: "temperature",
    unit: "C",
    possible: [0, 45],
  },
  { name: "pH", title: "pH", dimension: "pH", unit: "pH", possible: [2, 12], mixes: false },
  {
    name: "KH",
    aliases: "alkalinity",
    title: "Alkalinity",
    dimension: "hardness",
    unit: "dKH",
    possible: [0, 60],
  },
  {
    name: "GH",
    aliases: "hardness",
    title: "General hardness",
    dimension: "hardness",
    unit: "dGH",
    possible: [0, 150],
  },
  {
    name: "ammonia",
    aliases: "tan ammonium nh4 nh3",
    title: "Total ammonia",
    dimension: "concentration",
    unit: "mg/L",
    basis: "N",
    possible: [0, 100],
  },
  {
    name: "nitrite",
    aliases: "no2",
    title: "Nitrite",
    dimension: "concentration",
    unit: "mg/L",
    basis: "NO2",
    possible: [0, 100],
  },
  {
    name: "nitrate",
    aliases: "no3",
    title: "Nitrate",
    dimension: "concentration",
    unit: "mg/L",
    basis: "NO3",
    possible: [0, 1000],
  },
  {
    name: "phosphate",
    aliases: "po4",
    title: "Phosphate",
    dimension: "concentration",
    unit: "mg/L",
    basis: "PO4",
    possible: [0, 100],
  },
  {
    name: "oxygen",
    aliases: "o2 do",
    title: "Dissolved oxygen",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 25],
    mixes: false,
  },
  {
    name: "co2",
    title: "Carbon dioxide",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 500],
    mixes: false,
  },
  {
    name: "conductivity",
    aliases: "ec",
    title: "Conductivity at 25 C",
    dimension: "conductivity",
    unit: "uS/cm",
    possible: [0, 70000],
  },
  { name: "salinity", title: "Salinity", dimension: "concentration", unit: "g/L", possible: [0, 50] },
  {
    name: "chlorine",
    aliases: "cl2",
    title: "Total chlorine",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 20],
    mixes: false,
  },
  { name: "chloride", title: "Chloride", dimension: "concentration", unit: "mg/L", possible: [0, 30000] },
  { name: "iron", aliases: "fe", title: "Iron", dimension: "concentration", unit: "mg/L", possible: [0, 50] },
  {
    name: "copper",
    aliases: "cu",
    title: "Copper",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 20],
  },
  {
    name: "potassium",
    aliases: "k",
    title: "Potassium",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 1000],
  },
  {
    name: "calcium",
    aliases: "ca",
    title: "Calcium",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 2000],
  },
  {
    name: "magnesium",
    aliases: "mg",
    title: "Magnesium",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 2500],
  },
  {
    name: "silicate",
    aliases: "si",
    title: "Silicate",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 200],
  },
  {
    name: "chloramine",
    title: "Combined chlorine, as chlorine",
    dimension: "concentration",
    unit: "mg/L",
    possible: [0, 20],
    mixes: false,
  },
  {
    name: "redox",
    aliases: "orp",
    title: "Redox potential",
    dimension: "redox",
    unit: "mV",
    possible: [-500, 1000],
    mixes: false,
  },
];

export const parameters: readonly Parameter[] = rows.map((row, id) => ({
  ...row,
  id,
  aliases: row.aliases?.split(" ") ?? [],
  unit: unitOf(row.unit),
  mixes: row.mixes ?? true,
}));

const byWord = new Map<string, Parameter>();
for (const parameter of parameters) {
  for (const word of [
    parameter.name,
    parameter.name.toLowerCase(),
    parameter.name.toUpperCase(),
    ...parameter.aliases,
  ]) {
    byWord.set(word, parameter);
    byWord.set(word.toUpperCase(), parameter);
  }
}

/** The parameter with this name or alias, in lower or upper case. */
export function findParameter(word: string): Parameter | undefined {
  return byWord.get(word) ?? byWord.get(word.toLowerCase());
}

/** The parameter a program names by its own name; throws a RangeError if there is none. */
export function parameterOf(name: string): Parameter {
  const parameter = byWord.get(name);
  if (parameter === undefined) throw new RangeError(`no parameter is called ${name}`);
  return parameter;
}

export const parameterNames: readonly string[] = parameters.map((parameter) => parameter.name);
