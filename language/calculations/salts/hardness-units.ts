import { convert } from "../../quantity/quantity.ts";
import { unitOf } from "../../quantity/units.ts";
import { calciumMgL, magnesiumMgL } from "../../science/hardness.ts";
import { calculation, quantity, result } from "../calculation.ts";

/** Every way of stating it, with what it is called. */
const SAID = [
  ["dGH", "German degrees, of hardness"],
  ["dKH", "German degrees, of alkalinity"],
  ["fH", "French degrees"],
  ["eH", "English (Clark) degrees"],
  ["gpg", "grains a US gallon"],
  ["mg/L CaCO3", "as calcium carbonate"],
  ["mg/L CaO", "as calcium oxide"],
  ["mg/L HCO3", "alkalinity as bicarbonate"],
  ["meq/L", "equivalents"],
  ["mmol/L Ca", "moles of calcium and magnesium"],
  ["mmol/L HCO3", "moles of acid taken up"],
] as const;

export const hardnessUnits = calculation({
  name: "hardness-units",
  title: "Hardness or alkalinity in every unit",
  group: "hardness and salts",
  answers:
    "What one figure of hardness or alkalinity is in the other units: degrees of each country, as calcium carbonate, equivalents, moles.",
  inputs: {
    value: quantity("hardness or alkalinity", "dGH", [0, 100_000]),
  },
  formula: [
    "1 dGH = 1 dKH = 10 mg/L CaO = 0.35665 meq/L; 1 fH = 10 mg/L CaCO3",
    "1 eH = 1 grain CaCO3 in an imperial gallon; 1 gpg = 1 grain in a US gallon",
    "1 meq/L = 50.043 mg/L CaCO3 = 61.016 mg/L HCO3 = 0.5 mmol/L Ca + Mg = 1 mmol/L of acid",
  ],
  range:
    "any amount. A degree of hardness and one of alkalinity are of one size and measure different things",
  sources: [
    "definition of each degree, with the standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600",
    "grain and gallons: NIST Special Publication 811 (2008), appendix B, exact",
  ],
  examples: [
    {
      given: "value=8 dGH",
      gives: {
        "mg/L CaCO3": "142.8 mg/L CaCO3",
        fH: "14.28 fH",
        "mmol/L Ca": "1.427 mmol/L Ca",
        "mg/L HCO3": "174.1 mg/L HCO3",
      },
      from: "8 × 17.848 = 142.8 mg/L CaCO3, a tenth of it in fH; 8 × 0.178326 = 1.427 mmol/L; 8 × 21.76 = 174.1 mg/L HCO3",
    },
  ],
  compute({ value }) {
    const own = unitOf("dGH");
    const meqL = convert(value, own, unitOf("meq/L"))!;
    return [
      ...SAID.map(([symbol, title]) =>
        result(symbol, title, symbol, convert(value, own, unitOf(symbol))!, 4),
      ),
      result("calcium", "were all of it calcium", "mg/L", calciumMgL(meqL), 4),
      result("magnesium", "were all of it magnesium", "mg/L", magnesiumMgL(meqL), 4),
    ];
  },
});
