import { steadyFlowMgL } from "../../science/dilution.ts";
import { isOutside, outside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { optionalLevel, source, volume, WELL_MIXED } from "./shared.ts";

export const steadyFlow = calculation({
  name: "steady-flow",
  title: "Where a constant flow holds a level",
  group: "changes",
  answers:
    "Where a level comes to rest with fresh water running through all the time (a drip, a rack on tap water), how long that takes, and which flow holds a limit.",
  inputs: {
    rise: quantity("rise were there no flow", "mg/L/d", [0, 1e6]),
    volume,
    flow: quantity("water running through", "L/h", [0, 1e9], { isAbove: true }),
    source,
    limit: optionalLevel("limit"),
  },
  formula: [
    "at rest = source + rise × volume / flow",
    "half of the way there = ln 2 × volume / flow",
    "flow that holds a limit = rise × volume / (limit - source)",
  ],
  range: "the same rise and flow all the time, well mixed",
  sources: [WELL_MIXED],
  caution:
    "A drip that blocks ends the dilution unseen, and tap water brings its chlorine with every litre: measure the flow, treat the water.",
  examples: [
    {
      given: "rise=5.76 mg/L/d volume=100 L flow=12 L/h limit=1 mg/L",
      gives: { "at-rest": "2 mg/L", half: "5.78 h", holds: "24 L/h" },
      from: "576 mg a day is 24 mg an hour, in 12 L an hour 2 mg/L; 0.693 × 100 / 12 = 5.78 h; half the level takes twice the flow",
    },
  ],
  compute({ rise, volume: litres, flow, source: holds, limit }) {
    const loadMgPerH = (rise * litres) / 24;
    const atRest = steadyFlowMgL(loadMgPerH, flow, holds);
    if (isOutside(atRest)) return atRest;
    return [
      result("at-rest", "level at rest", "mg/L", atRest),
      result("half", "half of the way there after", "h", (Math.LN2 * litres) / flow),
      ...(limit === undefined
        ? []
        : [
            result(
              "holds",
              "flow that holds the limit",
              "L/h",
              limit > holds ? loadMgPerH / (limit - holds) : outside("the new water itself is at the limit"),
            ),
          ]),
    ];
  },
});
