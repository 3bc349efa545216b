import {
  ammoniaReleasedMgLN,
  combinedChlorineMgL,
  type ThiosulfateForm,
  type ThiosulfatePath,
  thiosulfateMg,
  thiosulfateMgPerMg,
} from "../../../language/science/chlorine.ts";
import { type Figure, outside } from "../../../language/science/result.ts";
import { type Calculations, gives, named } from "../calculation.ts";
import type { Inputs } from "../inputs.ts";

const TOTAL = ["Cl2", "Cl", "total", "chlorine"];
const COMBINED = ["combined", "chloramine", "NH2Cl", "Cl2"];

/** `anhydrous` or `pentahydrate`, by a word or a formula; the crystals where nothing is said. */
function form(given: Inputs): ThiosulfateForm {
  const said = given.has("form")
    ? given.text("form")
    : given.has("salt")
      ? given.text("salt")
      : "pentahydrate";
  return /penta|5 ?H2O/i.test(said) ? "pentahydrate" : "anhydrous";
}

/** By the path's product, or by moles of thiosulfate for one of chlorine. */
function path(given: Inputs): ThiosulfatePath | undefined {
  const said = given.has("path")
    ? given.text("path")
    : given.has("mol_ratio")
      ? given.text("mol_ratio")
      : "2";
  const paths: Readonly<Record<string, ThiosulfatePath>> = {
    "2": "tetrathionate",
    "2:1": "tetrathionate",
    "1": "sulfur",
    "1:1": "sulfur",
    "0.25": "sulfate",
    "1:4": "sulfate",
    tetrathionate: "tetrathionate",
    sulfur: "sulfur",
    sulfate: "sulfate",
  };
  return paths[said];
}

function byPath(given: Inputs, figure: (of: ThiosulfatePath) => Figure): Figure {
  const of = path(given);
  return of === undefined ? outside("there is no such path of thiosulfate and chlorine") : figure(of);
}

/** What no file of ours has rows of: chlorine and what takes it up. */
export const chlorine: Calculations = {
  ...named(
    ["thiosulfate_per_chlorine", "thiosulfate_ratio"],
    gives("mg/mg", (given) => byPath(given, (of) => thiosulfateMgPerMg(form(given), of))),
  ),
  ...named(
    ["thiosulfate_mass", "thiosulfate_for_chlorine", "sodium_thiosulfate_mass"],
    gives("mg", (given) =>
      byPath(given, (of) =>
        thiosulfateMg(given.in(TOTAL, "mg/L"), given.in(["V", "volume"], "L"), form(given), of),
      ),
    ),
  ),
  combined_chlorine: gives("mg/L", (given) =>
    combinedChlorineMgL(given.in("total", "mg/L"), given.in("free", "mg/L")),
  ),
  ...named(
    ["chloramine_ammonia", "ammonia_from_chloramine", "ammonia_released"],
    gives("mg/L N", (given) =>
      ammoniaReleasedMgLN(given.in(COMBINED, "mg/L"), given.share(["fraction", "f"], ["percent"], 1)),
    ),
  ),
};
