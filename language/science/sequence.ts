/**
 * The level of what is dissolved after a row of events, exactly: changes, flow-through, doses, top-ups, and
 * days in which it is made and breaks down. Well mixed, the volume full after every step (`dilution.ts`).
 */
import { afterChange, afterHours, flowThroughFraction } from "./dilution.ts";
import { negative, notPositive } from "./given.ts";
import { beyond, isOutside, type Outside, outside } from "./result.ts";

export type Step =
  /** Drained, then filled: a share of the volume, or litres. */
  | { readonly kind: "change"; readonly fraction: number; readonly sourceMgL?: number }
  | { readonly kind: "change"; readonly litres: number; readonly sourceMgL?: number }
  /** Run in at the top of a full tank and out over the rim. */
  | { readonly kind: "flow"; readonly litres: number; readonly sourceMgL?: number }
  | { readonly kind: "dose"; readonly mgL: number }
  | { readonly kind: "dose"; readonly mg: number }
  /** Evaporation made good: the water is gone, what was in it stayed, the new water brings its own. */
  | { readonly kind: "topUp"; readonly litres: number; readonly sourceMgL?: number }
  /** Time, with what is made in it and the half-life of what is there; omitted: neither. */
  | {
      readonly kind: "wait";
      readonly days: number;
      readonly madeMgLPerDay?: number;
      readonly halfLifeDays?: number;
    };

/** The level after each step, one figure a step; a reason names the step that cannot be. */
export function levelsAfter(
  startMgL: number,
  volumeL: number,
  steps: readonly Step[],
): readonly number[] | Outside {
  const refused = negative("level", startMgL, "mg/L") ?? notPositive("volume", volumeL, "L");
  if (refused !== undefined) return refused;
  const levels: number[] = [];
  let level = startMgL;
  for (const [index, step] of steps.entries()) {
    const next = afterStep(level, volumeL, step);
    if (isOutside(next)) return outside(`step ${index + 1}: ${next.outside}`);
    level = next;
    levels.push(level);
  }
  return levels;
}

function afterStep(levelMgL: number, volumeL: number, step: Step): number | Outside {
  switch (step.kind) {
    case "change": {
      const fraction = "litres" in step ? step.litres / volumeL : step.fraction;
      const source = step.sourceMgL ?? 0;
      return (
        beyond("share of the water changed", fraction, 0, 1) ??
        negative("level of the new water", source, "mg/L") ??
        afterChange(levelMgL, fraction, source)
      );
    }
    case "flow": {
      const source = step.sourceMgL ?? 0;
      return (
        negative("water run through", step.litres, "L") ??
        negative("level of the new water", source, "mg/L") ??
        afterChange(levelMgL, flowThroughFraction(step.litres, volumeL), source)
      );
    }
    case "dose": {
      const mgL = "mg" in step ? step.mg / volumeL : step.mgL;
      return negative("dose", mgL, "mg/L") ?? levelMgL + mgL;
    }
    case "topUp": {
      const source = step.sourceMgL ?? 0;
      return (
        beyond("top-up", step.litres, 0, volumeL, "L") ??
        negative("level of the new water", source, "mg/L") ??
        levelMgL + (step.litres / volumeL) * source
      );
    }
    case "wait": {
      const made = step.madeMgLPerDay ?? 0;
      return (
        negative("time", step.days, "days") ??
        negative("made a day", made, "mg/L") ??
        (step.halfLifeDays === undefined ? undefined : notPositive("half-life", step.halfLifeDays, "days")) ??
        afterHours(levelMgL, step.days * 24, {
          volumeL,
          loadMgPerH: (made * volumeL) / 24,
          ...(step.halfLifeDays === undefined ? {} : { halfLifeH: step.halfLifeDays * 24 }),
        })
      );
    }
  }
}
