import { steadyAfterChangeMgL, steadyBeforeChangeMgL } from "../../science/dilution.ts";
import { holdingFraction, holdingIntervalDays } from "../../science/forecast.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { changeEntry, optionalLevel, SHOCK, source, WELL_MIXED } from "./shared.ts";

export const steady = calculation({
  name: "steady",
  title: "Where regular changes hold a level",
  group: "changes",
  answers:
    "Between which levels a tank comes to swing with one regular change of water and a steady rise; and which change, or which interval, would hold a limit.",
  inputs: {
    rise: quantity("rise", "mg/L/d", [0, 1e6]),
    every: quantity("from one change to the next", "d", [0, 3650], { otherwise: "7 d", isAbove: true }),
    change: quantity("one change", "%", [0, 100], { otherwise: "30 %", isAbove: true, from: "change" }),
    source,
    limit: optionalLevel("limit"),
  },
  formula: [
    "before a change = source + rise × every / change; after it = that - rise × every",
    "change that holds a limit = rise × every / (limit - source)",
    "longest interval = (limit - source) × change / rise",
  ],
  range: "the same rise all the time, well mixed; after many changes: with 30 % it is within 3 % after ten",
  sources: [WELL_MIXED, "steady state: the sum of a geometric series, arithmetic"],
  caution: `${SHOCK} A rise is what fish, food and plants make of it today; it is not next month's.`,
  examples: [
    {
      given: "rise=1 mg/L/d every=7 d change=25 % source=5 limit=20 mg/L",
      gives: { before: "33 mg/L", after: "26 mg/L", holds: "46.7 %", interval: "3.75 d" },
      from: "7 mg/L a week over a quarter is 28, with the 5 of the source 33; to hold 20 takes 7 / 15 a week, or a quarter each 15 × 0.25 = 3.75 days",
    },
  ],
  compute({ rise, every, change, source: holds, limit }) {
    const before = steadyBeforeChangeMgL(rise * every, change / 100, holds);
    if (isOutside(before)) return before;
    return [
      result("before", "before each change", "mg/L", before),
      result("after", "after it", "mg/L", steadyAfterChangeMgL(rise * every, change / 100, holds)),
      ...(limit === undefined
        ? []
        : [
            result(
              "holds",
              "change that holds the limit",
              "%",
              map(holdingFraction(rise, every, limit, holds), (share) => share * 100),
            ),
            result(
              "interval",
              "or this change every",
              "d",
              holdingIntervalDays(rise, change / 100, limit, holds),
            ),
          ]),
    ];
  },
  entry: (_, results) => changeEntry(results.find(({ name }) => name === "holds")?.value),
});
