/** The size of a drop, with what counting or weighing leaves open. */
import { negative, notPositive } from "./given.ts";
import { type Outside, outside } from "./result.ts";

export interface Drop {
  readonly mL: number;
  /** Least and most it can be by how it was counted. */
  readonly leastML: number;
  readonly mostML: number;
}

/**
 * One drop, by drops counted until a mark is reached: the mark lies between the last drop and the one before, so
 * that the volume is n - 1 to n drops. Arithmetic of counting; the midpoint is n - 1/2.
 */
export function dropByMark(count: number, markML: number): Drop | Outside {
  const refused = drops(count) ?? notPositive("volume", markML, "mL");
  if (refused !== undefined) return refused;
  if (count < 2) return outside("one drop to the mark leaves its size open: take a higher mark");
  return { mL: markML / (count - 0.5), leastML: markML / count, mostML: markML / (count - 1) };
}

/**
 * One drop, by drops weighed on a scale that shows steps: what is shown is within half a step.
 * @param densityGPerML of what is dropped
 */
export function dropByMass(
  count: number,
  massG: number,
  stepG: number,
  densityGPerML: number,
): Drop | Outside {
  const refused =
    drops(count) ??
    notPositive("mass", massG, "g") ??
    negative("step of the scale", stepG, "g") ??
    notPositive("density", densityGPerML, "g/mL");
  if (refused !== undefined) return refused;
  const each = (grams: number): number => grams / densityGPerML / count;
  return {
    mL: each(massG),
    leastML: each(Math.max(0, massG - stepG / 2)),
    mostML: each(massG + stepG / 2),
  };
}

function drops(count: number): Outside | undefined {
  return count >= 1 && count < Infinity ? undefined : outside(`${count} drops are not 1 or more`);
}
