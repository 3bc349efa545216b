import { isOutside } from "../../science/result.ts";
import { fillHeightCm } from "../../science/vessel.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { GEOMETRY, SHAPE_FORMULAS, shapeInputs, vesselOf } from "./shape.ts";

export const fillHeight = calculation({
  name: "fill-height",
  title: "How high a volume stands",
  group: "vessels",
  answers:
    "How high so many litres stand in a tank or vessel of this shape, and how far below its rim: where the mark goes.",
  inputs: { litres: quantity("water", "L", [0, 1e9]), ...shapeInputs },
  formula: [...SHAPE_FORMULAS, "the height at which that is the water, by halving"],
  range: "inside measures; up to the rim; nothing in it that displaces water",
  sources: [GEOMETRY],
  caution:
    "Water and fish go over a rim that is only just high enough, and a full glass vessel is heavy: a litre weighs a kilogram.",
  examples: [
    {
      given: "litres=59.4 L length=60 width=30 height=36",
      gives: { height: "33 cm", "below-rim": "3 cm" },
      from: "59400 / (60 × 30) = 33",
    },
    {
      given: "litres=5 L shape=cone diameter=20 height=40 cone=15",
      gives: { height: "25.9 cm" },
      from: "the cone holds π × 100 × 15 / 3 = 1571 cm3, the other 3429 stand 3429 / 314.16 = 10.9 above its 15",
    },
  ],
  compute(given) {
    const vessel = vesselOf(given);
    if (isOutside(vessel)) return vessel;
    const { fullHeightCm, litresAt } = vessel;
    const height = fillHeightCm(given.litres, fullHeightCm, litresAt);
    if (isOutside(height)) return height;
    return [
      result("height", "height of the water", "cm", height),
      result("below-rim", "below the rim", "cm", fullHeightCm - height),
      result("share", "of the full height", "%", (100 * height) / fullHeightCm),
    ];
  },
});
