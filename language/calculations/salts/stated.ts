import { formatNumber } from "../../quantity/format.ts";
import { either, nearest } from "../../quantity/nearest.ts";
import { calciumMgL, hardnessMeqL, MEQ_PER_DEGREE } from "../../science/hardness.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import type { Target } from "../../science/target.ts";
import type { Part, Water } from "../../science/water.ts";
import { type QuantityInput, quantity } from "../calculation.ts";
import { readInput } from "../read.ts";

/** Waters and wishes as they are written, `GH 6, KH 4, Ca:Mg 3`: names with figures, parted by commas. */

/** What a water may state. */
const PARTS_SAID = {
  calcium: { part: "calciumMgL", alias: "ca" },
  magnesium: { part: "magnesiumMgL", alias: "mg" },
  sodium: { part: "sodiumMgL", alias: "na" },
  potassium: { part: "potassiumMgL", alias: "k" },
  chloride: { part: "chlorideMgL", alias: "cl" },
  sulfate: { part: "sulfateMgL", alias: "so4" },
  nitrate: { part: "nitrateMgL", alias: "no3" },
  phosphate: { part: "phosphateMgL", alias: "po4" },
} as const satisfies Record<string, { part: Part; alias: string }>;
type PartName = keyof typeof PARTS_SAID;

export type StatedName = "GH" | "KH" | "temperature" | PartName;
export type Stated = Readonly<Partial<Record<StatedName, number>>>;

/** In the units in which each is reckoned. */
export const UNIT_OF: Readonly<Record<StatedName | "Ca:Mg", string>> = {
  GH: "dGH",
  KH: "dKH",
  temperature: "C",
  calcium: "mg/L",
  magnesium: "mg/L",
  sodium: "mg/L",
  potassium: "mg/L",
  chloride: "mg/L",
  sulfate: "mg/L",
  nitrate: "mg/L NO3",
  phosphate: "mg/L PO4",
  "Ca:Mg": "",
};

export const PART_NAMES = Object.keys(PARTS_SAID) as readonly PartName[];

export const partOf = (name: PartName): Part => PARTS_SAID[name].part;

export interface Known {
  readonly water: Water;
  /** Whether its calcium and magnesium are known apart; with the hardness alone they are not. */
  readonly isSplit: boolean;
}

/**
 * A water of what is stated. Calcium and magnesium go before the hardness; one of them and the hardness give the
 * other; the hardness alone is carried as calcium, and what is calcium in it is then nobody's knowledge.
 * @param which for messages: `source`
 */
export function waterOf(which: string, stated: Stated): Known | Outside {
  const water: { -readonly [Key in keyof Water]: Water[Key] } = {};
  for (const name of PART_NAMES) {
    const value = stated[name];
    if (value !== undefined) water[partOf(name)] = value;
  }
  if (stated.KH !== undefined) water.alkalinityMeqL = stated.KH * MEQ_PER_DEGREE;
  if (stated.temperature !== undefined) water.temperatureC = stated.temperature;
  const { GH, calcium, magnesium } = stated;
  const isHardnessUsed = GH !== undefined && (calcium === undefined || magnesium === undefined);
  if (!isHardnessUsed) return { water, isSplit: true };
  const rest = GH * MEQ_PER_DEGREE - hardnessMeqL(calcium ?? 0, magnesium ?? 0);
  // A degree is known to its last figure only, so a hair below nothing is nothing.
  if (rest < -0.005 * MEQ_PER_DEGREE * Math.max(1, GH)) {
    const metal = calcium === undefined ? "magnesium" : "calcium";
    return outside(`${which}: its ${metal} alone is more than its GH of ${formatNumber(GH)} dGH`);
  }
  const left = Math.max(0, rest);
  if (GH === 0) water.magnesiumMgL ??= 0;
  if (calcium !== undefined) water.magnesiumMgL = left / hardnessMeqL(0, 1);
  else water.calciumMgL = calciumMgL(left) as number;
  return { water, isSplit: calcium !== undefined || magnesium !== undefined || GH === 0 };
}

