import { chlorideForNitriteMgL, saltForChloride } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";

export const nitriteChloride = calculation({
  name: "nitrite-chloride",
  title: "Salt against nitrite",
  group: "ammonia",
  answers:
    "How much chloride stands against this nitrite by the ratio that fish farms use, and how much salt brings it, with the chloride that is there counted.",
  inputs: {
    nitrite: quantity("nitrite", "mg/L NO2", [0, 1000], { from: "reading nitrite" }),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    chloride: quantity("chloride that is there", "mg/L", [0, 30_000], {
      otherwise: "0",
      from: "reading chloride",
    }),
    ratio: quantity("chloride to 1 of nitrite, by weight", "", [1, 100], { otherwise: "10" }),
  },
  formula: [
    "chloride wanted = ratio × nitrite",
    "salt = (chloride wanted - chloride there) × volume × 58.44 / 35.45",
  ],
  range: "salt that is sodium chloride and nothing else; nitrite as the ion NO2",
  sources: [
    "Durborow, Crosby & Brunson 1997, Nitrite in Fish Ponds, SRAC Publication 462: 10 to 1 or more for catfish, more where fish are ill, 100 mg/L of chloride held as an insurance",
    "58.44 / 35.45: atomic weights of CIAAW 2021",
  ],
  caution:
    "The ratio is of farmed catfish; chloride does not protect every species, and the nitrite stays. Soft-water fish, snails and plants may be harmed by the salt itself: add it in parts, over hours. Take out the cause, change water; a veterinarian for animals that gasp.",
  examples: [
    {
      given: "nitrite=5 mg/L volume=1000 L",
      gives: { wanted: "50 mg/L", salt: "82.4 g" },
      from: "The publication's 10 to 1: 5 mg/L of nitrite ask for 50 mg/L of chloride; 50 × 1000 / 1000 × 1.6485 = 82.4 g",
    },
    {
      given: "nitrite=1 mg/L volume=60 L chloride=40",
      gives: { missing: "0 mg/L", salt: "0 g" },
      from: "10 mg/L are wanted and 40 are there: nothing is missing",
    },
  ],
  compute({ nitrite, volume, chloride, ratio }) {
    const wanted = chlorideForNitriteMgL(nitrite, ratio);
    if (isOutside(wanted)) return wanted;
    const missing = Math.max(0, wanted - chloride);
    const saltMgL = saltForChloride(missing);
    return [
      result("wanted", "chloride wanted", "mg/L", wanted),
      result("missing", "chloride to add", "mg/L", missing),
      result(
        "salt",
        "salt to weigh",
        "g",
        map(saltMgL, (mgL) => (mgL * volume) / 1000),
      ),
      result(
        "salt-g-L",
        "that is in each litre",
        "g/L",
        map(saltMgL, (mgL) => mgL / 1000),
      ),
    ];
  },
});
