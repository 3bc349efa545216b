import { isOutside } from "../../science/result.ts";
import { levelsAfter } from "../../science/sequence.ts";
import { calculation, quantity, result, words } from "../calculation.ts";
import { WELL_MIXED } from "./shared.ts";
import { STEPS_FORM, stepsSaid, stepTitle } from "./steps.ts";

export const dilution = calculation({
  name: "dilution",
  title: "Level through a row of changes, doses and days",
  group: "changes",
  answers:
    "What level there is after each step of any row of changes, flows, doses, top-ups and days, with what is made in the tank and what breaks down: what is left of a medicine, where a salt has come to.",
  inputs: {
    steps: words("what happens, in order", STEPS_FORM),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, isSingle: true, from: "volume" }),
    level: quantity("level at first", "mg/L", [0, 1e6], { otherwise: "0", alike: "mg/L NO3" }),
    source: quantity("level of the new water", "mg/L", [0, 1e6], { otherwise: "0", alike: "mg/L NO3" }),
    made: quantity("made in the tank", "mg/L/d", [0, 1e6], { otherwise: "0" }),
    "half-life": quantity("half-life in the water", "d", [0, 1e5], { optional: true, isAbove: true }),
  },
  formula: [
    "30 %: level + (source - level) × 0.3; 20 L the same of the volume",
    "50 L flow: level + (source - level) × (1 - exp(-50 L / volume))",
    "dose 2 mg/L: level + 2; dose 100 mg: level + 100 / volume",
    "top-up 4 L, for what evaporated: level + source × 4 L / volume; with 0 mg/L says what that water holds",
    "7 d: what is made, and what breaks down by its half-life",
  ],
  range:
    "well mixed, the tank full after every step; decay of the first order; what carbon and plants take is not reckoned",
  sources: [WELL_MIXED, "first-order decay by its half-life: definition"],
  caution:
    "What is left by this is not what is there: a filter, light and plants take some, and a wrong volume is a wrong level. Test where there is a test; a medicine has its label.",
  examples: [
    {
      given: "steps=dose 2 mg/L, 7 d, 30 %, 50 L flow, top-up 4 L with 0 mg/L volume=100 L half-life=7 d",
      gives: { "after-1": "2 mg/L", "after-2": "1 mg/L", "after-3": "0.7 mg/L", "after-5": "0.425 mg/L" },
      from: "one half-life leaves half, the change 70 % of it, half the volume run through exp(-0.5) = 60.7 % of that; pure water for what evaporated adds nothing",
    },
    {
      given: "steps=30 %, 30 %, 30 % volume=100 L level=80 source=10",
      gives: { "after-3": "34 mg/L" },
      from: "10 + 70 × 0.7^3 = 34.01, as of three equal changes",
    },
  ],
  compute(given) {
    const { level, source, made, volume } = given;
    const said = stepsSaid("steps", given.steps, {
      sourceMgL: source,
      madeMgLPerDay: made,
      halfLifeDays: given["half-life"],
      volumeL: volume,
    });
    if (isOutside(said)) return said;
    const levels = levelsAfter(
      level,
      volume,
      said.map(({ step }) => step),
    );
    if (isOutside(levels)) return levels;
    return said.map(({ text }, at) => result(`after-${at + 1}`, stepTitle(at, text), "mg/L", levels[at]!));
  },
});
