import {
  chlorideForNitriteMgL,
  copperSulfateCeilingMgL,
  formalinOxygenMgL,
  gPerLFromPercentWV,
  liquidForMassML,
  liquidML,
  productMg,
  redoseMg,
  saltForChloride,
  stockML,
} from "../../../language/science/dosing.ts";
import { map } from "../../../language/science/result.ts";
import { cylinderL } from "../../../language/science/volume.ts";
import { converted, type Inputs } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

/** The mass of product, in the unit of the row. */
function mass(mgL: number, volumeL: number, unit: string, active = 1) {
  const plain = unit.split(" ")[0]!;
  return map(productMg(mgL, volumeL, active), (mg) => converted(mg, "mg", plain));
}

/** A volume stated, or that of a round vat. */
function volumeL(given: Inputs): number {
  const keys = [...given.values.keys()];
  if (keys.some((key) => key.startsWith("diam_")))
    return cylinderL(given.in("diam", "cm"), given.in("D", "cm"));
  return given.in("V", "L");
}

const forOnePpm = (given: Inputs) => mass(1, given.in("V", "L"), given.unit);

/** g/L of salt water, weight in volume, by percentage or parts per thousand. */
const strengthGPerL = (given: Inputs) =>
  given.has("percent") ? gPerLFromPercentWV(given.number("percent")) : given.number("ppt");

/** File 09. */
export const dosing: Calculations = {
  mass_for_1ppm: forOnePpm,
  mass_for_1ppm_grain: forOnePpm,
  mass_for_1ppm_lb: forOnePpm,
  formalin_volume: (given) =>
    given.has("conc_ppm_v")
      ? liquidML(given.number("conc_ppm_v"), volumeL(given))
      : liquidForMassML(given.number("conc_ppm_w"), volumeL(given), given.number("formalin_density_g_mL")),
  copper_sulfate_mass_lb: (given) =>
    mass(given.in("Cu", "mg/L"), given.in("V", "L"), "lb", given.number("percent_Cu") / 100),
  dose_by_acre_ft_lb: (given) => given.number("rate_lb_acre_ft") * given.number("V_acre_ft"),
  oxygen_demand_of_formalin: (given) => formalinOxygenMgL(given.number("formalin_ppm")),
  copper_sulfate_max_ppm: (given) => copperSulfateCeilingMgL(given.in("alk", "mg/L CaCO3")),
  copper_sulfate_lb: (given) => mass(given.number("conc_ppm"), given.in("V", "L"), "lb"),
  chloride_target_for_nitrite: (given) =>
    chlorideForNitriteMgL(given.number("nitrite_ppm"), given.number("ratio", 10)),
  salt_for_chloride: (given) => saltForChloride((given.in("Cl", "mg/L") * given.in("V", "L")) / 1000),
  product_mass_for_ppm: (given) =>
    mass(given.in("dose", "mg/L"), given.in("V", "L"), given.unit, given.number("percent_active", 100) / 100),
  salt_mass_w_v: (given) => mass(strengthGPerL(given) * 1000, given.in("V", "L"), given.unit),
  stock_volume_for_dose: (given) => {
    const stock = given.has("stock_percent_w_v")
      ? gPerLFromPercentWV(given.number("stock_percent_w_v"))
      : given.in("stock", "g/L");
    return stockML(given.in("dose", "mg/L"), given.in("V", "L"), stock);
  },
  redose_after_change_mg: (given) =>
    redoseMg(given.in("dose", "mg/L"), given.number("fraction_changed"), given.in("V", "L")),
};
