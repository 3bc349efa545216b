import { type Threshold, threshold } from "../../../language/science/thresholds.ts";
import { type Calculation, type Calculations, gives, named } from "../calculation.ts";
import { converted, type Inputs, MissingInput } from "../inputs.ts";
import { measureOf } from "../measure.ts";

function found(parameter: string, group?: string): Threshold {
  const one = threshold(parameter, group);
  if (one === undefined) {
    throw new MissingInput(`no threshold of ${parameter}${group === undefined ? "" : ` for ${group}`}`);
  }
  return one;
}

/** A threshold of hauling, for the one species published and trips of one to four hours. */
function hauling(end: "min" | "max"): Calculation {
  return gives("kg/L", (given) => {
    const hours = given.in("trip", "h");
    if (hours < 1 || hours > 4) throw new MissingInput("published for trips of 1 to 4 h");
    return found(`haul_density_${end}_${given.text("species").replaceAll(" ", "_")}`).value;
  });
}

/** A threshold is in its own unit, which is not the same for all: said here in that of the row. */
const inRowUnit = (of: (given: Inputs) => Threshold): Calculation =>
  gives("as the row has it", (given) => {
    const { value, unit } = of(given);
    const [from, to] = [measureOf(unit), measureOf(given.unit)];
    if (from === undefined || to === undefined) return value;
    return converted(value, unit, given.unit);
  });

function rate(end: "min" | "max"): Calculation {
  return gives("percent/day", (given) => {
    if (given.has("any")) given.text("any");
    return found(`feed_rate_${end}`).value;
  });
}

/** File 16 and the single figures of file 12. They show that the table was copied right, no more. */
export const thresholds: Calculations = {
  trade_limit: inRowUnit((given) => found(given.text("parameter"), given.text("group"))),
  published_threshold: inRowUnit((given) => found(given.text("parameter"))),
  feed_rate_range_min: rate("min"),
  feed_rate_range_max: rate("max"),
  ...named(["haul_density_kg_per_L_min", "haul_density_min"], hauling("min")),
  ...named(["haul_density_kg_per_L_max", "haul_density_max"], hauling("max")),
  haul_tan_exposure_limit: gives(
    "mg/L",
    (given) => found(`haul_total_ammonia_harm_${given.number("hours")}h_trout`).value,
  ),
};
