import { averageRunLength, cusumDesign } from "../../science/poisson-cusum.ts";
import { poissonExact } from "../../science/rates.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { confidence } from "./asked.ts";

export const cusum = calculation({
  name: "cusum",
  title: "A cumulative sum of losses",
  group: "statistics",
  answers:
    "How to be told soon, and seldom for nothing, that more die than usual: what a day may take (k), at which sum to look (h), after how many days it tells, and how often by chance.",
  inputs: {
    deaths: quantity("deaths of the time that is usual", "", [1, 1e6], { isWhole: true, isSingle: true }),
    days: quantity("in how many days", "", [1, 1e5], { isSingle: true, otherwise: "180" }),
    ratio: quantity("to find so many times as many", "", [1.1, 50], { isSingle: true, otherwise: "3" }),
    run: quantity("days to a false alarm, at least in the mean", "", [2, 1e6], {
      isSingle: true,
      otherwise: "1000",
    }),
    confidence,
  },
  formula: [
    "usual = deaths / days; each day S = max(0, S + deaths of the day - k), an alarm at S ≥ h, then S = 0",
    "k = usual × (ratio - 1) / ln ratio, to a step of 1 / n deaths",
    "h: the least step by which the mean run to a false alarm is as long as wanted",
    "mean runs L from each value of S: L = 1 + Q L, Q the chances from one value to another, short of h",
  ],
  range:
    "deaths that come one by one, each by chance, looked at every day; runs begin at S = 0. Where the number of animals changes k goes with it, and the runs are those at their mean. Deaths in bunches tell oftener for nothing. That the usual is itself an estimate the run at its upper end shows",
  sources: [
    "Lucas 1985, Counted data CUSUM's, Technometrics 27:129-144",
    "runs: Brook & Evans 1972, Biometrika 59:539-549",
    "interval of the usual: Garwood 1936, Biometrika 28:437-442",
  ],
  caution: "No alarm means no more than usual, not that nobody is ill: look at the animals.",
  examples: [
    {
      given: "deaths=18 days=180",
      gives: {
        usual: "0.1",
        low: "0.0593",
        high: "0.158",
        k: "0.1818",
        h: "3.727",
        false: "1037",
        found: "28.6",
      },
      from: "18 / 180 = 0.1; k = 0.1 × 2 / ln 3 = 0.18205, 2 of 11 steps; h = 41 of them; the runs as a sum of the chances of no alarm, day by day, in tests/science/poisson-cusum.test.ts",
    },
    {
      given: "deaths=188 days=100 ratio=1.1303 run=37",
      gives: { usual: "1.88", k: "2", h: "5.125", false: "37.2" },
      from: "the R package IAcsSPCR, function arl, as its manual prints it: 37.2 for k = 2, h = 6 and a mean of 1.88. 0.1303 × 1.88 / ln 1.1303 = 2; as the sum is whole then, to pass 5 is to reach 6",
    },
  ],
  compute({ deaths, days, ratio, run, confidence: percent }) {
    const usual = deaths / days;
    const limits = poissonExact(deaths, days, percent / 100);
    if (isOutside(limits)) return limits;
    const design = cusumDesign(usual, ratio, run);
    if (isOutside(design)) return design;
    return [
      result("usual", "usual deaths a day", "", usual),
      result("low", "at least", "", limits.low),
      result("high", "at most", "", limits.high),
      result("k", "k: what a day may take", "", design.k, 4),
      result("h", "h: the sum that alarms", "", design.h, 4),
      result("false", "days to a false alarm", "", design.inControl, 4),
      result(
        "false-high",
        "the same, were the usual at its upper end",
        "",
        averageRunLength(limits.high, design.chart),
      ),
      result("found", "days until it tells of what is to be found", "", design.outOfControl),
    ];
  },
});
