import { poissonExact, poissonScore } from "../../science/rates.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { confidence, counted, sides, sidesOf } from "./asked.ts";

export const rate = calculation({
  name: "rate",
  title: "A rate of losses",
  group: "statistics",
  answers:
    "What so many losses in so many animal-days, or faults in so many shipments, say of the rate behind them, with its interval; exact, and a shorter one that is right on the whole.",
  inputs: {
    count: counted("how many losses or faults"),
    exposure: quantity("in how many animal-days, shipments", "", [0, 1e12], { isAbove: true }),
    per: quantity("told for so many of them", "", [0, 1e9], { isAbove: true, otherwise: "1000" }),
    confidence,
    sides,
  },
  formula: [
    "rate = count / exposure × per",
    "exact ends: the means of which so few, and so many, are as unlikely as the confidence leaves: χ² quantiles / 2",
    "score ends = (count + z² / 2 ± z √(count + z² / 4)) / exposure",
  ],
  range:
    "losses that come one by one, each by chance. An outbreak or a failed heater is one event with many losses, and the truth is wider",
  sources: [
    "exact: Garwood 1936, Biometrika 28:437-442",
    "score: Rao 1948, Proc. Camb. Phil. Soc. 44:50-57 (recalled)",
  ],
  examples: [
    {
      given: "count=15 exposure=400 per=1",
      gives: { rate: "0.0375", low: "0.021", high: "0.0619" },
      from: "the R package DescTools for 15 in 400, as the tests of statsmodels print it: 0.02099 to 0.06185",
    },
    {
      given: "count=0 exposure=1200",
      gives: { rate: "0", low: "0", high: "3.07" },
      from: "Garwood 1936: none may be up to 3.689 of them, and 3.689 / 1200 × 1000 = 3.07",
    },
  ],
  compute({ count, exposure, per, confidence: percent, sides: word }) {
    const exact = poissonExact(count, exposure, percent / 100, sidesOf(word));
    if (isOutside(exact)) return exact;
    const score = poissonScore(count, exposure, percent / 100, sidesOf(word));
    if (isOutside(score)) return score;
    return [
      result("rate", "rate", "", (count / exposure) * per),
      result("low", "at least, exactly", "", exact.low * per),
      result("high", "at most, exactly", "", exact.high * per),
      result("score-low", "at least, by the score", "", score.low * per),
      result("score-high", "at most, by the score", "", score.high * per),
    ];
  },
});
