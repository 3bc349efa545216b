import { formatNumber } from "../../quantity/format.ts";
import { productMg, stockMassMg, stockML, strengthForMgPerML } from "../../science/dosing.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { activeInput, MASS_IN_WATER, MEDICINE, MOST_G_PER_L, volumeInput } from "./shared.ts";

const inputs = {
  target: quantity("concentration that one dose adds", "mg/L", [0, 1e6], { isAbove: true }),
  volume: volumeInput,
  made: quantity("stock to make up", "mL", [0, 1e9], { isAbove: true }),
  each: quantity("mL that one dose is to be", "mL", [0, 1e9], { optional: true, isAbove: true }),
  mass: quantity("or product that is dissolved", "g", [0, 1e9], { optional: true, isAbove: true }),
  active: activeInput,
};

export const stock = calculation({
  name: "stock",
  title: "A stock solution",
  group: "doses",
  answers:
    "How many grams dissolved and made up to a volume give a stock of which so many mL are one dose; or, of a stock already made, how many mL one dose is; and how many doses it holds.",
  inputs,
  formula: [
    "strength = target × tank volume / mL of one dose",
    "grams = strength × mL made up / active part / 1000",
    "mL of one dose = target × tank volume / strength",
  ],
  range: "dissolved in full and made up to the volume, not added to it; mg/mL of the active part",
  sources: ["dilution: C1 V1 = C2 V2, by definition", MASS_IN_WATER],
  caution: `${MEDICINE} Whether so much dissolves, keeps or goes together with another is not reckoned: a stock that stays cloudy is not of this strength. Write its name, strength and day on the bottle.`,
  examples: [
    {
      given: "target=0.5 mg/L volume=100 L made=500 mL each=5 mL",
      gives: { strength: "10 mg/mL", mass: "5 g", doses: "100" },
      from: "0.5 × 100 = 50 mg in 5 mL are 10 mg/mL, 1 % weight in volume; 500 mL hold 5 g, for 100 doses",
    },
    {
      given: "target=2 mg/L volume=50 L made=1 L mass=10 g",
      gives: { strength: "10 mg/mL", each: "10 mL", doses: "100" },
      from: "10 g in 1 L are 10 mg/mL; 2 × 50 = 100 mg are 10 mL",
    },
  ],
  compute(given) {
    const { target, volume, made, active } = given;
    const strength = strengthOf(given);
    if (isOutside(strength)) return strength;
    const held = strength / (active / 100);
    if (held > MOST_G_PER_L)
      return outside(`${formatNumber(held)} mg of product do not go into one mL: let one dose be more mL`);
    const each = stockML(target, volume, strength);
    if (isOutside(each)) return each;
    const massMg = stockMassMg(strength, made);
    const weighed = isOutside(massMg) ? massMg : productMg(massMg, 1, active / 100);
    return [
      // A g/L is a mg/mL, and that is what a syringe asks for.
      result("strength", "strength of the stock, active part", "mg/mL", strength),
      result(
        "mass",
        "product to dissolve",
        "g",
        map(weighed, (mg) => mg / 1000),
      ),
      result("each", "one dose", "mL", each),
      result("doses", "doses in it", "", made / each),
    ];
  },
});

function strengthOf(given: Given<typeof inputs>): Figure {
  const leads = oneOf(given, ["each", "mass"]);
  if (isOutside(leads)) return leads;
  if (leads === "each") return strengthForMgPerML(given.target, given.volume, given.each!);
  return (given.mass! * 1000 * (given.active / 100)) / given.made;
}
