import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result, words } from "../calculation.ts";
import { madeWater } from "./made-water.ts";
import { sourceInputs, sourceStated, sourceWater } from "./source.ts";
import { waterOf, waterSaid } from "./stated.ts";

export const blend = calculation({
  name: "blend",
  title: "Two waters blended",
  group: "hardness and salts",
  answers:
    "How much of two waters, tap and soft, cold and hot, makes a volume of the wanted hardness, alkalinity, nitrate or temperature; with salts, if any are listed; and what comes out besides.",
  inputs: {
    wanted: words("wanted", "GH 6"),
    second: words("the second water", "GH 0, KH 0", { otherwise: "GH 0, KH 0" }),
    volume: quantity("volume to make", "L", [0, 1e9], { isAbove: true }),
    salts: words("salts, if any", "CaCl2.2H2O, MgSO4.7H2O", { optional: true }),
    ...sourceInputs,
  },
  formula: [
    "share of the source = (wanted - second) / (source - second)",
    "for several wishes: shares and grams of 0 or more that come nearest, least squares of what each misses, in meq/L",
  ],
  range:
    "what mixes by volume: hardness, alkalinity, ions, temperature; not pH, not conductivity. What a water does not state counts as 0",
  sources: [
    "mass balance, by arithmetic",
    "several wishes: Lawson & Hanson 1974, Solving Least Squares Problems, chapter 23",
  ],
  caution: "The pH of a blend does not follow from the two: test it before animals meet it.",
  examples: [
    {
      given: "wanted=GH 6 second=GH 0, KH 0 volume=40 L source-GH=15 source-KH=10 source-nitrate=30",
      gives: {
        source: "16 L",
        second: "24 L",
        GH: "6 dGH",
        KH: "4 dKH",
        nitrate: "12 mg/L NO3",
      },
      from: "(6 - 0) / (15 - 0) = 40 %, of 40 L 16 L; alkalinity 0.4 × 10 = 4 and nitrate 0.4 × 30 = 12 come along",
    },
    {
      given: "wanted=temperature 25 second=temperature 60 volume=20 L source-temperature=10",
      gives: { source: "14 L", second: "6 L", temperature: "25 C" },
      from: "(25 - 60) / (10 - 60) = 70 % of the cold water",
    },
  ],
  compute(given) {
    const { wanted, second, volume, salts = "" } = given;
    const first = sourceWater(sourceStated(given));
    if (isOutside(first)) return first;
    const stated = waterSaid("second", second);
    if (isOutside(stated)) return stated;
    const other = waterOf("second", stated);
    if (isOutside(other)) return other;
    return madeWater({ waters: [first, other], salts, wanted, volumeL: volume }, ({ waters }) => [
      result("source", "of the source", "L", waters[0]!.litres),
      result("second", "of the second water", "L", waters[1]!.litres),
      result("share", "share of the source", "%", waters[0]!.fraction * 100),
    ]);
  },
});
