import {
  afterEvaporation,
  cyclesOfConcentration,
  drainToHold,
  fillToHold,
} from "../../science/evaporation.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, type Result, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { optionalLevel, volume, WELL_MIXED } from "./shared.ts";

const inputs = {
  volume: { ...volume, title: "net volume when full" },
  lost: quantity("water that evaporated", "L", [0, 1e9], { optional: true }),
  fall: quantity("or how far the water has fallen", "cm", [0, 1e4], { optional: true }),
  length: quantity("length of the surface, for the fall", "cm", [0, 1e5], { optional: true, isAbove: true }),
  width: quantity("width of the surface, for the fall", "cm", [0, 1e5], { optional: true, isAbove: true }),
  days: quantity("in so many days", "d", [0, 3650], { optional: true, isAbove: true }),
  level: optionalLevel("level when full"),
  fill: optionalLevel("level of what fills it up"),
  cycles: quantity("times as concentrated as what fills it, to be held", "", [1, 1000], { optional: true }),
};

export const evaporation = calculation({
  name: "evaporation",
  title: "Evaporation",
  group: "changes",
  answers:
    "How much water has evaporated, by litres or by the fall of the surface; what that does to a level before it is topped up; how many times more concentrated than its supply a tank runs, and the drain that would hold so many times.",
  inputs,
  formula: [
    "lost = fall × length × width / 1000; a day: lost / days",
    "level before it is topped up = level × volume / (volume - lost)",
    "times as concentrated = level / level of what fills it; drain to hold c times = lost / (c - 1)",
  ],
  range: "only water goes, well mixed; a surface with straight sides",
  sources: [WELL_MIXED, "drain by times of concentration: mass balance of cooling towers, arithmetic"],
  caution:
    "A fall that is more than usual may be a leak. A lid saves more than it costs in warmth; a heater must not fall dry.",
  examples: [
    {
      given: "volume=100 L lost=10 L level=300 mg/L",
      gives: { now: "333 mg/L", share: "10 %" },
      from: "300 × 100 / 90",
    },
    {
      given:
        "volume=200 L fall=2 cm length=100 cm width=40 cm days=4 d level=600 mg/L fill=300 mg/L cycles=2",
      gives: { lost: "8 L", "a-day": "2 L/d", times: "2", drain: "8 L", "fill-up": "16 L" },
      from: "2 × 100 × 40 = 8000 cm3; to run at twice the supply as much is drained as evaporates, and both are filled in",
    },
  ],
  compute(given) {
    const lost = lostL(given);
    if (isOutside(lost)) return lost;
    const left = given.volume - lost;
    if (!(left > 0)) return outside("more would have evaporated than is in the tank");
    const { days, level, fill, cycles } = given;
    const results: Result[] = [
      result("lost", "evaporated", "L", lost),
      result("share", "of the volume", "%", (100 * lost) / given.volume),
    ];
    if (days !== undefined) results.push(result("a-day", "a day", "L/d", lost / days));
    if (level !== undefined)
      results.push(
        result("now", "level before it is topped up", "mg/L", afterEvaporation(level, given.volume, left)),
      );
    if (level !== undefined && fill !== undefined)
      results.push(
        result("times", "times as concentrated as what fills it", "", cyclesOfConcentration(level, fill)),
      );
    if (cycles !== undefined)
      results.push(
        result("drain", "drain with it, to hold so many times", "L", drainToHold(lost, cycles)),
        result("fill-up", "fill in then", "L", fillToHold(lost, cycles)),
      );
    return results;
  },
  entry(_, results) {
    const lost = results.find(({ name }) => name === "lost")?.value;
    return typeof lost === "number" && lost > 0 ? `top-up ${Number(lost.toPrecision(3))} L` : undefined;
  },
});

function lostL(given: Given<typeof inputs>): Figure {
  const leads = oneOf(given, ["lost", "fall"]);
  if (isOutside(leads)) return leads;
  if (leads === "lost") return given.lost!;
  const { fall, length, width } = given;
  if (length === undefined || width === undefined) return outside("a fall needs length and width beside it");
  return (fall! * length * width) / 1000;
}
