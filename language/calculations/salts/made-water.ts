import { formatNumber } from "../../quantity/format.ts";
import { MEQ_PER_DEGREE } from "../../science/hardness.ts";
import { type Recipe, recipe } from "../../science/recipe.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import type { Attained, Target } from "../../science/target.ts";
import { saltParts, type Water } from "../../science/water.ts";
import { type Result, result } from "../calculation.ts";
import { saltsNamed } from "./salt-named.ts";
import { type Known, PART_NAMES, partOf, type StatedName, UNIT_OF, wantedSaid } from "./stated.ts";

/** A wanted water made of waters and salts, as results. */

export interface Wish {
  readonly waters: readonly Known[];
  readonly salts: string;
  readonly wanted: string;
  readonly volumeL: number;
}

/** What is known only where the hardness of each water is known by its two metals. */
const NEEDS_SPLIT: ReadonlySet<string> = new Set(["calcium", "magnesium", "Ca:Mg"]);

/** What it takes and what comes out. @param sharesOf the results of the waters, where there are several */
export function madeWater(
  wish: Wish,
  sharesOf: (made: Recipe) => readonly Result[],
): readonly Result[] | Outside {
  const wishes = wantedSaid("wanted", wish.wanted);
  if (isOutside(wishes)) return wishes;
  const salts = saltsNamed("salts", wish.salts);
  if (isOutside(salts)) return salts;
  const isSplit = wish.waters.every((each) => each.isSplit);
  const unsplit = [...wishes.keys()].find((name) => NEEDS_SPLIT.has(name) && !isSplit);
  if (unsplit !== undefined)
    return outside(
      `wanted: for ${unsplit} each water has to state its calcium and magnesium, not its GH alone`,
    );
  const made = recipe({
    waters: wish.waters.map(({ water }) => water),
    salts,
    targets: Object.fromEntries([...wishes.values()].map(({ target, value }) => [target, value])),
    volumeL: wish.volumeL,
  });
  if (isOutside(made)) return made;
  const nameOf = new Map([...wishes].map(([name, { target }]) => [target, name]));
  return [
    ...sharesOf(made),
    ...made.salts.map(({ formula, grams }) => result(formula, `${formula} to weigh`, "g", grams)),
    ...comesOut(made, wish.waters, salts),
    result("missed", "not reached", "", missedOf(made.targets, nameOf)),
    ...made.remarks.map((remark, at) => result(`remark-${at + 1}`, "mind", "", remark)),
  ];
}

/** The water, by what its waters state and its salts bring: of nothing else can it be said that it holds none. */
function comesOut({ water, figures }: Recipe, waters: readonly Known[], salts: readonly string[]): Result[] {
  const isSplit = waters.every((each) => each.isSplit);
  const held = [...waters.map((each) => each.water), ...salts.map((salt) => saltParts(salt) as Water)];
  const shown = SHOWN.filter(
    (name) => (isSplit || !NEEDS_SPLIT.has(name)) && held.some((each) => states(each, name)),
  );
  const results = shown.map((name) => {
    if (name === "GH") return result("GH", "general hardness that comes out", "dGH", figures.hardnessDGH);
    if (name === "KH") return result("KH", "alkalinity that comes out", "dKH", figures.alkalinityDKH);
    return result(name, name, UNIT_OF[name], water[partOf(name)] ?? 0);
  });
  const { calciumToMagnesiumByMass: ratio } = figures;
  if (!isSplit)
    results.push(
      result("Ca:Mg", "calcium, magnesium", "", "not known apart: a water states its hardness only"),
    );
  else if (shown.includes("GH"))
    results.push(result("Ca:Mg", "calcium to 1 of magnesium, by weight", "", ratio));
  if (water.temperatureC !== undefined)
    results.push(result("temperature", "temperature", "C", water.temperatureC));
  const zero = shown.filter((name) => waters.some((each) => !states(each.water, name)));
  if (zero.length > 0)
    results.push(result("counted-0", "not stated of a water, counted as 0", "", zero.join(", ")));
  return results;
}

const SHOWN = ["GH", "KH", ...PART_NAMES] as const;

function states(water: Water, name: (typeof SHOWN)[number]): boolean {
  if (name === "GH") return water.calciumMgL !== undefined || water.magnesiumMgL !== undefined;
  return water[name === "KH" ? "alkalinityMeqL" : partOf(name)] !== undefined;
}

function missedOf(targets: readonly Attained[], nameOf: ReadonlyMap<Target, StatedName | "Ca:Mg">): string {
  const missed = targets.filter(({ because }) => because !== undefined);
  if (missed.length === 0) return "nothing: all that is wanted is met";
  return missed
    .map(({ target, wanted, reached, because }) => {
      const name = nameOf.get(target)!;
      const unit = UNIT_OF[name] === "" ? "" : ` ${UNIT_OF[name]}`;
      const perUnit = name === "GH" || name === "KH" ? MEQ_PER_DEGREE : 1;
      if (isOutside(reached)) return `${name}: ${because}`;
      return `${name} comes to ${formatNumber(reached / perUnit)} and not ${formatNumber(wanted / perUnit)}${unit}: ${because}`;
    })
    .join("; ");
}
