import { wilson } from "../../science/proportion.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { confidence, counted, sides, sidesOf } from "./asked.ts";

export const proportion = calculation({
  name: "proportion",
  title: "A share of so many",
  group: "statistics",
  answers:
    "What so many of so many say of the share behind them: losses of a shipment, eggs that hatched, fish that show a sign. Of few animals the interval is wide, and none of twenty is not none at all.",
  inputs: {
    count: counted("how many"),
    of: quantity("of how many", "", [0, 1e6], { isWhole: true, isAbove: true }),
    confidence,
    sides,
  },
  formula: [
    "p = count / of, z from the confidence",
    "ends = (p + z² / 2n ± z √(p (1 - p) / n + z² / 4n²)) / (1 + z² / n), n = of",
  ],
  range:
    "whole counts; animals that fare by themselves. Where one ill fish makes its neighbours ill the truth is wider",
  sources: [
    "Wilson 1927, J. Am. Stat. Assoc. 22:209-212",
    "compared with others: Newcombe 1998, Stat. Med. 17:857-872",
  ],
  examples: [
    {
      given: "count=81 of=263",
      gives: { share: "30.8 %", low: "25.5 %", high: "36.6 %" },
      from: "Newcombe 1998, table I, method 3: 0.2553 to 0.3662 (recalled)",
    },
    {
      given: "count=0 of=20 sides=one",
      gives: { share: "0 %", low: "0 %", high: "11.9 %" },
      from: "none of n: the upper bound is z² / (n + z²), of 20 with z = 1.645 2.706 / 22.706",
    },
  ],
  compute({ count, of, confidence: percent, sides: word }) {
    const limits = wilson(count, of, percent / 100, sidesOf(word));
    if (isOutside(limits)) return limits;
    return [
      result("share", "share", "%", (100 * count) / of),
      result("low", "at least", "%", 100 * limits.low),
      result("high", "at most", "%", 100 * limits.high),
    ];
  },
});
