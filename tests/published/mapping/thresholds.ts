import { threshold } from "../../../language/science/thresholds.ts";
import { MissingInput } from "../inputs.ts";
import type { Calculation, Calculations } from "../mapping.ts";

function listed(parameter: string, group?: string): number {
  const found = threshold(parameter, group);
  if (found === undefined) throw new MissingInput(`no threshold of ${parameter}`);
  return found.value;
}

/** A threshold of hauling, for the one species published and trips of one to four hours. */
function hauling(end: "min" | "max"): Calculation {
  return (given) => {
    const hours = given.in("trip", "h");
    if (hours < 1 || hours > 4) throw new MissingInput("published for trips of 1 to 4 h");
    return listed(`haul_density_${end}_${given.text("species").replaceAll(" ", "_")}`);
  };
}

/** File 16 and the single figures of file 12. They show that the table was copied right, no more. */
export const thresholds: Calculations = {
  trade_limit: (given) => listed(given.text("parameter"), given.text("group")),
  published_threshold: (given) => listed(given.text("parameter")),
  feed_rate_range_min: () => listed("feed_rate_min"),
  feed_rate_range_max: () => listed("feed_rate_max"),
  haul_density_kg_per_L_min: hauling("min"),
  haul_density_kg_per_L_max: hauling("max"),
  haul_tan_exposure_limit_ppm: (given) => listed(`haul_total_ammonia_harm_${given.number("hours")}h_trout`),
};
