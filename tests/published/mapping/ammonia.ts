import {
  ammoniumPKa,
  freeAmmoniaMgLN,
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
import { map } from "../../../language/science/result.ts";
import { ionicStrength } from "../../../language/science/seawater.ts";
import type { Inputs } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

const percent = (fraction: number) => fraction * 100;
const hardness = (given: Inputs) => given.in("hardness", "mg/L CaCO3");

const acute = (given: Inputs) => {
  // The headline criterion is the one with salmonids present.
  const salmonids = !given.has("oncorhynchus") || given.text("oncorhynchus") === "present";
  return acuteAmmoniaMgLN(given.number("pH"), given.in("T", "C"), salmonids);
};
const chronic = (given: Inputs) => chronicAmmoniaMgLN(given.number("pH"), given.in("T", "C"));

/** Files 01, 02 and 13. */
export const ammonia: Calculations = {
  nh3_fraction_freshwater: (given) =>
    unionisedFraction(given.number("pH"), given.in("T", "C"), given.number("S", 0)),
  nh3_percent_freshwater: (given) =>
    map(unionisedFraction(given.number("pH"), given.in("T", "C"), given.number("S", 0)), percent),
  nh3n_concentration: (given) =>
    freeAmmoniaMgLN(given.number("TAN_mgN_L"), given.number("pH"), given.in("T", "C")),
  nh3_percent_seawater: (given) =>
    map(unionisedFractionSeawater(given.number("pH_NBS"), given.in("T", "C"), given.number("S")), percent),
  ionic_strength_seawater: (given) => ionicStrength(given.number("S")),
  pKa_ammonium_freshwater: (given) => ammoniumPKa(given.in("T", "C")),
  epa2013_acute_CMC_TAN: acute,
  epa2013_acute_CMC_TAN_2sf: (given) => map(acute(given), (criterion) => toSignificant(criterion, 2)),
  epa2013_chronic_CCC_TAN: chronic,
  epa2013_chronic_CCC_TAN_2sf: (given) => map(chronic(given), (criterion) => toSignificant(criterion, 2)),
  // The document rounds the chronic criterion before it multiplies.
  epa2013_chronic_4day_limit_TAN: (given) =>
    map(chronic(given), (criterion) => chronicFourDayMgLN(toSignificant(criterion, 2))),
  cu_acute_1985_total: (given) => copperAcuteTotalUgL(hardness(given)),
  cu_chronic_1985_total: (given) => copperChronicTotalUgL(hardness(given)),
  cu_acute_dissolved: (given) => copperAcuteDissolvedUgL(hardness(given)),
  cu_chronic_dissolved: (given) => copperChronicDissolvedUgL(hardness(given)),
};
