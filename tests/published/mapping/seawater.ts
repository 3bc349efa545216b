import { map } from "../../../language/science/result.ts";
import {
  conductivityMSPerCm,
  densityKgPerM3,
  freezingPointC,
  ratioFromSalinity,
  salinityFromConductivity,
  salinityFromGravity,
  salinityFromRatio,
  specificGravity,
  t68FromC,
  volumeAnomaly,
} from "../../../language/science/seawater.ts";
import { type Calculations, gives, named } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";
import { SALINITY } from "./ammonia.ts";

/** A temperature of 1968 as it is; any other is one of 1990. */
function t68(given: Inputs, stem: string): number {
  if (given.hasIn(`${stem}68`, "C")) return given.in(`${stem}68`, "C");
  return t68FromC(given.in([stem, `${stem}90`, ...(stem === "T" ? ["temp", "temperature"] : [])], "C"));
}
const warmth = (given: Inputs) => t68(given, "T");
const reference = (given: Inputs) => t68(given, "Tref");
const salinity = (given: Inputs) => given.number(SALINITY);
const density = (given: Inputs) => densityKgPerM3(salinity(given), warmth(given));

/** Depth pressure in dbar, the surface where nothing is said. */
const depth = (given: Inputs) => given.number(["p_dbar", "P_dbar", "p"], 0);
function atSurface(given: Inputs): void {
  if (depth(given) !== 0) throw new MissingInput("the inverse is had at the surface only, p_dbar=0");
}

/** File 06. */
export const seawater: Calculations = {
  ...named(["density_eos80_p0", "density_seawater", "density_eos80"], gives("kg/m3", density)),
  ...named(
    ["density_pure_water", "density_freshwater"],
    gives("kg/m3", (given) => densityKgPerM3(0, warmth(given))),
  ),
  ...named(
    ["sigma_t", "sigma_t_p0", "sigma_eos80_p0"],
    gives("sigma", (given) => map(density(given), (each) => each - 1000)),
  ),
  ...named(
    ["specific_volume_p0", "specific_volume_eos80_p0"],
    gives("m3/kg", (given) => map(density(given), (each) => 1 / each)),
  ),
  ...named(
    ["specific_volume_anomaly_p0", "specific_volume_anomaly"],
    gives("1e-8 m3/kg", (given) => volumeAnomaly(salinity(given), warmth(given))),
  ),
  ...named(
    ["salinity_pss78", "salinity_from_conductivity_ratio"],
    gives("PSU", (given) => salinityFromRatio(given.number("R"), warmth(given), depth(given))),
  ),
  ...named(
    ["conductivity_ratio_pss78", "conductivity_ratio"],
    gives("R", (given) => {
      atSurface(given);
      return ratioFromSalinity(salinity(given), warmth(given));
    }),
  ),
  ...named(
    ["freezing_point_p0", "freezing_point"],
    gives("C", (given) => {
      atSurface(given);
      return freezingPointC(salinity(given));
    }),
  ),
  specific_gravity: gives("SG", (given) => specificGravity(salinity(given), warmth(given), reference(given))),
  ...named(
    ["salinity_from_specific_gravity", "salinity_from_sg"],
    gives("PSU", (given) =>
      salinityFromGravity(given.number(["SG", "specific_gravity"]), warmth(given), reference(given)),
    ),
  ),
  salinity_from_conductivity: gives("PSU", (given) =>
    salinityFromConductivity(given.in(["C", "conductivity", "EC"], "mS/cm"), warmth(given)),
  ),
  conductivity_from_salinity: gives("mS/cm", (given) => conductivityMSPerCm(salinity(given), warmth(given))),
  ...named(
    ["T68_from_T90", "T90_to_T68"],
    gives("C", (given) => t68FromC(given.in(["T", "T90", "x"], "C"))),
  ),
};
