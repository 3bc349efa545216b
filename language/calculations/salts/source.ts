import type { Outside } from "../../science/result.ts";
import { type Given, quantity } from "../calculation.ts";
import { type Known, type Stated, waterOf } from "./stated.ts";

/** The water one begins with, filled from the first water of the log. */
export const sourceInputs = {
  "source-GH": quantity("source: general hardness", "dGH", [0, 10_000], {
    optional: true,
    from: "source GH",
  }),
  "source-KH": quantity("source: alkalinity", "dKH", [0, 10_000], { optional: true, from: "source KH" }),
  "source-calcium": quantity("source: calcium", "mg/L", [0, 1e5], { optional: true, from: "source calcium" }),
  "source-magnesium": quantity("source: magnesium", "mg/L", [0, 1e5], {
    optional: true,
    from: "source magnesium",
  }),
  "source-sodium": quantity("source: sodium", "mg/L", [0, 1e5], { optional: true }),
  "source-potassium": quantity("source: potassium", "mg/L", [0, 1e5], {
    optional: true,
    from: "source potassium",
  }),
  "source-chloride": quantity("source: chloride", "mg/L", [0, 1e5], {
    optional: true,
    from: "source chloride",
  }),
  "source-sulfate": quantity("source: sulfate", "mg/L", [0, 1e5], { optional: true }),
  "source-nitrate": quantity("source: nitrate", "mg/L NO3", [0, 1e5], {
    optional: true,
    from: "source nitrate",
  }),
  "source-phosphate": quantity("source: phosphate", "mg/L PO4", [0, 1e5], {
    optional: true,
    from: "source phosphate",
  }),
  "source-temperature": quantity("source: temperature", "C", [0, 100], {
    optional: true,
    from: "source temperature",
  }),
};

export function sourceStated(given: Given<typeof sourceInputs>): Stated {
  const stated: Record<string, number> = {};
  for (const input of Object.keys(sourceInputs) as (keyof typeof sourceInputs)[]) {
    const value = given[input];
    if (value !== undefined) stated[input.slice("source-".length)] = value;
  }
  return stated;
}

export const sourceWater = (stated: Stated): Known | Outside => waterOf("source", stated);
