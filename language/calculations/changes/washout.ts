import { washoutMin } from "../../science/dilution.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { optionalVolume, WELL_MIXED } from "./shared.ts";

export const washout = calculation({
  name: "washout",
  title: "Time to wash something out",
  group: "changes",
  answers:
    "How long a constant flow takes to wash out a share of what is dissolved in a tank, or of what is in the air of a room: half, 90 %, 99 %.",
  inputs: {
    removed: quantity("share to be gone", "%", [0, 100], { otherwise: "99 %" }),
    exchanges: quantity("exchanges an hour", "", [0, 1e6], { optional: true, isAbove: true }),
    flow: quantity("or flow, with the volume", "L/h", [0, 1e12], { optional: true, isAbove: true }),
    volume: optionalVolume,
  },
  formula: ["time = -ln(1 - removed) / exchanges an hour; exchanges = flow / volume"],
  range: "well mixed, nothing of it made or brought in; all of it is never gone",
  sources: [WELL_MIXED],
  caution:
    "What hides in gravel, filter, corners and biofilm comes out slower than this. Of a gas in a room the mixing is worse still, up to ten times as long (CDC 1994): leave, air, come back late.",
  examples: [
    {
      given: "removed=99 % exchanges=6",
      gives: { time: "46.1 min", half: "6.93 min" },
      from: "CDC, MMWR 1994;43(RR-13), table S3-1 has 46 minutes; ln 2 / 6 of an hour for each half",
    },
  ],
  compute({ removed, exchanges, flow, volume }) {
    const leads = oneOf({ exchanges, flow }, ["exchanges", "flow"]);
    if (isOutside(leads)) return leads;
    if (leads === "flow" && volume === undefined) return outside("a flow needs the volume beside it");
    const perHour = leads === "exchanges" ? exchanges! : flow! / volume!;
    const minutes: Figure = washoutMin(removed / 100, perHour);
    return [
      result("time", "time", "min", minutes),
      result(
        "hours",
        "in hours",
        "h",
        map(minutes, (each) => each / 60),
      ),
      result("half", "each half takes", "min", washoutMin(0.5, perHour)),
    ];
  },
});
