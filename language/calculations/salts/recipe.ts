import { isOutside } from "../../science/result.ts";
import { calculation, quantity, words } from "../calculation.ts";
import { madeWater } from "./made-water.ts";
import { sourceInputs, sourceStated, sourceWater } from "./source.ts";

export const recipe = calculation({
  name: "recipe",
  title: "Salts for a wanted water",
  group: "hardness and salts",
  answers:
    "How much of each salt of a list makes the wanted hardness, alkalinity, ratio of calcium to magnesium and ions out of a source water; what water comes out, and what is not reached and why.",
  inputs: {
    wanted: words("wanted", "GH 6, KH 4, Ca:Mg 3"),
    salts: words("salts on the shelf", "CaCl2.2H2O, MgSO4.7H2O, KHCO3"),
    volume: quantity("volume to make", "L", [0, 1e9], { isAbove: true }),
    ...sourceInputs,
  },
  formula: [
    "each salt adds its ions in proportion: ion = grams × 1000 / volume × share of the ion in the salt",
    "grams of 0 or more that bring the wanted figures nearest: least squares of what each misses, in meq/L",
  ],
  range:
    "pure salts dissolved in full; salts only add; gypsum up to 14.7 mmol/L; what a water does not state counts as 0; a carbonate counts once it has taken up carbon dioxide",
  sources: [
    "least squares without negative amounts: Lawson & Hanson 1974, Solving Least Squares Problems, chapter 23",
    "standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600",
    "what dissolves: Lebedev & Kosorukov 2017, Geochem. Int. 55:205-210 (gypsum); Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040 (calcium carbonate)",
  ],
  caution:
    "Test the water before animals meet it: salts are damp, sources change. Spread a change of hardness over days.",
  examples: [
    {
      given:
        "wanted=GH 6, KH 4, Ca:Mg 3 salts=CaCl2.2H2O, MgSO4.7H2O, NaHCO3 volume=100 L source-GH=0 source-KH=0",
      gives: {
        "CaCl2.2H2O": "10.2 g",
        "MgSO4.7H2O": "9.35 g",
        NaHCO3: "12 g",
        GH: "6 dGH",
        KH: "4 dKH",
        "Ca:Mg": "3",
        missed: "nothing: all that is wanted is met",
      },
      from: "6 × 0.178326 = 1.070 mmol/L of hardness; at 3 to 1 by weight 64.53 % of them are calcium: 0.6904 × 147.01 × 0.1 = 10.15 g, the rest 0.3795 × 246.47 × 0.1 = 9.35 g; 4 × 0.356652 × 84.006 × 0.1 = 12.0 g",
    },
  ],
  compute(given) {
    const source = sourceWater(sourceStated(given));
    if (isOutside(source)) return source;
    const { wanted, salts, volume } = given;
    return madeWater({ waters: [source], salts, wanted, volumeL: volume }, () => []);
  },
});
