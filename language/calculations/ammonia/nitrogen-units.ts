import { molarMass } from "../../science/elements.ts";
import { outside } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";

/** What each is stated as, the form of its input first. */
const FORMS = {
  ammonia: ["N", "NH3", "NH4"],
  nitrite: ["NO2", "N"],
  nitrate: ["NO3", "N"],
  phosphate: ["PO4", "P"],
} as const;

export const nitrogenUnits = calculation({
  name: "nitrogen-units",
  title: "Ammonia, nitrite, nitrate, phosphate: as N or P, as the ion",
  group: "ammonia",
  answers:
    "What a reading of ammonia, nitrite, nitrate or phosphate is in the other way of stating it: as nitrogen or phosphorus, as the molecule or ion. Give one or several, in the unit of the test.",
  inputs: {
    ammonia: quantity("ammonia", "mg/L N", [0, 10_000], { optional: true, from: "reading ammonia" }),
    nitrite: quantity("nitrite", "mg/L NO2", [0, 10_000], { optional: true, from: "reading nitrite" }),
    nitrate: quantity("nitrate", "mg/L NO3", [0, 10_000], { optional: true, from: "reading nitrate" }),
    phosphate: quantity("phosphate", "mg/L PO4", [0, 10_000], {
      optional: true,
      from: "reading phosphate",
    }),
  },
  formula: [
    "as ion = as N × molar mass of the ion / 14.007, as P × 94.970 / 30.974",
    "NH3 1.216, NH4 1.288, NO2 3.284, NO3 4.427, PO4 3.066 times",
  ],
  range: "any amount",
  sources: [
    "definition, with the standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600",
  ],
  examples: [
    {
      given: "nitrate=10 mg/L N ammonia=1 mg/L N nitrite=1 mg/L N phosphate=1 mg/L P",
      gives: {
        "nitrate-NO3": "44.27 mg/L NO3",
        "ammonia-NH4": "1.288 mg/L NH4",
        "nitrite-NO2": "3.284 mg/L NO2",
        "phosphate-PO4": "3.066 mg/L PO4",
      },
      from: "10 × 62.004 / 14.007 = 44.27; the factors 1.288, 3.284 and 3.066 are those of water reports, as it is the same division",
    },
  ],
  compute(given) {
    const results: Result[] = [];
    for (const [name, forms] of Object.entries(FORMS)) {
      const value = given[name as keyof typeof FORMS];
      if (value === undefined) continue;
      const element = name === "phosphate" ? "P" : "N";
      // Each of these molecules holds one atom of its element, so that their masses are to each other as they are.
      const mass = (form: string): number => molarMass(form) as number;
      for (const form of forms) {
        const mgL = (value * mass(form)) / mass(forms[0]);
        const said = form === element ? `${name} as ${element}` : `${name} as ${form}`;
        results.push(result(`${name}-${form}`, said, `mg/L ${form}`, mgL, 4));
      }
    }
    return results.length > 0 ? results : outside("none of ammonia, nitrite, nitrate, phosphate is given");
  },
});
