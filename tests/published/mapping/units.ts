import { calciumMgL, hardnessMgLCaCO3, magnesiumMgL } from "../../../language/science/hardness.ts";
import { cylinderL, polygonL, rectangleL, trapezoidL } from "../../../language/science/volume.ts";
import { type Calculation, type Calculations, gives, named } from "../calculation.ts";
import type { Inputs } from "../inputs.ts";

const LENGTH = ["L", "length"];
const WIDTH = ["W", "width"];
const DEPTH = ["D", "H", "depth", "height", "h"];
const CALCIUM = ["Ca", "x_Ca", "calcium"];
const MAGNESIUM = ["Mg", "x_Mg", "magnesium"];

const rectangle = (given: Inputs) =>
  rectangleL(given.in(LENGTH, "cm"), given.in(WIDTH, "cm"), given.in(DEPTH, "cm"));

/** A round vat, by its diameter or its radius. */
export const cylinder = (given: Inputs) =>
  cylinderL(
    given.hasIn("r", "cm") ? 2 * given.in("r", "cm") : given.in(["diam", "diameter"], "cm"),
    given.in(DEPTH, "cm"),
  );
const trapezoid = (given: Inputs) =>
  trapezoidL(given.in("a", "cm"), given.in("b", "cm"), given.in("h", "cm"), given.in(["D", "depth"], "cm"));
const hardness = gives("mg/L CaCO3", (given) =>
  hardnessMgLCaCO3(given.in(CALCIUM, "mg/L", 0), given.in(MAGNESIUM, "mg/L", 0)),
);
const hardnessOf = (metal: "Ca" | "Mg"): Calculation =>
  gives("mg/L CaCO3", (given) =>
    metal === "Ca"
      ? hardnessMgLCaCO3(given.in(CALCIUM, "mg/L"), 0)
      : hardnessMgLCaCO3(0, given.in(MAGNESIUM, "mg/L")),
  );
const metalOf = (perMeq: typeof calciumMgL): Calculation =>
  gives("mg/L", (given) => perMeq(given.in(["x", "hardness", "GH"], "meq/L")));

/** Files 05 and 07, but for plain conversions. */
export const units: Calculations = {
  ...named(["hardness_from_ca_mg", "hardness_from_Ca_Mg", "total_hardness"], hardness),
  ...named(["hardness_factor_ca", "calcium_hardness", "hardness_from_ca"], hardnessOf("Ca")),
  ...named(["hardness_factor_mg", "magnesium_hardness", "hardness_from_mg"], hardnessOf("Mg")),
  ...named(["dH_to_mgCa", "dGH_to_mgCa", "mgCa_per_dH", "mgCaCO3_to_mgCa"], metalOf(calciumMgL)),
  ...named(["dH_to_mgMg", "dGH_to_mgMg", "mgMg_per_dH", "mgCaCO3_to_mgMg"], metalOf(magnesiumMgL)),

  ...named(["tank_volume_rect", "volume_rect", "tank_volume"], gives("L", rectangle)),
  ...named(["tank_volume_cyl", "volume_cyl", "tank_volume_cylinder"], gives("L", cylinder)),
  ...named(["volume_trapezoid", "tank_volume_trapezoid"], gives("L", trapezoid)),
  ...named(
    ["tank_volume_hex", "volume_hex", "volume_polygon", "tank_volume_polygon"],
    gives("L", (given) =>
      polygonL(given.number(["sides", "n"], 6), given.in(["side", "s"], "cm"), given.in(DEPTH, "cm")),
    ),
  ),
};
