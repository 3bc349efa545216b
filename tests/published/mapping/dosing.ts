import {
  chlorideForNitriteMgL,
  concentrationFromStockMgL,
  concentrationMgL,
  copperSulfateCeilingMgL,
  formalinOxygenMgL,
  gPerLFromPercentWV,
  liquidForMassML,
  liquidML,
  productMg,
  redoseMg,
  saltForChloride,
  stockMassMg,
  stockML,
} from "../../../language/science/dosing.ts";
import { type Figure, map } from "../../../language/science/result.ts";
import { ionFraction } from "../../../language/science/salts.ts";
import { type Calculations, chain, gives, named } from "../calculation.ts";
import type { Inputs } from "../inputs.ts";
import { cylinder } from "./units.ts";

const DOSE = ["dose", "conc", "target"];

/** A volume stated, or that of a round vat. */
function volumeL(given: Inputs): Figure {
  return given.hasIn(["diam", "diameter", "r"], "cm") ? cylinder(given) : given.in(["V", "volume"], "L");
}
const plainL = (given: Inputs) => given.in(["V", "volume"], "L");

const grams = (mg: Figure): Figure => map(mg, (each) => each / 1000);
const active = (given: Inputs) =>
  given.share(["active_fraction", "fraction_active"], ["percent_active", "active_percent"], 1);

/** Strength of salt water or of a stock, g/L: by percentage or parts per thousand, weight in volume. */
function strengthGPerL(given: Inputs, of = ""): Figure {
  const percents = [`${of}percent_w_v`, `${of}percent`, `${of}pct`];
  if (given.has(percents)) return gPerLFromPercentWV(given.number(percents));
  if (given.has(`${of}ppt`)) return given.number(`${of}ppt`);
  return given.in(of === "" ? ["strength", "conc"] : of.slice(0, -1), "g/L");
}
const stock = (given: Inputs) => strengthGPerL(given, "stock_");

/** Formalin by volume of it in a volume of water, or by its weight. */
function formalin(given: Inputs): Figure {
  return chain(volumeL(given), (litres) =>
    given.has("conc_ppm_v")
      ? liquidML(given.number("conc_ppm_v"), litres)
      : liquidForMassML(
          given.number("conc_ppm_w"),
          litres,
          given.number(["formalin_density_g_mL", "density_g_mL"]),
        ),
  );
}

const copperSulfate = (given: Inputs): Figure => {
  // Of the pentahydrate, where nothing else is said.
  if (!given.hasIn("Cu", "mg/L"))
    return productMg(given.in(["conc", "dose", "CuSO4"], "mg/L"), plainL(given));
  const share = given.has(["percent_Cu", "fraction_Cu"])
    ? given.share("fraction_Cu", "percent_Cu")
    : ionFraction("CuSO4.5H2O", "Cu");
  return chain(share, (part) => productMg(given.in("Cu", "mg/L"), plainL(given), part));
};

const chlorideMgL = (given: Inputs): Figure =>
  chlorideForNitriteMgL(given.in(["nitrite", "NO2"], "mg/L"), given.number("ratio", 10));

/** A rate by the acre-foot is by that volume whatever its mass is in. */
const byVolume = (given: Inputs): Figure => grams(productMg(given.in("rate", "mg/L"), given.in("V", "L")));

/** File 09. */
export const dosing: Calculations = {
  ...named(
    ["mass_for_1ppm", "conversion_factor_1ppm"],
    gives("g", (given) => grams(productMg(1, plainL(given)))),
  ),
  formalin_volume: gives("mL", formalin),
  ...named(
    ["copper_sulfate_mass", "copper_sulfate"],
    gives("g", (given) => grams(copperSulfate(given))),
  ),
  ...named(["dose_by_acre_ft", "dose_by_volume_rate"], gives("g", byVolume)),
  ...named(
    ["oxygen_demand_of_formalin", "formalin_oxygen_demand"],
    gives("mg/L", (given) => formalinOxygenMgL(given.in("formalin", "ppm"))),
  ),
  ...named(
    ["copper_sulfate_max", "copper_sulfate_max_ppm", "copper_sulfate_ceiling"],
    gives("mg/L", (given) => copperSulfateCeilingMgL(given.in(["alk", "alkalinity", "KH"], "mg/L CaCO3"))),
  ),
  chloride_target_for_nitrite: gives("mg/L", chlorideMgL),
  ...named(
    ["salt_for_chloride", "nacl_for_chloride", "salt_mass_for_chloride"],
    gives("g", (given) => saltForChloride((given.in(["Cl", "chloride"], "mg/L") * plainL(given)) / 1000)),
  ),
  ...named(
    ["nacl_per_cl", "nacl_cl_ratio"],
    gives("ratio", (given) => saltForChloride(given.number("x", 1))),
  ),
  ...named(
    ["salt_for_nitrite", "nacl_for_nitrite", "salt_mass_for_nitrite"],
    gives("g", (given) =>
      chain(chlorideMgL(given), (wanted) =>
        saltForChloride(
          (Math.max(0, wanted - given.in(["Cl", "chloride", "Cl_present"], "mg/L", 0)) * plainL(given)) /
            1000,
        ),
      ),
    ),
  ),
  ...named(
    ["product_mass_for_ppm", "product_mass", "dose_mass"],
    gives("g", (given) => grams(productMg(given.in(DOSE, "mg/L"), plainL(given), active(given)))),
  ),
  ...named(
    ["conc_from_product_mass", "ppm_from_mass"],
    gives("mg/L", (given) => concentrationMgL(given.in(["m", "mass"], "mg"), plainL(given), active(given))),
  ),
  ...named(
    ["salt_mass_w_v", "salt_mass"],
    gives("g", (given) => chain(strengthGPerL(given), (gL) => grams(productMg(gL * 1000, plainL(given))))),
  ),
  ...named(
    ["stock_volume_for_dose", "stock_volume"],
    gives("mL", (given) => chain(stock(given), (gL) => stockML(given.in(DOSE, "mg/L"), plainL(given), gL))),
  ),
  ...named(
    ["conc_from_stock", "dose_from_stock_volume"],
    gives("mg/L", (given) =>
      chain(stock(given), (gL) =>
        concentrationFromStockMgL(given.in(["V_stock", "stock_V"], "mL"), plainL(given), gL),
      ),
    ),
  ),
  ...named(
    ["stock_mass", "mass_for_stock"],
    gives("g", (given) => chain(stock(given), (gL) => grams(stockMassMg(gL, given.in("V", "mL"))))),
  ),
  ...named(
    ["redose_after_change", "redose_mass"],
    gives("mg", (given) => {
      const changed = given.share(
        ["fraction_changed", "fraction", "f"],
        ["percent_changed", "percent", "pct"],
      );
      return redoseMg(given.in(DOSE, "mg/L"), changed, plainL(given));
    }),
  ),
  copper_fraction_of_copper_sulfate: gives("fraction", () => ionFraction("CuSO4.5H2O", "Cu")),
};
