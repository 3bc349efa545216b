import { CACO3_MG_PER_MEQ, hardnessMeqL } from "../../science/hardness.ts";
import { isOutside, outside } from "../../science/result.ts";
import { waterFigures } from "../../science/water.ts";
import { calculation, quantity, result } from "../calculation.ts";

const NO_HARDNESS = outside("there is neither calcium nor magnesium");

export const hardness = calculation({
  name: "hardness",
  title: "Hardness from calcium and magnesium",
  group: "hardness and salts",
  answers:
    "The general hardness that calcium and magnesium make together, how much of it each makes, and their ratio by weight and by number.",
  inputs: {
    calcium: quantity("calcium", "mg/L", [0, 10_000], { from: "reading calcium" }),
    magnesium: quantity("magnesium", "mg/L", [0, 10_000], { from: "reading magnesium" }),
  },
  formula: ["hardness as CaCO3 = 2.497 × Ca + 4.118 × Mg", "1 dGH = 10 mg/L CaO = 17.848 mg/L CaCO3"],
  range: "any amount; strontium and other metals, little in most waters, are not counted",
  sources: [
    "Standard Methods for the Examination of Water and Wastewater, 2340 B, the factors anew from the atomic weights of CIAAW 2021",
    "definition of the German degree",
  ],
  examples: [
    {
      given: "calcium=50 mg/L magnesium=10 mg/L",
      gives: { "as-CaCO3": "166 mg/L CaCO3", GH: "9.3 dGH", "by-weight": "5", "from-calcium": "75.2 %" },
      from: "2.497 × 50 + 4.118 × 10 = 166.0, by 17.848 a degree 9.30; 50 / 10 = 5; 124.9 of 166.0 are of calcium",
    },
  ],
  compute({ calcium, magnesium }) {
    const figures = waterFigures({ calciumMgL: calcium, magnesiumMgL: magnesium });
    if (isOutside(figures)) return figures;
    const calciumShare = (100 * hardnessMeqL(calcium, 0)) / figures.hardnessMeqL;
    const { calciumToMagnesiumByMass: byMass, calciumToMagnesiumByMole: byMole } = figures;
    return [
      result("GH", "general hardness", "dGH", figures.hardnessDGH),
      result(
        "as-CaCO3",
        "the same as calcium carbonate",
        "mg/L CaCO3",
        figures.hardnessMeqL * CACO3_MG_PER_MEQ,
      ),
      result("meq", "the same in equivalents", "meq/L", figures.hardnessMeqL),
      result(
        "from-calcium",
        "of it from calcium",
        "%",
        figures.hardnessMeqL > 0 ? calciumShare : NO_HARDNESS,
      ),
      result("by-weight", "calcium to 1 of magnesium, by weight", "", byMass),
      result("by-number", "calcium to 1 of magnesium, by number", "", byMole),
    ];
  },
});
