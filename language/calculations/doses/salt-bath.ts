import { gPerLFromPercentWV, productMg } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { MASS_IN_WATER, volumeInput } from "./shared.ts";

/** What is published for strengths, from and to g/L. */
const PUBLISHED: readonly (readonly [fromGPerL: number, toGPerL: number, what: string])[] = [
  [1, 3, "published for long: 1 to 3 g/L (recalled)"],
  [5, 10, "published for hours, baths and transport: 5 to 10 g/L (VM-86)"],
  [30, 30, "published as a dip: 30 s to 10 min, out when a fish rolls (VM-86)"],
];
const NOT_PUBLISHED = "no strength of a published bath: those are 1 to 3, 5 to 10 and, as a dip, 30 g/L";

export const saltBath = calculation({
  name: "salt-bath",
  title: "Salt for a dip or bath",
  group: "doses",
  answers:
    "How much salt makes a bath of so many g/L or per cent weight in volume, what is there counted; and what is published for that strength, as orientation.",
  inputs: {
    strength: quantity("strength", "g/L", [0, 350], { optional: true }),
    percent: quantity("or strength, weight in volume", "%", [0, 35], { optional: true }),
    volume: volumeInput,
    present: quantity("salt that is there", "g/L", [0, 350], { otherwise: "0" }),
  },
  formula: ["grams = (strength - present) × volume", "1 % weight in volume = 10 g/L"],
  range: "pure sodium chloride, up to 350 g/L, about what dissolves",
  sources: [
    MASS_IN_WATER,
    "Francis-Floyd 1995, The Use of Salt in Aquaculture, VM-86, University of Florida: dips of 30 g/L for 30 s to 10 min, baths of 5 to 10 g/L for hours",
    "1 to 3 g/L for long: common practice; in veterinary manuals, recalled",
  ],
  caution:
    "The figures of others are orientation, no advice: species differ, and some die of what others stand. Try it on few animals, stay beside a dip, out at the first roll. Not for plants, many snails, soft-water fish, some catfish and loaches; the label, local rules and a veterinarian go before it. Dissolve the salt before the fish meet it.",
  examples: [
    {
      given: "strength=3 g/L volume=200 L",
      gives: { grams: "600 g", percent: "0.3 %" },
      from: "0.3 % weight in volume is 3 g/L: 3 × 200 = 600 g",
    },
    {
      given: "percent=1 volume=10 L",
      gives: { grams: "100 g", strength: "10 g/L" },
      from: "1 % weight in volume is 10 g/L: 100 g in 10 L",
    },
  ],
  compute(given) {
    const { volume, present } = given;
    const leads = oneOf(given, ["strength", "percent"]);
    if (isOutside(leads)) return leads;
    const strength = leads === "strength" ? given.strength! : gPerLFromPercentWV(given.percent!);
    if (isOutside(strength)) return strength;
    const missing = Math.max(0, strength - present);
    return [
      result("strength", "strength", "g/L", strength),
      result("percent", "in per cent weight in volume", "%", strength / 10),
      result(
        "grams",
        "salt to weigh",
        "g",
        map(productMg(missing * 1000, volume), (mg) => mg / 1000),
      ),
      result("published", "for that strength", "", publishedFor(strength)),
    ];
  },
});

function publishedFor(strength: number): string {
  return PUBLISHED.find(([from, to]) => strength >= from && strength <= to)?.[2] ?? NOT_PUBLISHED;
}
