import { conditionEnglish } from "../../science/feeding.ts";
import { conditionFactor, foodConversion, growthPercentPerDay, weightAfterG } from "../../science/growth.ts";
import { type Figure, isOutside, map, type Outside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, type Result, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";

const weight = [0, 1e6] as const;
const inputs = {
  from: quantity("weight at first, of one or of all", "g", weight, { isAbove: true, optional: true }),
  to: quantity("weight at the end", "g", weight, { isAbove: true, optional: true }),
  rate: quantity("or growth a day, to know the weight at the end", "%", [-50, 100], { optional: true }),
  days: quantity("time between", "d", [0, 36_500], { isAbove: true, optional: true }),
  food: quantity("food given in that time, as weighed", "g", [0, 1e9], { optional: true }),
  weight: quantity("weight of one fish, for its condition", "g", weight, { isAbove: true, optional: true }),
  length: quantity("its length", "mm", [0, 1e5], { isAbove: true, optional: true }),
};

export const growth = calculation({
  name: "growth",
  title: "Growth, food conversion, condition",
  group: "animals",
  answers:
    "How fast fish have grown between two weighings, what they weigh after so many days at a rate, how much food a gram of growth took, and how well filled a fish of a weight and a length is.",
  inputs,
  formula: [
    "growth = 100 × ln(to / from) / days; to = from × exp(growth / 100 × days)",
    "food conversion = food / (to - from)",
    "condition = 100 × weight in g / (length in cm)^3; in lb and inches 36.13 × weight in g / (length in mm)^3",
  ],
  range:
    "weights taken alike, wet or dabbed; a group with the same fish in it; the same way of measuring a length",
  sources: [
    "growth: Ricker 1975, Computation and Interpretation of Biological Statistics of Fish Populations, recalled",
    "condition: Fulton 1904, recalled; in lb and inches: Piper and others 1982, Fish Hatchery Management, p. 61",
    "food conversion: definition",
  ],
  caution:
    "Weighing is handling: net wet, be quick, weigh in water. Deaths between two weighings of a group look like slow growth.",
  examples: [
    {
      given: "from=0.2 g to=0.4 g days=10 d food=0.25 g",
      gives: { growth: "6.93 %", doubles: "10 d", conversion: "1.25" },
      from: "100 × ln 2 / 10 = 6.93; 0.25 of food for 0.2 of growth",
    },
    {
      given: "weight=8.076 g length=100 mm",
      gives: { condition: "0.808", "condition-english": "0.000292" },
      from: "Piper and others 1982, p. 61: channel catfish 80.76e-7 in g and mm are 2918e-7 in lb and inches",
    },
  ],
  compute(given) {
    const grown = grew(given);
    if (isOutside(grown)) return grown;
    const filled = condition(given);
    if (isOutside(filled)) return filled;
    const results = [...grown, ...filled];
    return results.length > 0
      ? results
      : outside("from, to and days are needed for the growth, weight and length for the condition");
  },
});

function grew(given: Given<typeof inputs>): readonly Result[] | Outside {
  const { from, days, food } = given;
  if (from === undefined && days === undefined && given.to === undefined && given.rate === undefined)
    return food === undefined ? [] : outside("food needs from, to and days beside it");
  if (from === undefined || days === undefined) return outside("growth needs from and days, and to or rate");
  const leads = oneOf(given, ["to", "rate"]);
  if (isOutside(leads)) return leads;
  const to: Figure = leads === "to" ? given.to! : weightAfterG(from, given.rate!, days);
  const rate = leads === "rate" ? given.rate! : growthPercentPerDay(from, given.to!, days);
  if (isOutside(to)) return to;
  if (isOutside(rate)) return rate;
  return [
    ...(leads === "to"
      ? [result("growth", "growth a day", "%", rate)]
      : [result("to", "weight then", "g", to)]),
    result("gain", "weight gained", "g", to - from),
    result("doubles", "doubles in", "d", rate > 0 ? (100 * Math.LN2) / rate : outside("it does not grow")),
    ...(food === undefined
      ? []
      : [result("conversion", "food for each part gained", "", foodConversion(food, to - from))]),
  ];
}

function condition({ weight: massG, length }: Given<typeof inputs>): readonly Result[] | Outside {
  if (massG === undefined && length === undefined) return [];
  if (massG === undefined || length === undefined) return outside("a condition needs weight and length");
  const factor = conditionFactor(massG, length);
  return [
    result("condition", "condition factor", "", factor),
    result(
      "condition-english",
      "the same in lb and inches",
      "",
      map(factor, (each) => conditionEnglish(each / 1e5)),
    ),
  ];
}
