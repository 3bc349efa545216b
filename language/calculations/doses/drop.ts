import { type Drop, dropByMark, dropByMass } from "../../science/drop.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { MEDICINE } from "./shared.ts";

const inputs = {
  drops: quantity("drops counted", "", [1, 100_000]),
  mark: quantity("until this mark was reached", "mL", [0, 1000], { optional: true, isAbove: true }),
  mass: quantity("or what they weigh", "g", [0, 1000], { optional: true, isAbove: true }),
  step: quantity("step of the scale", "g", [0, 100], { otherwise: "0.01 g" }),
  density: quantity("density of the liquid", "g/L", [500, 2000], { otherwise: "998 g/L" }),
};

export const drop = calculation({
  name: "drop",
  title: "The size of a drop",
  group: "doses",
  answers:
    "How much one drop of a dropper is, by counting drops up to a mark or by weighing them, with what the counting or the scale leaves open.",
  inputs,
  formula: [
    "to a mark: mark / (drops - 1/2), between mark / drops and mark / (drops - 1)",
    "weighed: mass / density / drops, the mass within half a step of the scale",
  ],
  range: "drops of one size, from the dropper and the liquid that will be used, held the same way",
  sources: [
    "arithmetic of counting and of a scale's step",
    "998 g/L: pure water at 20 C, 998.2 by UNESCO 44 (Fofonoff & Millard 1983)",
  ],
  caution: `${MEDICINE} Drops differ with the liquid, its warmth and the tilt of the dropper: for a strong remedy use a syringe.`,
  examples: [
    {
      given: "drops=40 mark=2 mL",
      gives: { drop: "0.0506 mL", least: "0.05 mL", most: "0.0513 mL", "each-mL": "19.8" },
      from: "2 / 39.5 = 0.0506; the mark was passed by the 40th drop: 2 / 40 to 2 / 39",
    },
    {
      given: "drops=50 mass=2.45 g step=0.1 g density=1000",
      gives: { drop: "0.049 mL", least: "0.048 mL", most: "0.05 mL" },
      from: "2.45 / 50 = 0.049; the scale leaves 2.40 to 2.50 g open",
    },
  ],
  compute(given) {
    const one = measured(given);
    if (isOutside(one)) return one;
    return [
      result("drop", "one drop", "mL", one.mL),
      result("least", "at least", "mL", one.leastML),
      result("most", "at most", "mL", one.mostML),
      result("each-mL", "drops in 1 mL", "", 1 / one.mL),
    ];
  },
});

function measured(given: Given<typeof inputs>): Drop | Outside {
  const { drops, step, density } = given;
  const leads = oneOf(given, ["mark", "mass"]);
  if (isOutside(leads)) return leads;
  if (leads === "mark") return dropByMark(drops, given.mark!);
  if (given.mass! < step)
    return outside(`mass ${given.mass} g is less than one step of the scale: weigh more drops`);
  return dropByMass(drops, given.mass!, step, density / 1000);
}
