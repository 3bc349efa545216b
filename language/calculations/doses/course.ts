import { afterEndlessRepeats, afterRepeats, shareLeftAtRepeat } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { MEDICINE } from "./shared.ts";

export const course = calculation({
  name: "course",
  title: "Repeated doses",
  group: "doses",
  answers:
    "How high equal doses pile up, one every so many days, with a change of water before each repeat and what breaks down in between: just after the last dose, before it, and where they would level off.",
  inputs: {
    dose: quantity("concentration that one dose adds", "mg/L", [0, 1e6]),
    every: quantity("from one dose to the next", "d", [0, 3650], { isAbove: true }),
    doses: quantity("doses in all, whole ones counted", "", [1, 1000]),
    "half-life": quantity("half-life in the water", "d", [0, 1e5], { optional: true, isAbove: true }),
    change: quantity("changed before each repeat", "%", [0, 100], { otherwise: "0 %" }),
  },
  formula: [
    "left of a dose at the next, r = (1 - change) × 2^(-every / half-life); without a half-life 1 - change",
    "after the last = dose × (1 - r^n) / (1 - r); for r = 1 dose × n",
    "before the last = what was after the one before × r; levels off at dose / (1 - r)",
  ],
  range:
    "equal doses and equal times, well mixed; first-order decay where a half-life is given; what carbon, UV or ozone take is not reckoned",
  sources: ["a geometric series: arithmetic", "first-order decay by its half-life: definition"],
  caution: MEDICINE,
  examples: [
    {
      given: "dose=2 mg/L every=7 d doses=3 half-life=3.5 d change=50 %",
      gives: { "left-of-dose": "12.5 %", peak: "2.28 mg/L", trough: "0.281 mg/L", "levels-off": "2.29 mg/L" },
      from: "two half-lives leave a quarter, the change half of that: 12.5 %; 2 × (1 + 0.125 + 0.0156) = 2.281; (2 + 0.25) × 0.125 = 0.281; 2 / 0.875 = 2.286",
    },
  ],
  compute({ dose, every, doses, "half-life": halfLife, change }) {
    const left = shareLeftAtRepeat(every, halfLife ?? Number.POSITIVE_INFINITY, change / 100);
    if (isOutside(left)) return left;
    const count = Math.floor(doses);
    return [
      result("left-of-dose", "left of a dose at the next", "%", left * 100),
      result("peak", "just after the last dose", "mg/L", afterRepeats(dose, count, left)),
      result(
        "trough",
        "just before it, after the change",
        "mg/L",
        map(afterRepeats(dose, count - 1, left), (level) => level * left),
      ),
      result("levels-off", "repeats without end come to", "mg/L", afterEndlessRepeats(dose, left)),
    ];
  },
});
