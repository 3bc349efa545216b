import {
  co2MgL,
  co2PerDKHMgL,
  co2RuleMgL,
  lnK0Seawater,
  logK1,
  logK1Seawater,
  logK2,
  logK2Seawater,
  logKHenry,
  logKw,
  pK1HarnedDavis,
} from "../../../language/science/carbonate.ts";
import {
  altitudeFactor,
  geopotentialM,
  oxygenSaturationMgL,
  oxygenSaturationShare,
  standardPressurePa,
} from "../../../language/science/oxygen.ts";
import { type Figure, map } from "../../../language/science/result.ts";
import { type Calculation, type Calculations, chain, gives, named } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";
import { SALINITY } from "./ammonia.ts";

const celsius = (given: Inputs) => given.in(["T", "temp", "temperature"], "C");
const salinity = (given: Inputs) => given.number(SALINITY, 0);
const pressureStems = ["P", "p", "pressure"];

/** Plain heights are taken as geopotential: at tank heights the two differ by less than the tolerance. */
function geopotential(given: Inputs): Figure {
  const geometric = ["h_geometric", "z", "z_geometric"];
  if (given.hasIn(geometric, "m")) return geopotentialM(given.in(geometric, "m"));
  return given.in(["h_geopotential", "h", "altitude", "elevation", "H"], "m");
}
const heightStems = ["h_geometric", "z", "z_geometric", "h_geopotential", "h", "altitude", "elevation"];

const atHeight = (of: (heightM: number) => Figure) => (given: Inputs) => chain(geopotential(given), of);
const standardAtm = atHeight((heightM) => map(standardPressurePa(heightM), (pascal) => pascal / 101325));

/** Air pressure in atm, stated or that of a height; 1 atm where it is said to be so. */
function atmospheres(given: Inputs, otherwise?: number): Figure {
  if (given.hasIn(pressureStems, "atm")) return given.in(pressureStems, "atm");
  if (given.hasIn(heightStems, "m")) return standardAtm(given);
  if (otherwise !== undefined) return given.in(pressureStems, "atm", otherwise);
  throw new MissingInput("no air pressure");
}

function saturation(otherwise?: number): Calculation {
  return gives("mg/L O2", (given) => {
    if (given.has("model")) given.text("model");
    return chain(atmospheres(given, otherwise), (atm) =>
      oxygenSaturationMgL(celsius(given), salinity(given), atm),
    );
  });
}

const ratio = (over: Figure, under: Figure) => chain(under, (full) => map(over, (part) => part / full));
const byHeight = gives("ratio", atHeight(altitudeFactor));
const log = (of: (temperatureC: number) => Figure, sign = 1, unit = "log10"): Calculation =>
  gives(unit, (given) => map(of(celsius(given)), (value) => sign * value));
const seaLog = (of: (salinity: number, temperatureC: number) => Figure, change = (value: number) => value) =>
  gives("log10", (given) => map(of(given.number(SALINITY), celsius(given)), change));
const negated = (value: number) => -value;
const alkalinity = ["alk", "alkalinity", "KH"];

/** Files 03 and 04. */
export const gases: Calculations = {
  do_saturation: saturation(),
  ...named(["do_saturation_1atm", "do_saturation_freshwater"], saturation(1)),
  ...named(
    ["do_percent_saturation", "percent_saturation", "do_saturation_percent", "do_saturation_fraction"],
    gives("fraction", (given) =>
      chain(atmospheres(given, 1), (atm) =>
        oxygenSaturationShare(
          given.in(["DO", "measured", "DO_measured"], "mg/L"),
          celsius(given),
          salinity(given),
          atm,
        ),
      ),
    ),
  ),
  ...named(
    ["do_salinity_factor", "do_salinity_correction_factor"],
    gives("ratio", (given) =>
      ratio(
        oxygenSaturationMgL(celsius(given), given.number(SALINITY)),
        oxygenSaturationMgL(celsius(given), 0),
      ),
    ),
  ),
  ...named(
    ["do_pressure_factor", "do_pressure_correction_factor"],
    gives("ratio", (given) =>
      ratio(
        chain(atmospheres(given), (atm) => oxygenSaturationMgL(celsius(given), 0, atm)),
        oxygenSaturationMgL(celsius(given), 0),
      ),
    ),
  ),
  ...named(["std_atm_pressure", "standard_pressure"], gives("Pa", atHeight(standardPressurePa))),
  std_atm_pressure_ratio: gives("fraction", standardAtm),
  geopotential_height: gives("m", geopotential),
  do_altitude_correction_factor: byHeight,
  do_sea_level_equivalent: gives("mg/L O2", (given) =>
    map(byHeight.compute(given), (factor) => factor * given.in("DO", "mg/L")),
  ),

  ...named(["log_K1_carbonic", "log_K1", "log_K1_freshwater"], log(logK1)),
  ...named(["log_K2_carbonic", "log_K2", "log_K2_freshwater"], log(logK2)),
  ...named(["log_KH", "log_KH_co2", "log_KH_carbonic", "log_K_henry", "log_KH_henry"], log(logKHenry)),
  log_Kw: log(logKw),
  ...named(["pK1_carbonic", "pK1"], log(logK1, -1, "pH")),
  ...named(["pK2_carbonic", "pK2"], log(logK2, -1, "pH")),
  ...named(["pKH", "pKH_co2", "pKH_carbonic"], log(logKHenry, -1, "pH")),
  ...named(["pKw", "pKw_water"], log(logKw, -1, "pH")),
  ...named(["pK1_carbonic_harned_davis", "pK1_harned_davis"], log(pK1HarnedDavis, 1, "pH")),
  ...named(
    ["KH_co2", "K_henry_co2"],
    log((t) => map(logKHenry(t), (value) => 10 ** value), 1, "mol/kg/atm"),
  ),
  ...named(["ln_K0_co2_seawater", "ln_K0_seawater"], seaLog(lnK0Seawater)),
  ...named(
    ["log_K0_co2_seawater", "log_K0_seawater"],
    seaLog(lnK0Seawater, (ln) => ln / Math.LN10),
  ),
  ...named(["K0_co2_seawater", "K0_seawater"], seaLog(lnK0Seawater, Math.exp)),
  ...named(["log_K1_seawater_total", "log_K1_seawater"], seaLog(logK1Seawater)),
  ...named(["log_K2_seawater_total", "log_K2_seawater"], seaLog(logK2Seawater)),
  ...named(["pK1_seawater_total", "pK1_seawater"], seaLog(logK1Seawater, negated)),
  ...named(["pK2_seawater_total", "pK2_seawater"], seaLog(logK2Seawater, negated)),
  ...named(
    ["co2_from_alkalinity", "co2_equilibrium", "co2_from_kh"],
    gives("mg/L", (given) => co2MgL(given.in(alkalinity, "meq/L"), given.number("pH"), celsius(given))),
  ),
  ...named(
    ["co2_rule_of_thumb", "co2_rule"],
    gives("mg/L", (given) => co2RuleMgL(given.in(["KH", "alk", "alkalinity"], "dKH"), given.number("pH"))),
  ),
  co2_dkh_coefficient: gives("mg/L", (given) => given.in(["unit_alk", "x"], "dKH") * co2PerDKHMgL()),
  // The pK1 at which 3 would be the coefficient.
  ...named(
    ["co2_rule_implied_pK1", "pK1_implied_by_rule"],
    gives("pH", () => 7 + Math.log10(3 / co2PerDKHMgL())),
  ),
};
