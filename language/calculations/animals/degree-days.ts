import { daysToDegreeDays, degreeDays as sumOf } from "../../science/development.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, type Result, result, series } from "../calculation.ts";

const inputs = {
  temperatures: series("mean temperature of each day", "C", [-5, 100], 1, { optional: true }),
  temperature: quantity("temperature that stays, from then on", "C", [-5, 100], { optional: true }),
  days: quantity("days at it already", "d", [0, 3650], { otherwise: "0 d" }),
  base: quantity("base below which nothing develops", "C", [-5, 50], { otherwise: "0" }),
  target: quantity("degree-days it takes", "", [0, 1e6], { optional: true }),
};

export const degreeDays = calculation({
  name: "degree-days",
  title: "Degree-days",
  group: "animals",
  answers:
    "How much warmth eggs or larvae have had, summed over days above a base, and in how many days they come to a published sum.",
  inputs,
  formula: [
    "sum = each day's mean less the base, a day below it 0",
    "days left = (target - sum) / (temperature - base)",
  ],
  range:
    "sums in C × d (a sum in F is 9/5 of it); a sum is of one kind and one range of temperature: it is not the same warm and cold",
  sources: [
    "the sum of daily means above a base: University of California, Statewide Integrated Pest Management Program, degree-day example; definition",
    "rainbow trout hatch near 300 to 390 degree-days above 0 C: Kwain 1975, J. Fish. Res. Board Can. 32:397-402, abstract, recalled",
  ],
  caution: "A sum says when to look, not when they hatch: look daily, and before it too.",
  examples: [
    {
      given: "temperature=15 days=26 d",
      gives: { sum: "390" },
      from: "26 days at 15 C: half of rainbow trout had hatched (Kwain 1975, recalled)",
    },
    {
      given: "temperatures=10, 12, 14 temperature=10 target=310",
      gives: { sum: "36", left: "27.4 d" },
      from: "10 + 12 + 14 = 36; the other 274 at 10 a day",
    },
  ],
  compute(given) {
    const { temperatures, temperature, days, base, target } = given;
    if (temperatures === undefined && temperature === undefined)
      return outside("temperatures, or the temperature that stays, are needed");
    if (days > 0 && temperature === undefined) return outside("days need the temperature beside them");
    const sum = summed(given);
    if (isOutside(sum)) return sum;
    const results: Result[] = [result("sum", "degree-days so far, C × d", "", sum, 4)];
    if (target !== undefined) {
      const level = temperature ?? meanOf(temperatures!);
      results.push(
        result(
          "left",
          "days left at that warmth",
          "d",
          daysToDegreeDays(Math.max(0, target - sum), level, base),
        ),
      );
    }
    return results;
  },
});

function summed({ temperatures = [], temperature, days, base }: Given<typeof inputs>): Figure {
  const past = sumOf(temperatures, base);
  if (isOutside(past) || temperature === undefined) return past;
  return past + days * Math.max(0, temperature - base);
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
