import { rationKg, weightG } from "../../science/feeding.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";

const inputs = {
  count: quantity("fish", "", [1, 1e9], { isWhole: true }),
  weight: quantity("weight of one", "g", [0, 1e6], { optional: true, isAbove: true }),
  length: quantity("or length of one, with a", "mm", [0, 1e4], { optional: true, isAbove: true }),
  a: quantity("a of the weight by length, for g and mm", "", [0, 1], { optional: true, isAbove: true }),
  b: quantity("b of it", "", [2, 4], { otherwise: "3" }),
  percent: quantity("food a day, of body weight", "%", [0, 300]),
  portions: quantity("portions a day", "", [1, 100], { otherwise: "1", isWhole: true }),
};

export const ration = calculation({
  name: "ration",
  title: "A day's food by body weight",
  group: "animals",
  answers:
    "How much a group of fish is fed a day at a percentage of its body weight, and how much a portion is; the weight weighed, or reckoned from the length.",
  inputs,
  formula: [
    "weight of one = a × length^b, g and mm; an a for cm is divided by 10^b first",
    "food a day = count × weight × percent; a portion = that / portions",
  ],
  range: "b of 2 to 4; a and b of the kind of fish that it is; food as weighed, 0 to 300 % a day",
  sources: [
    "weight by length: Le Cren 1951, J. Anim. Ecol. 20:201-219",
    "0.5 to 10 % a day in hatcheries: Piper and others 1982, Fish Hatchery Management, p. 210",
  ],
  caution:
    "What is not eaten in minutes is too much, whatever is reckoned. Dry food holds about 8 % of water and frozen 88 % (recalled): the same weight is not the same food.",
  examples: [
    {
      given: "count=30 length=40 mm a=0.000015 percent=2 % portions=2",
      gives: { weight: "0.96 g", biomass: "28.8 g", "a-day": "0.576 g", portion: "0.288 g" },
      from: "0.000015 × 40^3 = 0.96 g each, 28.8 g in all, 2 % of it 0.576 g",
    },
    {
      given: "count=1000 weight=4 kg percent=1.5 %",
      gives: { "a-day": "60000 g" },
      from: "4000 kg at 1.5 % a day are 60 kg: an example of the Global Seafood Advocate on flows of recirculating farms, as published",
    },
  ],
  compute(given) {
    const { count, percent, portions } = given;
    const each = eachG(given);
    if (isOutside(each)) return each;
    // In kg of kg, or in g of g.
    const food = rationKg(count * each, percent);
    return [
      result("weight", "weight of one", "g", each),
      result("biomass", "weight of all", "g", count * each),
      result("a-day", "food a day", "g", food),
      result("portion", "a portion", "g", food / portions),
      result("of-one", "a day for one fish", "mg", (food / count) * 1000),
    ];
  },
});

function eachG(given: Given<typeof inputs>): Figure {
  const leads = oneOf(given, ["weight", "length"]);
  if (isOutside(leads)) return leads;
  if (leads === "weight") return given.weight!;
  if (given.a === undefined) return outside("a length needs the a of this kind of fish beside it");
  return weightG(given.length!, given.a, given.b);
}
