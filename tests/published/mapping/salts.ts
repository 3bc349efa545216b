import { ATOMIC_WEIGHT, molarMass } from "../../../language/science/elements.ts";
import { map } from "../../../language/science/result.ts";
import {
  ionFraction,
  saltGramsToRaise,
  saltMgLPerDGH,
  saltMgLPerDKH,
  speciesMgL,
} from "../../../language/science/salts.ts";
import { MissingInput } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

/** File 10. */
export const salts: Calculations = {
  atomic_weight: (given) => {
    const weight = ATOMIC_WEIGHT[given.text("element")];
    if (weight === undefined) throw new MissingInput(`element ${given.text("element")} is not in the table`);
    return weight;
  },
  molar_mass: (given) => molarMass(given.text("formula")),
  salt_mg_L_per_dGH: (given) => map(saltMgLPerDGH(given.text("salt")), (mgL) => mgL * given.number("x_dGH")),
  salt_mg_L_per_dKH: (given) => map(saltMgLPerDKH(given.text("salt")), (mgL) => mgL * given.number("x_dKH")),
  ion_mass_fraction: (given) => ionFraction(given.text("salt"), given.text("ion")),
  species_conversion: (given) => {
    const [from = "", to = ""] = given.text("convert").split("_to_");
    return speciesMgL(given.number("x_mg_L"), from, to);
  },
  salt_mass_to_raise: (given) => {
    const of = given.has("raise_dGH") ? "GH" : "KH";
    const degrees = given.number(`raise_d${of}`);
    return saltGramsToRaise(given.text("salt"), given.in("V", "L"), degrees, of);
  },
};
