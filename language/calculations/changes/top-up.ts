import { afterChanges } from "../../science/dilution.ts";
import { afterTopUps, steadyWithTopUpMgL } from "../../science/evaporation.ts";
import { type Figure, isOutside } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";
import { level, optionalLevel, volume, WELL_MIXED } from "./shared.ts";

export const topUp = calculation({
  name: "top-up",
  title: "What top-ups leave behind",
  group: "changes",
  answers:
    "What evaporation made good with water that holds something does to a level, after so many top-ups; and where it comes to rest with a regular change of water.",
  inputs: {
    level: level("level in the full tank"),
    volume,
    litres: quantity("one top-up", "L", [0, 1e9]),
    "top-up": level("level of the water topped up with"),
    count: quantity("top-ups", "", [0, 100_000], { otherwise: "1", isWhole: true }),
    change: quantity("regular change, with its source the level it comes to rest at", "%", [0, 100], {
      optional: true,
      isAbove: true,
      from: "change",
    }),
    "per-change": quantity("top-ups from one change to the next", "", [0, 10_000], {
      otherwise: "1",
      isWhole: true,
    }),
    // Not taken to be 0: the level of a change's water decides where it comes to rest.
    source: optionalLevel("level of the water of the change"),
    limit: optionalLevel("limit"),
  },
  formula: [
    "after = level + count × top-up level × litres / volume: the water goes, what was in it stays",
    "at rest, before a change = source + top-up level × litres × top-ups between / volume / change",
    "top-ups to a limit = (limit - level) / (top-up level × litres / volume), to the last whole one under it",
  ],
  range: "only water evaporates; the tank is full after each; nothing is used up or falls out as lime",
  sources: [WELL_MIXED, "evaporation leaves what is dissolved: mass balance, arithmetic"],
  caution:
    "Topped up with tap water a tank gets harder and saltier without any sign; with pure water it does not, whatever evaporates. A top-up is no change of water.",
  examples: [
    {
      given: "level=100 mg/L volume=100 L litres=10 L top-up=100 mg/L count=10",
      gives: { after: "200 mg/L", each: "10 mg/L" },
      from: "ten times a tenth of the volume, of water as rich as the tank: each adds 10 mg/L",
    },
    {
      given: "level=150 mg/L volume=100 L litres=5 L top-up=100 mg/L change=25 % source=100 limit=160 mg/L",
      gives: { "rest-before": "120 mg/L", "rest-after": "115 mg/L", "to-limit": "2" },
      from: "100 + 100 × 0.05 / 0.25 = 120, after the change 120 - 0.25 × 20 = 115; 10 mg/L to the limit are two top-ups of 5",
    },
  ],
  compute(given) {
    const { count, change, source: holds, limit } = given;
    const part = given.litres / given.volume;
    const after = afterTopUps(given.level, part, count, given["top-up"]);
    if (isOutside(after)) return after;
    const each = part * given["top-up"];
    const results: Result[] = [
      result("after", "level after", "mg/L", after),
      result("each", "each top-up adds", "mg/L", each),
    ];
    if (change !== undefined && holds !== undefined) {
      const between = part * given["per-change"];
      const before = steadyWithTopUpMgL(holds, change / 100, between, given["top-up"]);
      const rest: Figure = isOutside(before) ? before : afterChanges(before, change / 100, 1, holds);
      results.push(
        result("rest-before", "comes to rest, before a change, at", "mg/L", before),
        result("rest-after", "after it at", "mg/L", rest),
      );
    }
    if (limit !== undefined)
      results.push(
        result(
          "to-limit",
          "top-ups that stay within the limit",
          "",
          limit < given.level
            ? 0
            : each === 0
              ? Number.POSITIVE_INFINITY
              : Math.floor((limit - given.level) / each + 1e-9),
        ),
      );
    return results;
  },
  entry: ({ litres }) => (litres > 0 ? `top-up ${Number(litres.toPrecision(4))} L` : undefined),
});
