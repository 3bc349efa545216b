import { formatNumber } from "../../quantity/format.ts";
import { calculation, quantity, result, series } from "../calculation.ts";

export const partsOfVolume = calculation({
  name: "parts-of-volume",
  title: "Parts of a volume",
  group: "vessels",
  answers:
    "What 10, 25, 30, 40 and 50 % of a tank are in litres, or any other parts: for the card on its door.",
  inputs: {
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    parts: series("parts", "%", [0, 100], 1, { otherwise: "10, 25, 30, 40, 50 %" }),
  },
  formula: ["part in litres = volume × part"],
  range: "any volume; the net one where a change is meant",
  sources: ["arithmetic"],
  examples: [
    {
      given: "volume=54 L parts=10, 30, 40 %",
      gives: { "part-1": "5.4 L", "part-2": "16.2 L", "part-3": "21.6 L" },
      from: "a tenth of 54, three of it, four of it",
    },
  ],
  compute({ volume, parts }) {
    return parts.map((percent, at) =>
      result(`part-${at + 1}`, `${formatNumber(percent)} % of it`, "L", (volume * percent) / 100),
    );
  },
});
