import { shareOfFirst } from "../../science/blend.ts";
import { afterChange } from "../../science/dilution.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";

/** Temperatures that water mixed by volume takes. */

const LIQUID = [0, 100] as const;
const HEAT =
  "heat balance of mixed water: arithmetic; from 0 to 60 C the heat of a litre changes by 2 %, recalled";

export const mixTemperature = calculation({
  name: "mix-temperature",
  title: "Temperature after a change of water",
  group: "changes",
  answers:
    "How warm a tank is after a change with water of another temperature, before heater or room answer.",
  inputs: {
    temperature: quantity("temperature of the tank", "C", LIQUID, { from: "reading temperature" }),
    source: quantity("temperature of the new water", "C", LIQUID, { from: "source temperature" }),
    change: quantity("water changed", "%", [0, 100], { from: "change" }),
  },
  formula: ["after = temperature × (1 - change) + source × change"],
  range: "water only, mixed at once; glass, sand and heater are left out, they slow it down",
  sources: [HEAT],
  caution:
    "Fish stand a slow change better than a quick one: warm the new water, or let it run in slowly. Hot tap water may carry copper.",
  examples: [
    {
      given: "temperature=26 source=10 change=30 %",
      gives: { after: "21.2 C", by: "-4.8" },
      from: "26 × 0.7 + 10 × 0.3 = 21.2",
    },
  ],
  compute({ temperature, source, change }) {
    const after = afterChange(temperature, change / 100, source);
    return [
      result("after", "temperature after", "C", after),
      result("by", "warmer by, C", "", after - temperature, 2),
    ];
  },
});

export const hotAndCold = calculation({
  name: "hot-and-cold",
  title: "Hot and cold water for a temperature",
  group: "changes",
  answers:
    "How much of two waters, a warmer and a colder one, make a wanted temperature, in parts and in litres.",
  inputs: {
    hot: quantity("temperature of the warmer water", "C", LIQUID),
    cold: quantity("temperature of the colder water", "C", LIQUID, { from: "source temperature" }),
    wanted: quantity("temperature wanted", "C", LIQUID),
    litres: quantity("water to make", "L", [0, 1e9], { optional: true, isAbove: true }),
  },
  formula: ["share of the warmer = (wanted - cold) / (hot - cold)"],
  range: "water only, mixed at once; the bucket takes a little of the warmth",
  sources: [HEAT],
  caution:
    "Hot tap water scalds, and may carry copper and lead from the boiler and the pipes. Measure the mixture before it goes to animals.",
  examples: [
    {
      given: "hot=55 cold=10 wanted=25 litres=30 L",
      gives: { "hot-share": "33.3 %", "hot-litres": "10 L", "cold-litres": "20 L" },
      from: "(25 - 10) / (55 - 10) = a third",
    },
  ],
  compute({ hot, cold, wanted, litres }) {
    const share = shareOfFirst(hot, cold, wanted);
    if (isOutside(share)) return share;
    return [
      result("hot-share", "of the warmer", "%", share * 100),
      result("cold-share", "of the colder", "%", (1 - share) * 100),
      ...(litres === undefined
        ? []
        : [
            result("hot-litres", "warmer water", "L", share * litres),
            result("cold-litres", "colder water", "L", (1 - share) * litres),
          ]),
    ];
  },
});
