import {
  co2MgL,
  co2PerDKHMgL,
  co2RuleMgL,
  lnK0Seawater,
  logK1,
  logK1Seawater,
  logK2,
  logK2Seawater,
  logKw,
  pK1HarnedDavis,
} from "../../../language/science/carbonate.ts";
import {
  altitudeFactor,
  geopotentialM,
  oxygenSaturationMgL,
  standardPressurePa,
} from "../../../language/science/oxygen.ts";
import { map } from "../../../language/science/result.ts";
import { type Inputs, MissingInput } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

/** Air pressure in atm: 1 atm = 101325 Pa, 1 mmHg = 133.322368 Pa (NIST SP 811). */
function atmospheres(given: Inputs): number {
  if (given.has("P_hPa")) return given.number("P_hPa") / 1013.25;
  if (given.has("P_kPa")) return given.number("P_kPa") / 101.325;
  if (given.has("P_Pa")) return given.number("P_Pa") / 101325;
  if (given.has("P_mmHg")) return (given.number("P_mmHg") * 133.322368) / 101325;
  if (given.has("P_atm")) return given.number("P_atm");
  throw new MissingInput("no air pressure");
}

/** Plain heights are taken as geopotential: at tank heights the two differ by less than the tolerance. */
function geopotential(given: Inputs): number {
  if (given.has("h_geometric_m")) return geopotentialM(given.number("h_geometric_m"));
  return given.has("h_geopotential_m") ? given.number("h_geopotential_m") : given.in("h", "m");
}

/** Files 03 and 04. */
export const gases: Calculations = {
  do_saturation: (given) => oxygenSaturationMgL(given.in("T", "C"), given.number("S", 0), atmospheres(given)),
  do_saturation_1atm: (given) => oxygenSaturationMgL(given.in("T", "C"), given.number("S", 0)),
  std_atm_pressure: (given) => standardPressurePa(geopotential(given)),
  std_atm_pressure_ratio: (given) =>
    map(standardPressurePa(geopotential(given)), (pascal) => pascal / 101325),
  do_altitude_correction_factor: (given) => altitudeFactor(geopotential(given)),
  do_sea_level_equivalent: (given) =>
    map(altitudeFactor(geopotential(given)), (factor) => factor * given.in("DO", "mg/L")),
  log_K1_carbonic: (given) => logK1(given.in("T", "C")),
  log_K2_carbonic: (given) => logK2(given.in("T", "C")),
  log_Kw: (given) => logKw(given.in("T", "C")),
  pK1_carbonic: (given) => map(logK1(given.in("T", "C")), (log) => -log),
  pK1_carbonic_harned_davis: (given) => pK1HarnedDavis(given.in("T", "C")),
  ln_K0_co2_seawater: (given) => lnK0Seawater(given.number("S"), given.in("T", "C")),
  log_K1_seawater_total: (given) => logK1Seawater(given.number("S"), given.in("T", "C")),
  log_K2_seawater_total: (given) => logK2Seawater(given.number("S"), given.in("T", "C")),
  co2_from_alkalinity: (given) => co2MgL(given.in("alk", "meq/L"), given.number("pH"), given.in("T", "C")),
  co2_rule_of_thumb: (given) => co2RuleMgL(given.in("KH", "dKH"), given.number("pH")),
  co2_dkh_coefficient: (given) => given.number("unit_alk_dKH") * co2PerDKHMgL(),
};
