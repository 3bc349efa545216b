import { atoms, molarMass } from "../../science/elements.ts";
import { isOutside } from "../../science/result.ts";
import { ionFraction, saltMgLPerDGH, saltMgLPerDKH, saltOf } from "../../science/salts.ts";
import { calculation, result, words } from "../calculation.ts";
import { formulaNamed } from "./salt-named.ts";

export const saltContent = calculation({
  name: "salt-content",
  title: "What a salt is made of",
  group: "hardness and salts",
  answers:
    "The molar mass of a salt, the share of its weight that is each ion and element, and how much of it makes one degree of hardness or alkalinity in a litre.",
  inputs: { salt: words("salt", "KNO3") },
  formula: [
    "share = atoms or ions in the formula × their mass / molar mass",
    "mg/L for one dGH = molar mass × 0.178326 / (calcium + magnesium); for one dKH × 0.356652 / equivalents",
  ],
  range: "a pure salt, with the water of crystallisation that the formula states",
  sources: [
    "standard atomic weights of CIAAW 2021: Prohaska and others 2022, Pure Appl. Chem. 94:573-600; of trace elements recalled",
  ],
  examples: [
    {
      given: "salt=KNO3",
      gives: { "molar-mass": "101.102 g/mol", NO3: "61.3 %", K: "38.7 %", N: "13.9 %" },
      from: "39.098 + 14.007 + 3 × 15.999 = 101.102; of it 62.004 are nitrate and 39.098 potassium",
    },
  ],
  compute({ salt }) {
    const formula = formulaNamed("salt", salt);
    if (isOutside(formula)) return formula;
    const held = atoms(formula);
    const mass = molarMass(formula);
    if (isOutside(held) || isOutside(mass)) return isOutside(held) ? held : (mass as never);
    const known = saltOf(formula);
    const ions = isOutside(known) ? [] : Object.keys(known.ions);
    const parts = [...new Set([...ions, ...[...held.keys()].filter((element) => !PLAIN.has(element))])];
    const perDegree = [
      result("per-dGH", "for one degree of hardness", "mg/L", saltMgLPerDGH(formula)),
      result("per-dKH", "for one degree of alkalinity", "mg/L", saltMgLPerDKH(formula)),
    ];
    return [
      result("molar-mass", `${formula}, a mole`, "g/mol", mass, 6),
      ...parts.map((part) => {
        const share = ionFraction(formula, part);
        return result(part, `of it ${part}`, "%", isOutside(share) ? share : share * 100);
      }),
      ...perDegree.filter(({ value }) => typeof value === "number"),
    ];
  },
});

/** In too many salts to be told apart by. */
const PLAIN: ReadonlySet<string> = new Set(["H", "O", "C"]);
