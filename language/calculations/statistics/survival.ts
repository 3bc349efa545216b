import type { Reading } from "../../science/censored.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import { kaplanMeier, medianSurvival, survivalLimits } from "../../science/survival.ts";
import { calculation, quantity, result, series } from "../calculation.ts";
import { confidence } from "./asked.ts";

/** A shipment or a brood, not a hatchery. */
const MOST = 100_000;

export const survival = calculation({
  name: "survival",
  title: "Survival of animals followed",
  group: "statistics",
  answers:
    "Which share of a brood or a shipment is alive at an age, when some were sold or moved before they died: an animal that died at 6 days is 6, one last seen alive at 6 is >6.",
  inputs: {
    times: series("ages at death, >6 if alive at 6", "d", [0, 1e5], 1, { isCensored: true }),
    counts: series("how many animals each is", "", [1, MOST], 1, {
      optional: true,
    }),
    at: quantity("age asked for", "d", [0, 1e5], { isSingle: true }),
    confidence,
  },
  formula: [
    "S = product of (1 - died / at risk) over the ages of death up to then; one last seen alive at an age was at risk at it",
    "standard error = S √(sum of died / (at risk × (at risk - died)))",
    "ends = S^exp(± z × error / (S ln S))",
  ],
  range:
    "up to the last animal seen; animals that leave for reasons that have nothing to do with their health: if the weak are sold or culled, the figure is too good",
  sources: [
    "Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457-481",
    "standard error: Greenwood 1926, Reports on Public Health 33 (recalled)",
    "interval: Kalbfleisch & Prentice 1980, The Statistical Analysis of Failure Time Data (recalled)",
  ],
  examples: [
    {
      given: "times=1, 1, 4, 5, >6, 9, >9, 22 at=9",
      gives: { survival: "33.3 %", dead: "5", left: "1", median: "5 d" },
      from: "Bewick and others 2004, Crit. Care 8:389, table 2: 0.333 at 9. By hand 6/8 × 5/6 × 4/5 × 2/3, and the first three are a half",
    },
    {
      given: "times=6, >6, 7, >9, 10, >10, >35 counts=3, 1, 1, 1, 1, 1, 13 at=7",
      gives: { survival: "80.7 %", error: "8.69 %", low: "56.3 %", high: "92.3 %" },
      from: "6-mercaptopurine, as statistics packages list it: 0.8067, 0.0869, 0.5631 to 0.9228. 18/21 × 16/17; those after 7 are left as one group",
    },
  ],
  compute({ times, counts, at, confidence: percent }) {
    const followed = animals(times, counts);
    if (isOutside(followed)) return followed;
    const [ages, died] = followed;
    const found = kaplanMeier(ages, died, toTheSecond(at));
    if (isOutside(found)) return found;
    const limits = survivalLimits(found.survival, found.standardError, percent / 100);
    return [
      result("survival", "alive", "%", 100 * found.survival),
      result("low", "at least", "%", isOutside(limits) ? limits : 100 * limits.low),
      result("high", "at most", "%", isOutside(limits) ? limits : 100 * limits.high),
      result("error", "standard error", "%", 100 * found.standardError),
      result("dead", "died by then", "", found.deaths),
      result("left", "still followed after that", "", found.left),
      result("median", "age by which half had died", "d", medianSurvival(ages, died)),
    ];
  },
});

/** A week is seven days whichever is written: an age of death is met to the last bit or missed. */
const toTheSecond = (days: number): number => Math.round(days * 86_400) / 86_400;

/** An age for each animal, and whether it died at it. */
function animals(
  times: readonly Reading[],
  counts: readonly number[] = times.map(() => 1),
): readonly [number[], boolean[]] | Outside {
  const odd = times.find(({ is }) => is !== "figure" && is !== "above");
  if (odd !== undefined) return outside("times: an age is a figure, or >6 for one last seen alive at 6");
  if (counts.length !== times.length)
    return outside(`counts: ${times.length} times need as many counts, not ${counts.length}`);
  const part = counts.find((count) => !Number.isInteger(count));
  if (part !== undefined) return outside(`counts: ${part} animals are no whole number`);
  if (counts.reduce((sum, count) => sum + count, 0) > MOST)
    return outside(`counts: more than ${MOST} animals are not followed here`);
  const each = times.flatMap((time, at) => Array.from({ length: counts[at]! }, () => time));
  return [each.map(({ low }) => toTheSecond(low)), each.map(({ is }) => is === "figure")];
}
