import {
  ammoniumPKa,
  freeAmmoniaMgLN,
  totalForFreeMgLN,
  unionisedFraction,
  unionisedFractionSeawater,
} from "../../../language/science/ammonia.ts";
import {
  copperAcuteDissolvedUgL,
  copperAcuteTotalUgL,
  copperChronicDissolvedUgL,
  copperChronicTotalUgL,
} from "../../../language/science/copper.ts";
import {
  acuteAmmoniaMgLN,
  chronicAmmoniaMgLN,
  chronicFourDayMgLN,
  toSignificant,
} from "../../../language/science/criteria.ts";
import { type Figure, map, outside } from "../../../language/science/result.ts";
import { ionicStrength } from "../../../language/science/seawater.ts";
import { type Calculation, type Calculations, gives, named } from "../calculation.ts";
import { type Inputs, MissingInput } from "../inputs.ts";

export const SALINITY = ["S", "salinity", "S_PSU", "S_psu", "S_g_kg", "S_ppt", "salinity_PSU"];
const TOTAL = ["TAN", "total_ammonia", "NH3_N_total"];
const PH_NBS = ["pH_NBS", "pH"];

const pH = (given: Inputs) => given.number(["pH"]);
const celsius = (given: Inputs) => given.in(["T", "temp", "temperature"], "C");
const hardness = (given: Inputs) => given.in(["hardness", "H", "GH"], "mg/L CaCO3");
const fresh = (given: Inputs): Figure =>
  unionisedFraction(pH(given), celsius(given), given.number(SALINITY, 0));
const sea = (given: Inputs): Figure =>
  unionisedFractionSeawater(given.number(PH_NBS), celsius(given), given.number(SALINITY));
const ionised = (fraction: Figure) => map(fraction, (free) => 1 - free);
const freeN = (given: Inputs): Figure => {
  if (given.number(SALINITY, 0) > 1) return map(sea(given), (part) => part * given.in(TOTAL, "mg/L N"));
  return freeAmmoniaMgLN(given.in(TOTAL, "mg/L N"), given.number(PH_NBS), celsius(given));
};

/** `oncorhynchus=absent`; the headline criterion is the one with them present. */
function withSalmonids(given: Inputs): boolean {
  if (!given.has(["oncorhynchus", "salmonids"])) return true;
  const said = given.text(["oncorhynchus", "salmonids"]).toLowerCase();
  if (["present", "yes", "1", "true"].includes(said)) return true;
  if (["absent", "no", "0", "false"].includes(said)) return false;
  throw new MissingInput(`oncorhynchus=${said}`);
}

const acute = (salmonids?: boolean): Calculation =>
  gives("mg/L N", (given) => acuteAmmoniaMgLN(pH(given), celsius(given), salmonids ?? withSalmonids(given)));
const chronic = gives("mg/L N", (given) => chronicAmmoniaMgLN(pH(given), celsius(given)));
const copper = (criterion: (hardness: number) => Figure): Calculation =>
  gives("ug/L", (given) => criterion(hardness(given)));

/** Files 01, 02 and 13. */
export const ammonia: Calculations = {
  ...named(
    [
      "nh3_fraction_freshwater",
      "nh3_percent_freshwater",
      "unionized_fraction_freshwater",
      "unionized_ammonia_fraction",
      "un-ionized_ammonia_fraction",
    ],
    gives("fraction", fresh),
  ),
  ...named(["nh3_fraction_seawater", "nh3_percent_seawater"], gives("fraction", sea)),
  ...named(
    ["nh4_fraction_freshwater", "nh4_percent_freshwater"],
    gives("fraction", (given) => ionised(fresh(given))),
  ),
  ...named(
    ["nh4_fraction_seawater", "nh4_percent_seawater"],
    gives("fraction", (given) => ionised(sea(given))),
  ),
  ...named(
    ["nh3n_concentration", "nh3n_concentration_freshwater", "free_ammonia_n", "nh3n_concentration_seawater"],
    gives("mg/L N", freeN),
  ),
  // Counted as the gas and not as its nitrogen.
  ...named(
    ["nh3_concentration", "nh3_concentration_freshwater", "free_ammonia", "nh3_concentration_seawater"],
    gives("mg/L NH3", (given) => map(freeN(given), (mgLN) => (mgLN * 17.031) / 14.007)),
  ),
  ...named(
    ["tan_for_nh3n", "tan_limit_for_nh3n", "total_ammonia_for_free"],
    gives("mg/L N", (given) =>
      totalForFreeMgLN(given.in(["NH3N", "NH3", "free"], "mg/L N"), pH(given), celsius(given)),
    ),
  ),
  ...named(
    ["ionic_strength_seawater", "ionic_strength"],
    gives("mol/kg", (given) => ionicStrength(given.number(SALINITY))),
  ),
  ...named(
    ["pKa_ammonium_freshwater", "pKa_ammonium"],
    gives("pH", (given) => {
      if (given.number(SALINITY, 0) > 1) return outside("the formula of 1975 is for fresh water");
      return ammoniumPKa(celsius(given));
    }),
  ),
  ...named(
    ["pKa_ammonium_seawater", "pKa_ammonium_seawater_bell2007"],
    // From the share at pH 8, where the formula holds: pKa = pH + log10((1 - f)/f).
    gives("pH", (given) =>
      map(
        unionisedFractionSeawater(8, celsius(given), given.number(SALINITY)),
        (free) => 8 + Math.log10((1 - free) / free),
      ),
    ),
  ),
  ...named(["epa2013_acute_CMC_TAN", "epa2013_CMC_TAN", "epa2013_acute_CMC"], acute()),
  ...named(["epa2013_acute_CMC_TAN_present", "epa2013_acute_CMC_oncorhynchus_present"], acute(true)),
  ...named(["epa2013_acute_CMC_TAN_absent", "epa2013_acute_CMC_oncorhynchus_absent"], acute(false)),
  ...named(["epa2013_chronic_CCC_TAN", "epa2013_CCC_TAN", "epa2013_chronic_CCC"], chronic),
  // The document rounds the chronic criterion before it multiplies.
  ...named(
    ["epa2013_chronic_4day_limit_TAN", "epa2013_4day_limit_TAN", "epa2013_chronic_4day_limit"],
    gives("mg/L N", (given) =>
      map(chronic.compute(given), (criterion) => chronicFourDayMgLN(toSignificant(criterion, 2))),
    ),
  ),
  epa2013_chronic_4day_limit_TAN_unrounded: gives("mg/L N", (given) =>
    map(chronic.compute(given), chronicFourDayMgLN),
  ),
  ...named(["cu_acute_1985_total", "cu_acute_total", "cu_CMC_1985_total"], copper(copperAcuteTotalUgL)),
  ...named(["cu_chronic_1985_total", "cu_chronic_total", "cu_CCC_1985_total"], copper(copperChronicTotalUgL)),
  ...named(
    ["cu_acute_dissolved", "cu_acute_1995_dissolved", "cu_CMC_dissolved"],
    copper(copperAcuteDissolvedUgL),
  ),
  ...named(
    ["cu_chronic_dissolved", "cu_chronic_1995_dissolved", "cu_CCC_dissolved"],
    copper(copperChronicDissolvedUgL),
  ),
};
