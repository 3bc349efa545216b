import { isOutside, type Outside, outside } from "../../science/result.ts";
import { saltGramsToRaise, saltOf } from "../../science/salts.ts";
import { dissolving } from "../../science/solubility.ts";
import { PART_KEYS, PARTS, waterFigures, withSalts } from "../../science/water.ts";
import { calculation, choice, quantity, result, words } from "../calculation.ts";
import { saltNamed } from "./salt-named.ts";

/** Of the air of a room: about what stands outdoors. */
const CO2_IN_AIR_PPM = 420;

export const saltForHardness = calculation({
  name: "salt-for-hardness",
  title: "Salt for hardness or alkalinity",
  group: "hardness and salts",
  answers:
    "How many grams of one salt raise the general hardness or the alkalinity of a volume by so many degrees, and what else it brings.",
  inputs: {
    salt: words("salt", "CaCl2.2H2O"),
    raise: quantity("rise wanted", "dGH", [0, 10_000]),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    of: choice("of which, if the salt brings both", ["GH", "KH"], { optional: true }),
  },
  formula: [
    "mg/L for one dGH = molar mass × 0.178326 / (calcium + magnesium in the formula)",
    "mg/L for one dKH = molar mass × 0.356652 / equivalents of alkalinity in the formula",
    "grams = mg/L × degrees × volume / 1000",
  ],
  range:
    "pure salts, with the water of crystallisation that the formula states, dissolved in full; a carbonate counts once it has taken up carbon dioxide",
  sources: [
    "definition of the degrees, with the standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600",
    "what dissolves: Lebedev & Kosorukov 2017, Geochem. Int. 55:205-210 (gypsum); Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040 (calcium carbonate)",
  ],
  caution:
    "Hardness changed in one step is a shock to animals: spread it over days, and dissolve the salt before it meets them. Damp salts weigh more than their formula. Use a grade meant for food.",
  examples: [
    {
      given: "salt=NaHCO3 raise=3 dKH volume=100 L",
      gives: { grams: "8.99 g", KH: "3 dKH", GH: "0 dGH" },
      from: "84.006 × 0.356652 = 29.961 mg/L for one dKH; × 3 × 100 / 1000 = 8.99 g",
    },
    {
      given: "salt=gypsum raise=4 volume=200 L",
      gives: { grams: "24.6 g", GH: "4 dGH" },
      from: "172.164 × 0.178326 = 30.70 mg/L for one dGH; × 4 × 200 / 1000 = 24.6 g",
    },
  ],
  compute({ salt, raise, volume, of }) {
    const formula = saltNamed("salt", salt);
    if (isOutside(formula)) return formula;
    const which = of ?? broughtBy(formula);
    if (isOutside(which)) return which;
    const grams = saltGramsToRaise(formula, volume, raise, which);
    if (isOutside(grams)) return grams;
    const water = withSalts({}, { [formula]: grams }, volume);
    if (isOutside(water)) return water;
    const figures = waterFigures(water);
    if (isOutside(figures)) return figures;
    const remarks = dissolving([formula], water, CO2_IN_AIR_PPM);
    if (isOutside(remarks)) return remarks;
    return [
      result("grams", `${formula} to weigh`, "g", grams),
      result("each-litre", "the same in each litre", "mg/L", (grams * 1000) / volume),
      result("GH", "rise of general hardness", "dGH", figures.hardnessDGH),
      result("KH", "rise of alkalinity", "dKH", figures.alkalinityDKH),
      ...PART_KEYS.filter((part) => part !== "alkalinityMeqL" && water[part] !== undefined).map((part) =>
        result(PARTS[part].name, `${PARTS[part].name} it brings`, PARTS[part].unit, water[part]!),
      ),
      ...remarks.map((remark, at) => result(`remark-${at + 1}`, "mind", "", remark)),
    ];
  },
});

/** The one of the two that a salt brings. */
function broughtBy(formula: string): "GH" | "KH" | Outside {
  const salt = saltOf(formula);
  if (isOutside(salt)) return salt;
  const isHard = (salt.ions.Ca ?? 0) + (salt.ions.Mg ?? 0) > 0;
  const isAlkaline = salt.alkalinity > 0;
  if (isHard && isAlkaline) return outside(`${formula} brings both: say of=GH or of=KH`);
  if (isHard) return "GH";
  return isAlkaline ? "KH" : outside(`${formula} brings neither hardness nor alkalinity`);
}
