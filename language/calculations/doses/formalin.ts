import { formalinOxygenMgL, liquidForMassML, liquidML } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { volumeInput } from "./shared.ts";

export const formalin = calculation({
  name: "formalin",
  title: "Formalin by volume or by weight",
  group: "doses",
  answers:
    "How many mL of formalin make so many uL/L or, by its density, mg/L in a volume; and about how much oxygen that uses up.",
  inputs: {
    target: quantity("wanted, by volume", "uL/L", [0, 1e6], { optional: true }),
    weight: quantity("or wanted, by weight", "mg/L", [0, 1e6], { optional: true }),
    volume: volumeInput,
    density: quantity("density of the formalin", "g/L", [900, 1200], { otherwise: "1080 g/L" }),
    oxygen: quantity("oxygen in the water", "mg/L", [0, 40], { optional: true, from: "reading oxygen" }),
  },
  formula: [
    "mL = uL/L × volume / 1000",
    "mL = mg/L × volume / density in g/L",
    "oxygen used = mg/L of formalin / 5, over a day or more",
  ],
  range: "formalin as it is sold, about 37 % formaldehyde, reckoned as the whole; well mixed",
  sources: [
    "Piper and others 1982, Fish Hatchery Management, U.S. Fish and Wildlife Service, p. 276: 1 ppm of oxygen for 5 ppm of formalin, by weight",
    "Francis-Floyd, Use of Formalin to Control Fish Parasites, VM-77, University of Florida (1996): the same in mg/L",
    "density of about 1.08 g/mL: common practice",
  ],
  caution:
    "Formaldehyde burns eyes and lungs, sensitises, and causes cancer in people: gloves, goggles, moving air, a closed vessel; where it may be used at all the law of the place says. No advice on a dose: the label and a veterinarian go before this. By volume and by weight are 8 % apart: know which is meant. Aerate strongly; it takes oxygen over the next day, more animals die of it in warm and soft water, and tetras died of 1-h baths that other fish stood (100 and 250 uL/L, juvenile Hemigrammus). A white deposit or storage in the cold makes it far more toxic: discard it. Never with permanganate.",
  examples: [
    {
      given: "weight=167 mg/L volume=10 US gal",
      gives: { liquid: "5.85 mL" },
      from: "The manual of 1982 has 5.9 mL for 10 US gal at 167 ppm by weight: 167 × 37.85 / 1080 = 5.85",
    },
    {
      given: "target=25 uL/L volume=100 L oxygen=7",
      gives: { liquid: "2.5 mL", "by-weight": "27 mg/L", used: "5.4 mg/L", left: "1.6 mg/L" },
      from: "25 × 100 / 1000 = 2.5 mL; 25 × 1.08 = 27 mg/L, a fifth of it 5.4 mg/L of oxygen",
    },
  ],
  compute(given) {
    const { volume, density, oxygen } = given;
    const leads = oneOf(given, ["target", "weight"]);
    if (isOutside(leads)) return leads;
    const gPerML = density / 1000;
    const byWeight = leads === "weight" ? given.weight! : given.target! * gPerML;
    const liquid =
      leads === "target" ? liquidML(given.target!, volume) : liquidForMassML(given.weight!, volume, gPerML);
    const used = formalinOxygenMgL(byWeight);
    return [
      result("liquid", "formalin to measure", "mL", liquid),
      result("by-volume", "that is by volume", "uL/L", byWeight / gPerML),
      result("by-weight", "and by weight", "mg/L", byWeight),
      result("used", "oxygen it uses up, about", "mg/L", used, 2),
      ...(oxygen === undefined
        ? []
        : [
            result(
              "left",
              "oxygen left, were none to come in",
              "mg/L",
              map(used, (mgL) => Math.max(0, oxygen - mgL)),
              2,
            ),
          ]),
    ];
  },
});
