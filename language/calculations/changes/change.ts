import { afterChanges, flowThroughShare, newWaterFraction } from "../../science/dilution.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, choice, type Given, quantity, type Result, result } from "../calculation.ts";
import { level, optionalVolume, SHOCK, source, WELL_MIXED } from "./shared.ts";

const inputs = {
  level: level("level before"),
  source,
  change: quantity("water changed", "%", [0, 100_000], { optional: true, from: "change" }),
  litres: quantity("or so much of it, before the share", "L", [0, 1e9], { optional: true }),
  volume: optionalVolume,
  how: choice("drained and filled, or run through a full tank", ["batch", "flow-through"], {
    otherwise: "batch",
  }),
  count: quantity("equal changes", "", [0, 10_000], { otherwise: "1", isWhole: true }),
};

export const change = calculation({
  name: "change",
  title: "Level after a change of water",
  group: "changes",
  answers:
    "What level is left after a change of water, or several equal ones, with what the new water itself holds; drained and filled, or run through a full tank.",
  inputs,
  formula: [
    "drained and filled: after = source + (level - source) × (1 - change)^count",
    "run through: 1 - change is exp(-litres / volume) in its place",
  ],
  range: "well mixed, nothing made or used up between the changes; levels all counted alike",
  sources: [WELL_MIXED],
  caution: SHOCK,
  examples: [
    {
      given: "level=80 mg/L source=10 change=30 % count=3",
      gives: { after: "34 mg/L", new: "65.7 %" },
      from: "10 + 70 × 0.7^3 = 10 + 70 × 0.343 = 34.01",
    },
    {
      given: "level=40 mg/L litres=100 L volume=100 L how=flow-through",
      gives: { after: "14.7 mg/L", new: "63.2 %" },
      from: "one whole volume run through leaves exp(-1) = 36.8 % of the old water: 40 × 0.368",
    },
  ],
  compute(given) {
    const { count } = given;
    const share = shareOf(given);
    if (isOutside(share)) return share;
    const after = (changes: number): Figure => afterChanges(given.level, share, changes, given.source);
    const last = after(count);
    if (isOutside(last)) return last;
    const fresh = newWaterFraction([share]);
    const renewed = map(fresh, (of) => (1 - (1 - of) ** count) * 100);
    const results: Result[] = [result("after", "level after", "mg/L", last)];
    if (count > 1) results.push(result("first", "after the first of them", "mg/L", after(1)));
    results.push(result("new", "new water in the tank", "%", renewed));
    if (given.litres === undefined && given.volume !== undefined && given.change !== undefined)
      results.push(result("litres", "each change", "L", (given.change / 100) * given.volume));
    return results;
  },
  entry(given, results) {
    const isNamed = given.litres === undefined && given.count === 1 && given.how === "batch";
    const last = results.find(({ name }) => name === "after");
    return isNamed && last !== undefined && given.change !== undefined && given.change > 0
      ? `change ${Number(given.change.toPrecision(3))} %`
      : undefined;
  },
});

/** The share of the water that one change replaces. */
function shareOf({ change: percent, litres, volume, how }: Given<typeof inputs>): Figure {
  if (litres !== undefined && volume === undefined) return outside("litres need the volume beside them");
  if (litres === undefined && percent === undefined) return outside("one of change, litres is needed");
  const part = litres === undefined ? percent! / 100 : litres / volume!;
  if (how === "flow-through") return flowThroughShare(part, 1);
  return part <= 1 ? part : outside("more than the whole water can only be run through: how=flow-through");
}
