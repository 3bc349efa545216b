import { percent } from "../checks/words.ts";
import type { CourseStep } from "../room/course-steps.ts";

/** A step of a course as it is written when it is done: `change 50 %`, `return carbon, light`. */
export function stepWords({ is, fraction, names }: CourseStep): string {
  // What is owed must not be missed by rounding.
  if (is === "change") return `change ${percent(Math.ceil(fraction * 100 - 1e-9) / 100)}`;
  return `${is} ${names.join(", ")}`;
}

const reasons: Readonly<Record<CourseStep["is"], string>> = {
  remove: "to be out for",
  test: "the filter after",
  change: "owed after",
  return: "back after",
};

/** Why: `owed after prazi`. */
export const stepReason = ({ is, remedy }: CourseStep): string => `${reasons[is]} ${remedy.name}`;
