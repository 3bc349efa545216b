import { convert } from "../../quantity/quantity.ts";
import { unitOf } from "../../quantity/units.ts";
import { beyond, isOutside, map } from "../../science/result.ts";
import { litresPerCm } from "../../science/vessel.ts";
import { netVolumeL } from "../../science/volume.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";
import { GEOMETRY, SHAPE_FORMULAS, shapeInputs, vesselOf } from "./shape.ts";

const litresAs = (litres: number, unit: "US gal" | "imp gal"): number =>
  convert(litres, unitOf("L"), unitOf(unit))!;

export const volume = calculation({
  name: "volume",
  title: "Water in a tank or vessel",
  group: "vessels",
  answers:
    "How much water a tank or vessel of this shape holds up to a height, less what sand, wood and rock displace; in litres and gallons, and what one centimetre of it is.",
  inputs: {
    ...shapeInputs,
    // Round walls draw in and out again, so that the litres of a centimetre go both ways.
    water: quantity("height of the water, else the full height", "cm", [0, 1e5], {
      optional: true,
      isSingle: true,
    }),
    displaced: quantity("displaced by sand, wood and rock", "L", [0, 1e9], { otherwise: "0" }),
  },
  formula: SHAPE_FORMULAS,
  range:
    "inside measures; straight, upright walls but for bucket, cone and bowl; a bow of at most a half circle",
  sources: [GEOMETRY, "gallons: NIST SP 811 (2008) App. B and Handbook 44 App. C, exact"],
  caution:
    "Doses go by the net volume: outside measures, a free rim, gravel and filter make a tank hold a tenth to a fifth less than its label (common practice, no source). Count the buckets when you fill it.",
  examples: [
    {
      given: "length=48 in width=18 in height=21 in",
      gives: { "US-gallons": "78.5 US gal", "per-cm": "5.57 L" },
      from: "48 × 18 × 21 = 18144 in3, of which 231 make a US gallon: 78.55",
    },
    {
      given: "shape=cylinder diameter=12 ft height=4.5 ft",
      gives: { water: "14412 L" },
      from: "an extension text on salt has 508.7 ft3 with π as 3.14, 14405 L; with π 508.9 ft3",
    },
    {
      given: "length=60 width=30 height=36 water=33 displaced=6 L",
      gives: { water: "59.4 L", net: "53.4 L", full: "64.8 L" },
      from: "60 × 30 × 36 = 64800 cm3 to the rim, 60 × 30 × 33 = 59400 to the water, less 6 L",
    },
  ],
  compute(given) {
    const vessel = vesselOf(given);
    if (isOutside(vessel)) return vessel;
    const { fullHeightCm, litresAt } = vessel;
    const waterCm = given.water ?? fullHeightCm;
    const tooHigh = beyond("water", waterCm, 0, fullHeightCm, "cm");
    if (tooHigh !== undefined) return tooHigh;
    const water = litresAt(waterCm);
    if (isOutside(water)) return water;
    const net = netVolumeL(water, given.displaced);
    const results: Result[] = [
      result("water", "water up to that height", "L", water),
      result("net", "net, less what is displaced", "L", net),
      result(
        "US-gallons",
        "net in US gallons",
        "US gal",
        map(net, (litres) => litresAs(litres, "US gal")),
      ),
      result(
        "imp-gallons",
        "net in imperial gallons",
        "imp gal",
        map(net, (litres) => litresAs(litres, "imp gal")),
      ),
    ];
    if (given.water !== undefined)
      results.push(result("full", "filled to the rim", "L", litresAt(fullHeightCm)));
    // At the rim of a bowl the centimetre widens and narrows with the height of the rim.
    if (given.water !== undefined || given.shape !== "bowl")
      results.push(
        result("per-cm", "one centimetre there", "L", litresPerCm(waterCm, fullHeightCm, litresAt)),
      );
    return results;
  },
});
