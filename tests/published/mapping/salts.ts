import { ATOMIC_WEIGHT, molarMass } from "../../../language/science/elements.ts";
import { type Figure, map } from "../../../language/science/result.ts";
import {
  ionFraction,
  saltGramsToRaise,
  saltMgLPerDGH,
  saltMgLPerDKH,
  speciesMgL,
} from "../../../language/science/salts.ts";
import { type Calculation, type Calculations, chain, gives, named } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";

const SALT = ["salt", "formula", "compound"];
const salt = (given: Inputs) => given.text(SALT);

const perDegree = (of: (formula: string) => Figure, degree: "dGH" | "dKH"): Calculation =>
  gives("mg/L", (given) =>
    map(of(salt(given)), (mgL) => mgL * given.in(["x", "GH", "KH", "hardness", "alk"], degree, 1)),
  );

/** `raise_dKH=3`, or in another unit with the word for which of the two. */
function raised(given: Inputs): Figure {
  const volumeL = given.in(["V", "volume"], "L");
  for (const kind of ["GH", "KH"] as const) {
    const degree = `raise_d${kind}`;
    const stems = [`raise_${kind}`, kind === "GH" ? "raise_hardness" : "raise_alk"];
    if (given.has(degree)) return saltGramsToRaise(salt(given), volumeL, given.number(degree), kind);
    if (given.hasIn(stems, `d${kind}`))
      return saltGramsToRaise(salt(given), volumeL, given.in(stems, `d${kind}`), kind);
  }
  throw new MissingInput("no input raise_dGH or raise_dKH");
}

/** File 10. */
export const salts: Calculations = {
  ...named(
    ["atomic_weight", "atomic_mass"],
    gives("g/mol", (given) => {
      const element = given.text(["element", "symbol"]);
      if (!Object.hasOwn(ATOMIC_WEIGHT, element))
        throw new MissingInput(`element ${element} is not in the table`);
      return ATOMIC_WEIGHT[element]!;
    }),
  ),
  ...named(
    ["molar_mass", "molecular_weight"],
    gives("g/mol", (given) => molarMass(salt(given))),
  ),
  salt_mg_L_per_dGH: perDegree(saltMgLPerDGH, "dGH"),
  salt_mg_L_per_dKH: perDegree(saltMgLPerDKH, "dKH"),
  ...named(
    ["ion_mass_fraction", "element_mass_fraction", "ion_fraction"],
    gives("fraction", (given) => ionFraction(salt(given), given.text(["ion", "element"]))),
  ),
  ...named(
    ["ion_from_salt", "ion_conc_from_salt"],
    gives("mg/L", (given) =>
      chain(
        ionFraction(salt(given), given.text(["ion", "element"])),
        (part) => part * given.in(["x", "salt", "conc"], "mg/L"),
      ),
    ),
  ),
  ...named(
    ["salt_for_ion", "salt_conc_for_ion"],
    gives("mg/L", (given) =>
      chain(
        ionFraction(salt(given), given.text(["ion", "element"])),
        (part) => given.in(["x", "ion", "conc"], "mg/L") / part,
      ),
    ),
  ),
  species_conversion: gives("mg/L", (given) => {
    const [from = "", to = ""] = given.text("convert").split("_to_");
    return speciesMgL(given.in("x", "mg/L"), from, to);
  }),
  ...named(["salt_mass_to_raise", "salt_mass_for_raise"], gives("g", raised)),
};
