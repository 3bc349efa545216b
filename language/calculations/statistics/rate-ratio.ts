import { compareRates } from "../../science/rates.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { confidence } from "./asked.ts";

const losses = (title: string) => quantity(title, "", [0, 1e6], { isWhole: true, isSingle: true });
const exposure = (title: string) => quantity(title, "", [0, 1e12], { isAbove: true, isSingle: true });

export const rateRatio = calculation({
  name: "rate-ratio",
  title: "Two rates of losses compared",
  group: "statistics",
  answers:
    "Whether one tank, one supplier, one month loses more than another, when both had so many losses in so many animal-days: the ratio of the rates, its interval, and how likely chance alone makes such a difference.",
  inputs: {
    first: losses("losses of the first"),
    "first-exposure": exposure("in how many animal-days, shipments"),
    second: losses("losses of the second"),
    "second-exposure": exposure("in how many animal-days, shipments"),
    confidence,
  },
  formula: [
    "ratio = (first / first-exposure) / (second / second-exposure)",
    "given all losses together those of the first are binomial with the share t1 / (t1 + t2), were the rates alike",
    "p = twice the smaller tail; ends: Clopper & Pearson's of the share, turned into a ratio",
  ],
  range:
    "losses that come one by one, each by chance. Many losses of one event make a difference look surer than it is, and so does looking at many tanks and comparing the worst",
  sources: [
    "Przyborowski & Wilenski 1940, Biometrika 31:313-323",
    "interval: Clopper & Pearson 1934, Biometrika 26:404-413",
    "why p is twice the smaller tail: Fay 2010, Biostatistics 11:373-374 (recalled)",
  ],
  examples: [
    {
      given: "first=2 first-exposure=17877 second=9 second-exposure=16660",
      gives: { ratio: "0.207", low: "0.02177", high: "1.001", p: "0.0501" },
      from: "Fay 2022, Testing the Ratio of Two Poisson Rates, section 1: 0.2071, 0.02177 to 1.00055, p = 0.05011",
    },
    {
      given: "first=3 first-exposure=100 second=0 second-exposure=100",
      gives: { ratio: "without end: the second has no loss", p: "0.25" },
      from: "all three in the first of two alike: 0.5 × 0.5 × 0.5 = 0.125, and as much the other way round",
    },
  ],
  compute(given) {
    const { first, second, confidence: percent } = given;
    const [time, otherTime] = [given["first-exposure"], given["second-exposure"]];
    const found = compareRates(
      { count: first, exposure: time },
      { count: second, exposure: otherTime },
      percent / 100,
    );
    if (isOutside(found)) return found;
    const { ratio, interval, p } = found;
    const endless = "without end: the second has no loss";
    const shown = (value: number): number | string => (value === Number.POSITIVE_INFINITY ? endless : value);
    return [
      result("ratio", "first rate over second", "", shown(ratio)),
      result("low", "at least", "", interval.low, 4),
      result("high", "at most", "", shown(interval.high), 4),
      result("p", "chance of that, were they alike", "", p),
      result("said", "so", "", said(interval.low > 1, interval.high < 1)),
    ];
  },
});

function said(isMore: boolean, isLess: boolean): string {
  if (isMore) return "the first loses more";
  return isLess ? "the first loses less" : "no difference that these losses show";
}
