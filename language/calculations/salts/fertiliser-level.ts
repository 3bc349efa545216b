import { additionForMgL, levelsOff, periodsUntil } from "../../science/fertiliser.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";

/** What counts as levelled off: nineteen parts in twenty of the way. */
const NEARLY = 0.95;

export const fertiliserLevel = calculation({
  name: "fertiliser-level",
  title: "Where repeated doses level off",
  group: "hardness and salts",
  answers:
    "Where a substance dosed again and again levels off with one change of water each period, or what addition levels off at a wanted level. Without uptake: an upper bound.",
  inputs: {
    addition: quantity("added each period", "mg/L", [0, 1e6], { optional: true }),
    level: quantity("or highest level wanted", "mg/L", [0, 1e6], { optional: true }),
    change: quantity("changed each period", "%", [0, 100], { isAbove: true, from: "change" }),
    source: quantity("in the new water", "mg/L", [0, 1e6], { otherwise: "0" }),
  },
  formula: [
    "highest = source + addition / change, just before a change",
    "lowest = source + addition × (1 - change) / change, just after it",
    "periods to 95 % of the way = ln(0.05) / ln(1 - change), to the next whole one",
  ],
  range: "the same addition and change each period, well mixed, nothing taken up or broken down",
  sources: ["steady state of a mass balance: arithmetic, a geometric series"],
  caution:
    "Nitrate, potassium and trace metals that plants do not take up go on rising for many changes: test.",
  examples: [
    {
      given: "addition=10 mg/L change=50 %",
      gives: { highest: "20 mg/L", lowest: "10 mg/L", periods: "5" },
      from: "10 / 0.5 = 20 before the change, half of it after; 0.5^5 = 3 % of the way is left after five, 6 % after four",
    },
    {
      given: "level=20 mg/L change=25 % source=4",
      gives: { addition: "4 mg/L", lowest: "16 mg/L" },
      from: "(20 - 4) × 0.25 = 4 mg/L a period; after the change 20 - 4 = 16",
    },
  ],
  compute(given) {
    const { change, source } = given;
    const leads = oneOf(given, ["addition", "level"]);
    if (isOutside(leads)) return leads;
    const fraction = change / 100;
    const addition = leads === "addition" ? given.addition! : additionForMgL(given.level!, fraction, source);
    if (isOutside(addition)) return addition;
    const level = levelsOff(addition, fraction, source);
    if (isOutside(level)) return level;
    return [
      result("addition", "added each period", "mg/L", addition),
      result("highest", "levels off before a change at", "mg/L", level.highestMgL),
      result("lowest", "after a change at", "mg/L", level.lowestMgL),
      result("periods", "changes until nearly there (95 %)", "", periodsUntil(NEARLY, fraction)),
    ];
  },
});
