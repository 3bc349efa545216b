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
import { foodConversion, growthPercentPerDay } from "../../../language/science/growth.ts";
import { catfishLoadLbPerGal, loadAtTemperature } from "../../../language/science/transport.ts";
import { type Calculation, type Calculations, gives, named } from "../calculation.ts";
import { converted, type Inputs } from "../inputs.ts";

const MEAN = ["Tmean", "T"];
const BASE = ["base", "Tbase", "T_base"];

/** Daily means: so many days alike, a series, or the middle of each day's extremes. */
function dailyMeans(given: Inputs): number[] {
  if (given.hasIn("Tmax", "C")) {
    const lows = given.seriesIn("Tmin", "C");
    return given.seriesIn("Tmax", "C").map((high, i) => (high + (lows[i] ?? Number.NaN)) / 2);
  }
  const means = given.seriesIn(MEAN, "C");
  if (!given.has("days") || means.length > 1) return means;
  return Array.from({ length: given.number("days") }, () => means[0]!);
}
const summed: Calculation = gives("C-days", (given) => degreeDays(dailyMeans(given), given.in(BASE, "C", 0)));

const pounds = (given: Inputs, stem: string) => converted(given.in(stem, "mg"), "mg", "lb");
const pctPerF = (given: Inputs) => given.number(["pct_per_F", "percent_per_F"], 5.56);

/** Files 12 and 15. */
export const livestock: Calculations = {
  // The published 5.56 % per F is of trout.
  ...named(
    ["transport_load_temp_adjusted", "trout_load_temp_adjusted", "transport_load"],
    gives("lb", (given) =>
      loadAtTemperature(
        pounds(given, "load"),
        given.in(["T0", "Tref"], "F"),
        given.in("T", "F"),
        pctPerF(given),
      ),
    ),
  ),
  ...named(
    ["catfish_load_lb_per_gal", "catfish_load"],
    gives("lb/US gal", (given) => catfishLoadLbPerGal(given.in("length", "in"), given.in("T", "F"))),
  ),
  ...named(
    ["raceway_total_ammonia", "raceway_total_ammonia_ppm"],
    gives("mg/L", (given) =>
      racewayAmmoniaPpm(
        given.has("feed_lb_day")
          ? given.number("feed_lb_day")
          : converted(given.in("feed", "kg/d"), "kg/d", "lb/d"),
        given.number("factor"),
        given.has("flow_gpm")
          ? given.number("flow_gpm")
          : converted(given.in(["flow", "Q"], "L/h"), "L/h", "US gal/min"),
      ),
    ),
  ),
  flow_index_oxygen_adjusted: gives("index", (given) =>
    flowIndexAtOxygen(
      given.number("flow_index"),
      given.number(["DO_hi", "DO_ref"]),
      given.number(["DO_lo", "DO"]),
      given.number("DO_min"),
    ),
  ),
  condition_factor_english: gives("lb/in3", (given) => conditionEnglish(given.number(["K_metric", "K"]))),
  condition_factor_unit_ratio: gives("ratio", (given) =>
    conditionEnglish(given.number(["lb_in3_over_g_mm3", "x"], 1)),
  ),
  ...named(
    ["weight_from_length", "length_weight"],
    gives("g", (given) =>
      weightG(given.in(["L", "length"], "mm"), given.number(["a", "K"]), given.number("b", 3)),
    ),
  ),
  ...named(
    ["daily_feed", "daily_ration"],
    gives("kg/d", (given) =>
      rationKg(
        given.in("biomass", "kg"),
        100 * given.share(["fraction_per_day", "fraction"], ["percent_per_day", "percent", "pct_per_day"]),
      ),
    ),
  ),
  ...named(
    ["specific_growth_rate", "SGR"],
    gives("%/day", (given) =>
      growthPercentPerDay(
        given.in(["W1", "from"], "g"),
        given.in(["W2", "to"], "g"),
        given.number(["days", "t"]),
      ),
    ),
  ),
  ...named(
    ["feed_conversion_ratio", "FCR"],
    gives("ratio", (given) => foodConversion(given.in(["feed", "food"], "g"), given.in("gain", "g"))),
  ),
  max_biomass: gives("kg", (given) =>
    biomassKg(given.in("density", "kg/m3"), given.in(["V", "volume"], "m3")),
  ),
  ...named(
    ["tan_production", "tan_from_feed"],
    gives("g/d", (given) =>
      ammoniaFromFeedGN(
        given.in("feed", "g/d"),
        given.share(["protein_fraction", "protein"], ["protein_percent", "percent_protein"]),
      ),
    ),
  ),

  ...named(
    ["zebrafish_hours_at_T", "zebrafish_hours", "zebrafish_development"],
    gives("h", (given) => zebrafishHours(given.number(["h_at_28_5", "h", "hpf"]), given.in("T", "C"))),
  ),
  ...named(
    ["degree_days_sum", "degree_days_single_day", "degree_days", "cooling_degree_days", "carp_degree_days"],
    summed,
  ),
  ...named(
    ["days_to_target_degree_days", "days_to_degree_days", "days_to_hatch"],
    gives("d", (given) =>
      daysToDegreeDays(
        given.number(["target_DD", "DD", "target"]),
        given.in(MEAN, "C"),
        given.in(BASE, "C", 0),
      ),
    ),
  ),
};