/** A water in words: `GH 15, KH 10, nitrate 30`. @param input its name, for messages */
export function waterSaid(input: string, text: string): Stated | Outside {
  const said = pieces(input, text);
  if (isOutside(said)) return said;
  const stated: Partial<Record<StatedName, number>> = {};
  for (const [name, value] of said) {
    if (name === "Ca:Mg")
      return outside(`${input}: Ca:Mg can be wanted; of a water state calcium, magnesium`);
    stated[name] = value;
  }
  return stated;
}

/** Wishes in words, as targets: `GH 6, KH 4, Ca:Mg 3`. */
export function wantedSaid(
  input: string,
  text: string,
): ReadonlyMap<StatedName | "Ca:Mg", { readonly target: Target; readonly value: number }> | Outside {
  const said = pieces(input, text);
  if (isOutside(said)) return said;
  const wishes = new Map<StatedName | "Ca:Mg", { target: Target; value: number }>();
  for (const [name, value] of said) wishes.set(name, targetOf(name, value));
  return wishes;
}

function targetOf(name: StatedName | "Ca:Mg", value: number): { target: Target; value: number } {
  switch (name) {
    case "GH":
      return { target: "hardnessMeqL", value: value * MEQ_PER_DEGREE };
    case "KH":
      return { target: "alkalinityMeqL", value: value * MEQ_PER_DEGREE };
    case "temperature":
      return { target: "temperatureC", value };
    case "Ca:Mg":
      return { target: "calciumToMagnesiumByMass", value };
    default:
      return { target: partOf(name), value };
  }
}

function pieces(input: string, text: string): ReadonlyMap<StatedName | "Ca:Mg", number> | Outside {
  const found = new Map<StatedName | "Ca:Mg", number>();
  for (const piece of text.split(/[,;]/).map((each) => each.trim())) {
    if (piece === "") continue;
    const { word, rest } =
      /^(?<word>[\p{L}\p{N}:]*?)\s*[=\s]\s*(?<rest>[\d.~<>+\-−].*)$/u.exec(piece)?.groups ?? {};
    if (word === undefined || rest === undefined)
      return outside(`${input}: “${piece}” is no name with a figure, such as GH 6`);
    const name = NAMES.get(word.toLowerCase());
    if (name === undefined) return outside(`${input}: “${word}” cannot be stated of a water${near(word)}`);
    if (found.has(name)) return outside(`${input}: ${name} is stated twice`);
    // A ratio may be written 3:1.
    const bare = name === "Ca:Mg" ? rest.replace(/\s*:\s*1$/, "") : rest;
    const read = readInput(name, RANGES[name], bare, {});
    if ("problem" in read) return outside(`${input}: ${read.problem}`);
    if (read.is !== "quantity" || read.best === undefined || read.low !== read.high)
      return outside(`${input}: ${name} ${rest} is no single figure`);
    found.set(name, read.best);
  }
  return found.size > 0 ? found : outside(`${input}: nothing is stated`);
}

const RANGES = Object.fromEntries(
  Object.entries(UNIT_OF).map(([name, unit]) => {
    const high = name === "temperature" ? 100 : 1e6;
    return [name, quantity(name, unit, [0, high], name === "Ca:Mg" ? { isAbove: true } : {})];
  }),
) as Readonly<Record<StatedName | "Ca:Mg", QuantityInput>>;

const NAMES: ReadonlyMap<string, StatedName | "Ca:Mg"> = new Map([
  ["gh", "GH"],
  ["hardness", "GH"],
  ["kh", "KH"],
  ["alkalinity", "KH"],
  ["temperature", "temperature"],
  ["temp", "temperature"],
  ["ca:mg", "Ca:Mg"],
  ...PART_NAMES.flatMap((name): [string, PartName][] => [
    [name, name],
    [PARTS_SAID[name].alias, name],
  ]),
] as const);

function near(word: string): string {
  const all = Object.keys(UNIT_OF);
  const found = nearest(word, all);
  return `; what can is ${found.length > 0 ? either(found) : all.join(", ")}`;
}
