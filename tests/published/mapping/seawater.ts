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
import type { Inputs } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

function t68(given: Inputs, stem = "T"): number {
  return given.has(`${stem}68_C`) ? given.number(`${stem}68_C`) : t68FromC(given.in(stem, "C"));
}
const reference = (given: Inputs) =>
  given.has("Tref68_C") ? given.number("Tref68_C") : t68FromC(given.in("Tref", "C"));

/** File 06. */
export const seawater: Calculations = {
  density_eos80_p0: (given) => densityKgPerM3(given.number("S"), t68(given)),
  specific_volume_anomaly_p0: (given) => volumeAnomaly(given.number("S"), t68(given)),
  salinity_pss78: (given) => salinityFromRatio(given.number("R"), t68(given), given.number("p_dbar", 0)),
  conductivity_ratio_pss78: (given) => ratioFromSalinity(given.number("S"), t68(given)),
  freezing_point_p0: (given) => freezingPointC(given.number("S")),
  specific_gravity: (given) => specificGravity(given.number("S"), t68(given), reference(given)),
  salinity_from_specific_gravity: (given) =>
    salinityFromGravity(given.number("SG"), t68(given), reference(given)),
  salinity_from_conductivity: (given) => salinityFromConductivity(given.number("C_mS_cm"), t68(given)),
  conductivity_from_salinity: (given) => conductivityMSPerCm(given.number("S"), t68(given)),
};
