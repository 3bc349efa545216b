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
    ...zeroOf(made, nameOf),
    ...made.remarks.map((remark, at) => result(`remark-${at + 1}`, "mind", "", remark)),
  ];
}

/** The water, by what its waters state and its salts bring: of nothing else can it be said that it holds none. */
function comesOut({ water, figures }: Recipe, waters: readonly Known[], salts: readonly string[]): Result[] {
  const isSplit = waters.every((each) => each.isSplit);
  const held = [...waters.map((each) => each.water), ...salts.map((salt) => saltParts(salt) as Water)];
  const parts = PART_NAMES.filter(
    (name) => (isSplit || !NEEDS_SPLIT.has(name)) && held.some((each) => each[partOf(name)] !== undefined),
  );
  return [
    result("GH", "general hardness that comes out", "dGH", figures.hardnessDGH),
    result("KH", "alkalinity", "dKH", figures.alkalinityDKH),
    isSplit
      ? result("Ca:Mg", "calcium to 1 of magnesium, by weight", "", figures.calciumToMagnesiumByMass)
      : result("Ca:Mg", "calcium, magnesium", "", "not known apart: a water states its hardness only"),
    ...parts.map((name) => result(name, name, UNIT_OF[name], water[partOf(name)] ?? 0)),
    ...(water.temperatureC === undefined
      ? []
      : [result("temperature", "temperature", "C", water.temperatureC)]),
  ];
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

/** What is wanted and was counted as 0, as some water does not state it. */
function zeroOf(made: Recipe, nameOf: ReadonlyMap<Target, StatedName | "Ca:Mg">): Result[] {
  const names = made.takenAsZero.flatMap((part) => nameOf.get(part) ?? []);
  if (
    nameOf.has("hardnessMeqL") &&
    made.takenAsZero.includes("calciumMgL") &&
    made.takenAsZero.includes("magnesiumMgL")
  )
    names.push("GH");
  return names.length === 0
    ? []
    : [result("counted-0", "not stated of a water, counted as 0", "", names.join(", "))];
}
