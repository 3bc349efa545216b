import { daysToDegreeDays, degreeDays, zebrafishHours } from "../../../language/science/development.ts";
import {
  ammoniaFromFeedGN,
  biomassKg,
  conditionEnglish,
  flowIndexAtOxygen,
  racewayAmmoniaPpm,
  rationKg,
  weightG,
} from "../../../language/science/feeding.ts";
import { catfishLoadLbPerGal, loadAtTemperature } from "../../../language/science/transport.ts";
import type { Inputs } from "../inputs.ts";
import type { Calculations } from "../mapping.ts";

/** So many days alike. */
function alike(given: Inputs, base: number): number {
  return degreeDays(
    Array.from({ length: given.number("days", 1) }, () => given.number("Tmean_C")),
    base,
  );
}

/** Files 12 and 15. */
export const livestock: Calculations = {
  transport_load_temp_adjusted_lb: (given) =>
    loadAtTemperature(
      given.number("load_lb"),
      given.in("T0", "F"),
      given.in("T", "F"),
      given.number("pct_per_F"),
    ),
  catfish_load_lb_per_gal: (given) => catfishLoadLbPerGal(given.in("length", "in"), given.in("T", "F")),
  raceway_total_ammonia_ppm: (given) =>
    racewayAmmoniaPpm(given.number("feed_lb_day"), given.number("factor"), given.number("flow_gpm")),
  flow_index_oxygen_adjusted: (given) =>
    flowIndexAtOxygen(
      given.number("flow_index"),
      given.number("DO_hi"),
      given.number("DO_lo"),
      given.number("DO_min"),
    ),
  condition_factor_english: (given) => conditionEnglish(given.number("K_metric")),
  condition_factor_unit_ratio: (given) => conditionEnglish(given.number("lb_in3_over_g_mm3")),
  weight_from_length_g: (given) => weightG(given.in("L", "mm"), given.number("a"), given.number("b", 3)),
  daily_feed_kg: (given) => rationKg(given.in("biomass", "kg"), given.number("percent_per_day")),
  max_biomass_kg: (given) => biomassKg(given.number("density_kg_m3"), given.in("V", "m3")),
  tan_production_g_day: (given) =>
    ammoniaFromFeedGN(given.number("feed_g_day"), given.number("protein_fraction")),

  zebrafish_hours_at_T: (given) => zebrafishHours(given.number("h_at_28_5"), given.in("T", "C")),
  degree_days_single_day: (given) => degreeDays([given.number("Tmean_F")], given.number("base_F")),
  degree_days_sum: (given) => alike(given, given.number("base_C", 0)),
  cooling_degree_days: (given) => alike(given, given.number("base_C")),
  carp_degree_days: (given) => alike(given, 0),
  days_to_target_degree_days: (given) =>
    daysToDegreeDays(given.number("target_DD"), given.in("T", "C"), given.number("base_C", 0)),
};
