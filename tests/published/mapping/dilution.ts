import {
  afterChange,
  afterChanges,
  changesNeeded,
  flowForHalfLifeLPerH,
  flowThroughFraction,
  newWaterFraction,
  steadyAfterChangeMgL,
  steadyBeforeChangeMgL,
  steadyFlowMgL,
  washoutMin,
} from "../../../language/science/dilution.ts";
import { diluted } from "../../../language/science/dosing.ts";
import {
  afterEvaporation,
  afterTopUps,
  cyclesOfConcentration,
  drainToHold,
  steadyWithTopUpMgL,
  towerEvaporationGalPerH,
} from "../../../language/science/evaporation.ts";
import { map } from "../../../language/science/result.ts";
import { converted, type Inputs, MissingInput } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

/** `before` or `after` the change. */
function sampled(given: Inputs, before: string, after: string): "before" | "after" {
  const sample = given.text("sample");
  if (sample === before) return "before";
  if (sample === after) return "after";
  throw new MissingInput(`sample=${sample}`);
}

/** Files 08 and 14. */
export const dilution: Calculations = {
  washout_time_min: (given) => washoutMin(given.number("removed_fraction"), given.number("exchanges_per_h")),
  washout_remaining_at_tau: (given) => 1 - flowThroughFraction(given.number("Qt_over_V"), 1),
  flow_through_fraction_replaced: (given) =>
    flowThroughFraction(given.in("Q", "L/h") * converted(given.in("t", "d"), "d", "h"), given.in("V", "L")),
  flow_from_half_life: (given) =>
    converted(flowForHalfLifeLPerH(given.in("V", "L"), given.in("t_half", "h")), "L/h", "m3/h"),
  dilution_c1v1: (given) => diluted(given.number("C1_M"), given.in("V1", "L"), given.in("V2", "L")),
  batch_change_series_conc: (given) =>
    afterChanges(
      given.in("C0", "mg/L"),
      given.number("fraction"),
      given.number("n"),
      given.in("Cin", "mg/L", 0),
    ),
  batch_series_fraction_new: (given) =>
    newWaterFraction(Array.from({ length: given.number("n") }, () => given.number("fraction"))),
  batch_changes_needed: (given) =>
    changesNeeded(
      given.in("C0", "mg/L"),
      given.in("Ctarget", "mg/L"),
      given.number("fraction"),
      given.in("Cin", "mg/L", 0),
    ),
  periodic_change_steady_state: (given) => {
    const of = sampled(given, "before", "after") === "before" ? steadyBeforeChangeMgL : steadyAfterChangeMgL;
    return of(given.in("rise_per_period", "mg/L"), given.number("fraction"), given.in("Cin", "mg/L", 0));
  },
  continuous_steady_state: (given) =>
    steadyFlowMgL(given.number("load_mg_h"), given.in("Q", "L/h"), given.in("Cin", "mg/L", 0)),

  conc_after_evaporation: (given) =>
    afterEvaporation(given.in("C0", "mg/L"), given.in("V0", "L"), given.in("V", "L")),
  conc_after_topoff: (given) =>
    afterTopUps(
      given.in("C0", "mg/L"),
      given.number("evap_fraction_per_cycle"),
      given.number("n"),
      given.in("Ctopoff", "mg/L"),
    ),
  steady_state_with_topoff_and_changes: (given) => {
    if (given.has("topoff") && given.text("topoff") !== "tap")
      throw new MissingInput("only topped up with tap water");
    const source = given.in("Cin", "mg/L");
    const fraction = given.number("change_fraction");
    const before = steadyWithTopUpMgL(source, fraction, given.number("evap_fraction_per_period"));
    const when = sampled(given, "before_change", "after_change");
    return when === "before" ? before : map(before, (level) => afterChange(level, fraction, source));
  },
  cycles_from_ppm: (given) => cyclesOfConcentration(given.number("C_system"), given.number("C_makeup")),
  blowdown: (given) => drainToHold(given.number("evap"), given.number("cycles")),
  evaporation_gph: (given) =>
    towerEvaporationGalPerH(given.number("tons"), given.number("dT_F"), given.number("coef")),
  // A year of 365 days.
  makeup_per_year: (given) => given.number("makeup_gph") * converted(365, "d", "h"),
};
