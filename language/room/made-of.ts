import type { Book } from "../book/book.ts";
import { type Parameter, parameterOf } from "../book/parameters.ts";
import type { Water } from "../book/stations.ts";
import { saltsNamed } from "../calculations/salts/salt-named.ts";
import { type Stated, waterOf } from "../calculations/salts/stated.ts";
import { MEQ_PER_DEGREE } from "../science/hardness.ts";
import { recipe } from "../science/recipe.ts";
import { isOutside, type Outside, outside } from "../science/result.ts";
import { measure, type Target } from "../science/target.ts";
import type { Water as WaterParts } from "../science/water.ts";

/** Of what a source water is made: as its keeper states it, else of two others between which it lies by what it holds. */

export interface MadeOf {
  /** False where it follows from what the waters hold alone. */
  readonly isStated: boolean;
  /** Shares of the whole, together 1; without those of which nothing is taken. */
  readonly parts: readonly { readonly water: Water; readonly share: number }[];
  readonly salts: readonly { readonly formula: string; readonly mgL: number }[];
  /** What comes out of each figure that the water states, canonical. */
  readonly reached: readonly Reached[];
  /** What dissolves slowly or not wholly. */
  readonly remarks: readonly string[];
}

export interface Reached {
  readonly parameter: Parameter;
  readonly wanted: number;
  readonly reached: number;
  /** Within a twentieth of what is wanted, or of a meq/L: finer than a test reads. A choice of this tool. */
  readonly isMet: boolean;
}

/** What can be aimed at by blending and by salts. What else a water holds, as pH and conductivity, does not add up. */
const aims = [
  ["GH", "hardnessMeqL"],
  ["KH", "alkalinityMeqL"],
  ["calcium", "calciumMgL"],
  ["magnesium", "magnesiumMgL"],
  ["potassium", "potassiumMgL"],
  ["chloride", "chlorideMgL"],
  ["nitrate", "nitrateMgL"],
  ["phosphate", "phosphateMgL"],
] as const satisfies readonly (readonly [string, Target])[];

const temperature = parameterOf("temperature");

/** What a water is made of; undefined where it comes as it is, a reason where what is stated of it cannot be made. */
export function madeOf(book: Book, water: Water): MadeOf | Outside | undefined {
  if (water.from.length > 0) return statedMix(book, water);
  return isRaw(book, water) ? undefined : inferredMix(book, water);
}

/** A water that comes as it is: from a tap, a filter, the sky. */
export function isRaw(book: Book, water: Water): boolean {
  return water.from.length === 0 && pairsAround(book.waters, water).length === 0;
}

function statedMix(book: Book, water: Water): MadeOf | Outside {
  const waters = water.from.map((name) => book.waters.find((each) => each.name === name));
  const missing = water.from.filter((_, at) => waters[at] === undefined);
  if (missing.length > 0) return outside(`no water is called “${missing[0]}”`);
  if (water.from.includes(water.name)) return outside(`${water.name} is said to be made of itself`);
  const salts = saltsNamed("salts", water.salts);
  if (isOutside(salts)) return salts;
  return mix(waters as Water[], salts, water, true);
}

/** Of the pairs it lies between one that holds no chlorine, and comes first. */
function inferredMix(book: Book, water: Water): MadeOf | undefined {
  const raw = book.waters.filter((each) => isRaw(book, each));
  const pairs = pairsAround(raw, water);
  const chlorine = parameterOf("chlorine").id;
  const isFree = ({ parts }: MadeOf): boolean =>
    parts.every((part) => (part.water.content.get(chlorine) ?? 0) === 0);
  return pairs.find(isFree) ?? pairs[0];
}

/** Less of a water is no part of a blend but the rounding of what is stated. */
const leastShare = 0.02;

/** The blends of two waters that hold what a water states, each of both in a true share. */
function pairsAround(waters: readonly Water[], water: Water): MadeOf[] {
  const stated = aims.filter(([name]) => water.content.has(parameterOf(name).id));
  // One figure says too little of a water to tell of what it is made.
  if (stated.length < 2) return [];
  const others = waters.filter((each) => each !== water && each.from.length === 0);
  return others.flatMap((first, at) =>
    others.slice(at + 1).flatMap((second) => {
      // What a water does not state is not known to be in it or not.
      const isKnown = stated.every(([name]) => {
        const { id } = parameterOf(name);
        return first.content.has(id) && second.content.has(id);
      });
      const made = isKnown ? mix([first, second], [], water, false) : outside("not known");
      if (isOutside(made) || made.parts.length < 2) return [];
      const isTrue = made.parts.every(({ share }) => share > leastShare);
      return isTrue && made.reached.every(({ isMet }) => isMet) ? [made] : [];
    }),
  );
}

function mix(
  waters: readonly Water[],
  salts: readonly string[],
  wanted: Water,
  isStated: boolean,
): MadeOf | Outside {
  const known = waters.map(partsOf);
  const problem = known.find(isOutside);
  if (problem !== undefined) return problem;
  const targets = aims.flatMap(([name, target]) => {
    const parameter = parameterOf(name);
    const value = wanted.content.get(parameter.id);
    return value === undefined ? [] : [{ parameter, target, value }];
  });
  if (targets.length === 0) return outside(`what ${wanted.name} is to hold is not stated`);
  const made = recipe({
    waters: known as WaterParts[],
    salts,
    targets: Object.fromEntries(targets.map(({ target, value }) => [target, value])),
    volumeL: 1,
  });
  if (isOutside(made)) return made;
  return {
    isStated,
    parts: waters
      .map((water, at) => ({ water, share: made.waters[at]!.fraction }))
      .filter(({ share }) => share > rounding),
    salts: made.salts.filter(({ mgL }) => mgL > 0).map(({ formula, mgL }) => ({ formula, mgL })),
    reached: targets.map(({ parameter, target, value }) => {
      const attained = made.targets.find((each) => each.target === target)?.reached;
      const reached = attained === undefined || isOutside(attained) ? Number.NaN : attained;
      // In meq/L all of them can be compared.
      const perUnit = target.endsWith("MeqL") ? 1 : measure(target, 0, { [target]: 1 });
      const off = Math.abs(reached - value);
      return { parameter, wanted: value, reached, isMet: off <= near * value || off * perUnit <= near };
    }),
    remarks: made.remarks,
  };
}

const rounding = 1e-9;
const near = 0.05;

/** A source water by what it states. Outside where its calcium alone is more than its hardness. */
function partsOf({ name, content }: Water): WaterParts | Outside {
  const stated: { -readonly [Key in keyof Stated]: Stated[Key] } = {};
  for (const [word] of aims) {
    const value = content.get(parameterOf(word).id);
    if (value !== undefined) stated[word] = word === "GH" || word === "KH" ? value / MEQ_PER_DEGREE : value;
  }
  const celsius = content.get(temperature.id);
  if (celsius !== undefined) stated.temperature = celsius;
  const known = waterOf(name, stated);
  return isOutside(known) ? known : known.water;
}

/** The temperature of a water: stated, or that of what it is made of, mixed by volume; NaN where it is not known. */
export function temperatureOf(book: Book, water: Water, above: readonly Water[] = []): number {
  const stated = water.content.get(temperature.id);
  if (stated !== undefined) return stated;
  const made = above.includes(water) ? undefined : madeOf(book, water);
  if (made === undefined || isOutside(made)) return Number.NaN;
  return made.parts.reduce(
    (sum, part) => sum + part.share * temperatureOf(book, part.water, [...above, water]),
    0,
  );
}
