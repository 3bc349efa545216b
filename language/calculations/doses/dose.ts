import { productMg, stockML } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";
import {
  activeInput,
  doseEntry,
  MASS_IN_WATER,
  MEDICINE,
  MOST_G_PER_L,
  remedyInput,
  remedyProblem,
  volumeInput,
} from "./shared.ts";

export const dose = calculation({
  name: "dose",
  title: "A dose for a concentration",
  group: "doses",
  answers:
    "How much of a product makes a wanted concentration in a volume: by weight with its active part, or of a liquid by its strength in mL and in drops.",
  inputs: {
    target: quantity("concentration wanted", "mg/L", [0, 1e6]),
    volume: volumeInput,
    active: activeInput,
    strength: quantity("strength of a liquid", "g/L", [0, MOST_G_PER_L], { optional: true, isAbove: true }),
    drop: quantity("one drop of it", "mL", [0, 1], { optional: true, isAbove: true }),
    remedy: remedyInput,
  },
  formula: [
    "weight = target × volume / active part",
    "liquid = target × volume / strength; drops = liquid / one drop",
    "strength: 1 g/L = 1 mg/mL, and 1 % weight in volume = 10 mg/mL",
  ],
  range: "well mixed, nothing of it there yet, the volume of the dose itself small; mg/L of the active part",
  sources: [MASS_IN_WATER, "dilution: C1 V1 = C2 V2, by definition"],
  caution: MEDICINE,
  examples: [
    {
      given: "target=0.5 mg/L volume=250 L active=25 %",
      gives: { weight: "500 mg" },
      from: "0.5 × 250 = 125 mg of the active part, a quarter of the product: 500 mg",
    },
    {
      given: "target=2 mg/L volume=50 L strength=10 mg/mL drop=0.05 mL",
      gives: { "active-part": "100 mg", liquid: "10 mL", drops: "200" },
      from: "2 × 50 = 100 mg; a liquid of 1 % weight in volume is 10 mg/mL: 10 mL, of drops of 0.05 mL 200",
    },
  ],
  compute({ target, volume, active, strength, drop, remedy }) {
    const problem = remedyProblem(remedy);
    if (problem !== undefined) return problem;
    const needed = productMg(target, volume);
    if (isOutside(needed)) return needed;
    const results: Result[] = [result("active-part", "active part it takes", "mg", needed)];
    if (strength === undefined) {
      results.push(result("weight", "product to weigh", "mg", productMg(target, volume, active / 100)));
      return results;
    }
    const liquid = stockML(target, volume, strength);
    results.push(result("liquid", "liquid to measure", "mL", liquid));
    if (drop !== undefined)
      results.push(
        result(
          "drops",
          "in drops",
          "",
          map(liquid, (mL) => mL / drop),
        ),
      );
    return results;
  },
  entry: ({ remedy, strength }, results) =>
    doseEntry(remedy, results, strength === undefined ? "weight" : "liquid"),
});
