/**
 * Salts and source waters for a wanted water: grams of each salt, a share of each water. Salts can only add, and
 * the shares are 0 or more and together 1, so the answer is the nearest water there is, with what each target
 * gets and lacks; where the targets can all be met it meets them.
 *
 * Near is least squares over the targets, each miss in meq/L (a degree of temperature counts as 1 meq/L, a choice
 * of this house). A ratio counts by the meq/L of calcium that are too many or too few at the hardness reached.
 * Conductivity is no target: it does not add up (`water.ts`).
 */
import { mixed } from "./blend.ts";
import { notPositive } from "./given.ts";
import { nonNegativeLeastSquares } from "./nnls.ts";
import { isOutside, type Outside, outside } from "./result.ts";
import { dissolving } from "./solubility.ts";
import { type Attained, aim, attained, measure, type Target, targetProblem } from "./target.ts";
import {
  type Part,
  saltParts,
  unstated,
  type Water,
  type WaterFigures,
  waterFigures,
  waterProblem,
  withSalts,
} from "./water.ts";

export interface Task {
  /** One, or several to be blended. */
  readonly waters: readonly Water[];
  /** Formulas with their water of crystallisation; none for a blend alone. */
  readonly salts: readonly string[];
  readonly targets: Readonly<Partial<Record<Target, number>>>;
  readonly volumeL: number;
  /** Of the room, for what a carbonate dissolves to; 420 is about that outdoors. */
  readonly co2InAirPpm?: number;
}

export interface Recipe {
  readonly waters: readonly { readonly fraction: number; readonly litres: number }[];
  readonly salts: readonly { readonly formula: string; readonly mgL: number; readonly grams: number }[];
  readonly targets: readonly Attained[];
  /** The water that comes out, all of it. */
  readonly water: Water;
  readonly figures: WaterFigures;
  /** Parts that some water used did not state, taken as 0. */
  readonly takenAsZero: readonly Part[];
  /** What dissolves slowly or not wholly. */
  readonly remarks: readonly string[];
}

/** The recipe that comes nearest to the targets. */
export function recipe(task: Task): Recipe | Outside {
  const problem = taskProblem(task);
  if (problem !== undefined) return problem;
  const { waters, salts, targets, volumeL } = task;
  const wishes = Object.entries(targets) as [Target, number][];

  // With shares f that sum to 1, |Af + Sx - t| is |Bf + Sx| for B = A - t. Non-negative least squares of [B S; 1 0]
  // to [0; 1] gives f and x up to one factor, for scaling a point at distance d by s leaves s^2 d^2 + (1 - s)^2,
  // whose least is d^2/(1 + d^2): the nearer point wins (Lawson & Hanson 1974, chapter 23, on least distance).
  const rows = wishes.map(([target, wanted]) => [
    ...waters.map((water) => measure(target, wanted, water) - aim(target, wanted)),
    ...salts.map((formula) => measure(target, wanted, saltParts(formula) as Water)),
  ]);
  // One factor over all of these rows changes no answer; it keeps waters that differ by little from being lost
  // beside the row of ones.
  const largest = Math.max(...rows.flat().map(Math.abs)) || 1;
  const sized = rows.map((row) => row.map((value) => value / largest));
  const whole = [...waters.map(() => 1), ...salts.map(() => 0)];
  const fit = nonNegativeLeastSquares([...sized, whole], [...wishes.map(() => 0), 1]);
  if (isOutside(fit)) return fit;
  const scale = fit.solution.slice(0, waters.length).reduce((sum, share) => sum + share, 0);
  const fractions = fit.solution.slice(0, waters.length).map((share) => share / scale);
  // What rounding alone leaves of a salt is nothing that can be weighed.
  const mgL = fit.solution.slice(waters.length).map((x) => (x / scale < 1e-9 ? 0 : x / scale));

  const base = mixed(waters, fractions);
  if (isOutside(base)) return base;
  const grams: Record<string, number> = {};
  for (const [i, formula] of salts.entries()) grams[formula] = (mgL[i]! * volumeL) / 1000;
  const water = withSalts(base, grams, volumeL);
  if (isOutside(water)) return water;
  const figures = waterFigures(water);
  if (isOutside(figures)) return figures;
  const used = salts.filter((_, i) => mgL[i]! > 0);
  const remarks = dissolving(used, water, task.co2InAirPpm ?? 420);
  if (isOutside(remarks)) return remarks;
  return {
    waters: fractions.map((fraction) => ({ fraction, litres: fraction * volumeL })),
    salts: salts.map((formula, i) => ({ formula, mgL: mgL[i]!, grams: grams[formula]! })),
    targets: wishes.map(([target, wanted]) => attained(target, wanted, water, task)),
    water,
    figures,
    takenAsZero: [...new Set(waters.flatMap((one, i) => (fractions[i]! > 0 ? unstated(one) : [])))],
    remarks,
  };
}

function taskProblem({ waters, salts, targets, volumeL }: Task): Outside | undefined {
  if (waters.length === 0) return outside("there is no water to begin with");
  const wishes = Object.entries(targets) as [Target, number][];
  if (wishes.length === 0) return outside("there is no target");
  if (new Set(salts).size !== salts.length) return outside("a salt stands in the list twice");
  const known = salts.map(saltParts).find(isOutside);
  const bad = wishes.map(([target, wanted]) => targetProblem(target, wanted, waters));
  return (
    notPositive("volume", volumeL, "L") ??
    waters.map(waterProblem).find((found) => found !== undefined) ??
    known ??
    bad.find((found) => found !== undefined)
  );
}
