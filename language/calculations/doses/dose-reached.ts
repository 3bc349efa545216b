import { concentrationFromStockMgL, concentrationMgL } from "../../science/dosing.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { activeInput, MASS_IN_WATER, MEDICINE, MOST_G_PER_L, volumeInput } from "./shared.ts";

const inputs = {
  volume: volumeInput,
  weight: quantity("product weighed", "mg", [0, 1e12], { optional: true }),
  liquid: quantity("or liquid measured", "mL", [0, 1e9], { optional: true }),
  drops: quantity("or drops counted", "", [0, 1e6], { optional: true }),
  active: activeInput,
  strength: quantity("strength of the liquid", "g/L", [0, MOST_G_PER_L], { optional: true, isAbove: true }),
  drop: quantity("one drop of it", "mL", [0, 1], { optional: true, isAbove: true }),
  target: quantity("concentration that was wanted", "mg/L", [0, 1e6], { optional: true, isAbove: true }),
};

export const doseReached = calculation({
  name: "dose-reached",
  title: "The concentration that a dose makes",
  group: "doses",
  answers:
    "What concentration an amount that was given makes in a volume: by weight, in mL of a liquid or in drops; and what part of a wanted one that is.",
  inputs,
  formula: ["mg/L = weight × active part / volume", "mg/L = mL × strength / volume, mL = drops × one drop"],
  range: "well mixed, nothing of it there before, the volume of the dose itself small",
  sources: [MASS_IN_WATER],
  caution: MEDICINE,
  examples: [
    {
      given: "volume=63 L weight=126 mg target=2 mg/L",
      gives: { concentration: "2 mg/L", "of-target": "100 %" },
      from: "126 mg / 63 L = 2 mg/L",
    },
    {
      given: "volume=60 L drops=40 drop=0.05 mL strength=10 mg/mL",
      gives: { concentration: "0.333 mg/L" },
      from: "40 × 0.05 = 2 mL, of 10 mg/mL 20 mg; 20 / 60 = 0.333",
    },
  ],
  compute(given) {
    const reached = reachedBy(given);
    if (isOutside(reached)) return reached;
    const { target } = given;
    return [
      result("concentration", "concentration it makes", "mg/L", reached),
      ...(target === undefined
        ? []
        : [
            result(
              "of-target",
              "of the wanted one",
              "%",
              map(reached, (mgL) => (mgL / target) * 100),
            ),
          ]),
    ];
  },
});

function reachedBy(given: Given<typeof inputs>): Figure {
  const { volume, weight, liquid, drops, active, strength, drop } = given;
  const leads = oneOf(given, ["weight", "liquid", "drops"]);
  if (isOutside(leads)) return leads;
  if (leads === "weight") return concentrationMgL(weight!, volume, active / 100);
  if (strength === undefined) return outside("strength is missing: a liquid is reckoned by its mg/mL");
  if (leads === "liquid") return concentrationFromStockMgL(liquid!, volume, strength);
  if (drop === undefined) return outside("drop is missing: how much one drop is, in mL");
  return concentrationFromStockMgL(drops! * drop, volume, strength);
}
