/** What a keeper wants of a water, each target as a linear measure so that waters and salts add up in it. */
import { notPositive } from "./given.ts";
import { hardnessMeqL } from "./hardness.ts";
import { beyond, type Figure, isOutside, type Outside, outside } from "./result.ts";
import { MASS_TO_MOLE, PARTS, type Part, perMeq, saltParts, type Water, waterFigures } from "./water.ts";

/** What can be wanted: a part of the water, its hardness, the ratio of calcium to magnesium, its temperature. */
export type Target =
  | Part
  | "hardnessMeqL"
  | "calciumToMagnesiumByMass"
  | "calciumToMagnesiumByMole"
  | "temperatureC";

export interface Attained {
  readonly target: Target;
  readonly wanted: number;
  readonly reached: Figure;
  /** Wanted less reached, in the target's unit; 0 when it is met. */
  readonly missing: Figure;
  /** Why it is not met. */
  readonly because?: string;
}

/** What counts as met: a millionth of a meq/L, or of what is wanted. */
const MET = 1e-6;

/** A reason why something cannot be wanted of these waters. */
export function targetProblem(target: Target, wanted: number, waters: readonly Water[]): Outside | undefined {
  if (target === "temperatureC") {
    if (waters.some((water) => water.temperatureC === undefined))
      return outside("not every water's temperature is known");
    return beyond("temperature", wanted, 0, 100, "C");
  }
  if (target.startsWith("calciumTo")) return notPositive(titleOf(target), wanted);
  return wanted >= 0 && wanted < Infinity
    ? undefined
    : outside(`${titleOf(target)} ${wanted} cannot be wanted`);
}

/** A target as a linear measure of a water, or of a mg/L of salt: meq/L, or degrees of temperature. */
export function measure(target: Target, wanted: number, water: Water): number {
  const { calciumMgL = 0, magnesiumMgL = 0 } = water;
  switch (target) {
    case "temperatureC":
      return water.temperatureC ?? 0;
    case "hardnessMeqL":
      return hardnessMeqL(calciumMgL, magnesiumMgL);
    case "calciumToMagnesiumByMass":
    case "calciumToMagnesiumByMole": {
      const moles = target === "calciumToMagnesiumByMole" ? wanted : wanted * MASS_TO_MOLE;
      return (hardnessMeqL(calciumMgL, 0) - moles * hardnessMeqL(0, magnesiumMgL)) / (1 + moles);
    }
    default:
      return (water[target] ?? 0) / perMeq(target);
  }
}

/** What the measure is to be. */
export function aim(target: Target, wanted: number): number {
  if (target.startsWith("calciumTo")) return 0;
  return target === "temperatureC" || target === "hardnessMeqL" ? wanted : wanted / perMeq(target as Part);
}

/** What a water made of these waters and salts gives of a target, and if it is missed, why. */
export function attained(
  target: Target,
  wanted: number,
  water: Water,
  { waters, salts }: { readonly waters: readonly Water[]; readonly salts: readonly string[] },
): Attained {
  const reached = reachedBy(target, water);
  const off = measure(target, wanted, water) - aim(target, wanted);
  if (!isOutside(reached) && Math.abs(off) <= MET * Math.max(1, Math.abs(aim(target, wanted)))) {
    return { target, wanted, reached, missing: 0 };
  }
  if (isOutside(reached)) return { target, wanted, reached, missing: reached, because: reached.outside };
  const missing = wanted - reached;
  const held = waters.map((one) => measure(target, wanted, one) - aim(target, wanted));
  const adds = salts.map((formula) => measure(target, wanted, saltParts(formula) as Water));
  const name = titleOf(target);
  let because = `${name} cannot be met together with the other targets`;
  if (off > 0 && held.every((value) => value > 0) && adds.every((value) => value >= 0)) {
    because = `${name} stands above the target in every water already, and salts only add`;
  } else if (off < 0 && held.every((value) => value < 0) && adds.every((value) => value <= 0)) {
    because = `no salt of the list raises ${name} and no water holds enough`;
  }
  return { target, wanted, reached, missing, because };
}

function titleOf(target: Target): string {
  if (target in PARTS) return PARTS[target as Part].name;
  if (target === "hardnessMeqL") return "hardness";
  return target === "temperatureC" ? "temperature" : "the ratio of calcium to magnesium";
}

function reachedBy(target: Target, water: Water): Figure {
  if (target === "temperatureC")
    return water.temperatureC ?? outside("not every water's temperature is known");
  if (target in PARTS) return water[target as Part] ?? 0;
  const figures = waterFigures(water);
  return isOutside(figures) ? figures : figures[target as "hardnessMeqL"];
}
