import { type Brought, broughtTogether, gramsFor } from "../../science/fertiliser.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { ionFraction, saltOf } from "../../science/salts.ts";
import { calculation, quantity, type Result, result, words } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { formulaNamed } from "./salt-named.ts";

export const fertiliser = calculation({
  name: "fertiliser",
  title: "Fertiliser by weight",
  group: "hardness and salts",
  answers:
    "What grams of a salt add to a volume, by element and ion; or how many grams a wanted rise of one of them takes.",
  inputs: {
    salt: words("salt", "KNO3"),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    mass: quantity("weighed", "g", [0, 1e9], { optional: true }),
    rise: quantity("or rise wanted", "mg/L", [0, 1e6], { optional: true }),
    of: words("rise of which element or ion", "NO3", { optional: true }),
  },
  formula: [
    "mg/L = grams × 1000 / volume × share of the element or ion in the salt",
    "grams = rise × volume / 1000 / share",
  ],
  range:
    "a pure salt dissolved in full; nothing taken up, so that the figures are upper bounds in a planted tank",
  sources: [
    "mass balance; standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600; of trace elements recalled",
  ],
  caution:
    "Copper, zinc and ammonium salts harm animals at little: shrimp and snails first. Urea becomes ammonia in the tank. Weigh salts of a known grade, and keep what is added written down.",
  examples: [
    {
      given: "salt=KNO3 volume=100 L rise=10 mg/L of=NO3",
      gives: { mass: "1.63 g", NO3: "10 mg/L", K: "6.31 mg/L" },
      from: "61.33 % of potassium nitrate is nitrate: 10 × 100 / 1000 / 0.6133 = 1.63 g; with it 1.63 × 10 × 0.3867 = 6.31 mg/L of potassium",
    },
    {
      given: "salt=KH2PO4 volume=60 L mass=0.1 g",
      gives: { PO4: "1.16 mg/L", K: "0.479 mg/L", P: "0.379 mg/L" },
      from: "0.1 g in 60 L are 1.667 mg/L, of them 69.79 % phosphate: 1.163",
    },
  ],
  compute(given) {
    const { salt, volume, rise, of } = given;
    const formula = formulaNamed("salt", salt);
    if (isOutside(formula)) return formula;
    const leads = oneOf(given, ["mass", "rise"]);
    if (isOutside(leads)) return leads;
    if (leads === "rise" && of === undefined)
      return outside("of is missing: the element or ion that is to rise, of=NO3");
    const mass = leads === "mass" ? given.mass! : risen(formula, of!.trim(), rise!, volume);
    if (isOutside(mass)) return mass;
    const brought = broughtTogether([{ grams: mass, formula }], volume);
    if (isOutside(brought)) return brought;
    return [
      result("mass", `${formula} to weigh`, "g", mass),
      ...Object.entries(brought.elementsMgL).map(([element, mgL]) =>
        result(element, `adds ${element}`, "mg/L", mgL),
      ),
      ...ions(formula, brought, (mass * 1000) / volume),
      ...canBeFree(brought),
    ];
  },
});

function risen(formula: string, species: string, rise: number, volumeL: number): Figure {
  const grams = gramsFor(formula, species, rise, volumeL);
  return isOutside(grams) ? outside(`of: ${grams.outside}`) : grams;
}

/** Those that are no element. */
function ions(formula: string, { elementsMgL }: Brought, mgL: number): Result[] {
  const salt = saltOf(formula);
  if (isOutside(salt)) return [];
  return Object.keys(salt.ions)
    .filter((ion) => !Object.hasOwn(elementsMgL, ion))
    .map((ion) => {
      const share = ionFraction(formula, ion);
      return result(ion, `as ${ion}`, "mg/L", isOutside(share) ? share : share * mgL);
    });
}

function canBeFree({ ammoniumMgLN, ureaMgLN }: Brought): Result[] {
  const total = ammoniumMgLN + ureaMgLN;
  return total > 0 ? [result("ammonia", "of it ammonia, or urea that becomes it", "mg/L N", total)] : [];
}
