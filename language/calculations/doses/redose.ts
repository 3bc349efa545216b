import { afterChange } from "../../science/dilution.ts";
import { productMg, redoseMg } from "../../science/dosing.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import {
  activeInput,
  doseEntry,
  MASS_IN_WATER,
  MEDICINE,
  remedyInput,
  remedyProblem,
  volumeInput,
} from "./shared.ts";

export const redose = calculation({
  name: "redose",
  title: "Dose after a change of water",
  group: "doses",
  answers: "What a change of water took away of what is dosed, and how much puts back that and no more.",
  inputs: {
    dose: quantity("concentration to hold", "mg/L", [0, 1e6]),
    change: quantity("changed", "%", [0, 100], { from: "change" }),
    volume: volumeInput,
    active: activeInput,
    remedy: remedyInput,
  },
  formula: ["weight = dose × change × volume / active part", "left = dose × (1 - change)"],
  range: "one change of water, well mixed, the dose standing before it, none of it in the new water",
  sources: ["mass balance: arithmetic", MASS_IN_WATER],
  caution: `${MEDICINE} A whole dose after a part change piles up: only what left is put back.`,
  examples: [
    {
      given: "dose=2 mg/L change=25 % volume=100 L",
      gives: { weight: "50 mg", left: "1.5 mg/L" },
      from: "a quarter of 2 × 100 = 200 mg went out",
    },
  ],
  compute({ dose, change, volume, active, remedy }) {
    const problem = remedyProblem(remedy);
    if (problem !== undefined) return problem;
    const gone = redoseMg(dose, change / 100, volume);
    if (isOutside(gone)) return gone;
    return [
      result("left", "left after the change", "mg/L", afterChange(dose, change / 100)),
      result("gone", "active part that went out", "mg", gone),
      result("weight", "product to put back", "mg", productMg(gone, 1, active / 100)),
    ];
  },
  entry: ({ remedy }, results) => doseEntry(remedy, results, "weight"),
});
