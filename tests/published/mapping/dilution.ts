import {
  afterChanges,
  changesNeeded,
  flowForHalfLifeLPerH,
  flowThroughShare,
  fractionToReach,
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
  fillToHold,
  steadyWithTopUpMgL,
  towerEvaporationGalPerH,
} from "../../../language/science/evaporation.ts";
import { type Figure, map } from "../../../language/science/result.ts";
import { type Calculation, type Calculations, chain, gives, named } from "../calculation.ts";
import { converted, type Inputs, MissingInput } from "../inputs.ts";
import { convertedBetween, measureOf } from "../measure.ts";

const VOLUME = ["V", "volume", "V_tank"];
const START = ["C0", "C_0", "C_start"];
const SOURCE = ["Cin", "C_in", "Cs", "Csource"];
const TARGET = ["Ctarget", "Ct", "C_target"];
const COUNT = ["n", "count", "changes", "cycles"];

const fraction = (given: Inputs) =>
  given.share(
    ["fraction", "f", "change_fraction", "fraction_changed"],
    ["percent", "pct", "change_percent", "percent_changed"],
  );
const source = (given: Inputs) => given.in(SOURCE, "mg/L", 0);
const removed = (given: Inputs) =>
  given.share(
    ["removed_fraction", "fraction_removed", "fraction", "efficiency_fraction"],
    ["removed_percent", "percent_removed", "efficiency_percent", "percent", "efficiency"],
  );

/** Turnovers: so many, or flow by time by volume. */
function turnovers(given: Inputs): number {
  if (given.has(["Qt_over_V", "turnovers", "tau"])) return given.number(["Qt_over_V", "turnovers", "tau"]);
  const through = given.in(["Q", "flow"], "L/h") * converted(given.in(["t", "time"], "d"), "d", "h");
  return through / given.in(VOLUME, "L");
}
const replaced = (given: Inputs): Figure => flowThroughShare(turnovers(given), 1);

/** `before` or `after` the change. */
function sampled(given: Inputs, otherwise?: "before" | "after"): "before" | "after" {
  if (otherwise !== undefined && !given.has("sample")) return otherwise;
  const sample = given.text("sample").replace(/_change$/, "");
  if (sample === "before" || sample === "after") return sample;
  throw new MissingInput(`sample=${sample}`);
}

function periodic(when?: "before" | "after"): Calculation {
  return gives("mg/L", (given) => {
    const of = sampled(given, when) === "before" ? steadyBeforeChangeMgL : steadyAfterChangeMgL;
    return of(given.in(["rise_per_period", "rise", "L"], "mg/L"), fraction(given), source(given));
  });
}

/** Hours by a flow until a share of the water is new: t = -ln(1-f) V/Q. */
const hoursToReplace = (given: Inputs, share: number): Figure =>
  map(washoutMin(share, given.in(["Q", "flow"], "L/h") / given.in(VOLUME, "L")), (minutes) => minutes / 60);

/** C1 V1 = C2 V2 in whatever unit C1 is, said in the unit of the row. */
function made(given: Inputs): Figure {
  const key = [...given.values.keys()].find((each) => each.startsWith("C1_"));
  if (key === undefined) throw new MissingInput("no input C1");
  const answer = diluted(given.number(key), given.in("V1", "L"), given.in("V2", "L"));
  const [from, to] = [measureOf(key.slice(3)), measureOf(given.unit)];
  if (from === undefined || to === undefined) return answer;
  const said = (value: number) => {
    const figure = convertedBetween(value, from, to);
    if (figure === undefined) throw new MissingInput(`${key} does not convert to ${given.unit}`);
    return figure;
  };
  return map(answer, said);
}

/** Topped up with water of the source, with water that holds nothing, or with what is stated. */
function steadyTopUp(given: Inputs): Figure {
  const tap = given.in(SOURCE, "mg/L");
  const kind = given.has("topoff") ? given.text("topoff").toLowerCase() : "tap";
  if (!["tap", "ro", "pure"].includes(kind)) throw new MissingInput(`topoff=${kind}`);
  const topUp = given.in(["Ctopoff", "C_topoff"], "mg/L", kind === "tap" ? tap : 0);
  const change = fraction(given);
  const evaporated = given.share(
    ["evap_fraction_per_period", "evap_fraction", "e"],
    ["evap_percent_per_period", "evap_percent"],
  );
  const before = steadyWithTopUpMgL(tap, change, evaporated, topUp);
  if (sampled(given, "before") === "before") return before;
  return chain(before, (level) => afterChanges(level, change, 1, tap));
}

const flow = (given: Inputs, stem: string): number =>
  given.hasIn(stem, "L/h") ? converted(given.in(stem, "L/h"), "L/h", "US gal/h") : given.number(stem);
const CYCLES = ["cycles", "CoC", "cycles_of_concentration"];
const level = (given: Inputs, stem: string): number =>
  given.hasIn(stem, "mg/L") ? given.in(stem, "mg/L") : given.number(stem);

/** Files 08 and 14. */
export const dilution: Calculations = {
  ...named(
    ["washout_time_min", "washout_time", "time_to_remove"],
    gives("min", (given) =>
      given.has(["exchanges_per_h", "ach", "turnovers_per_h"])
        ? washoutMin(removed(given), given.number(["exchanges_per_h", "ach", "turnovers_per_h"]))
        : map(hoursToReplace(given, removed(given)), (hours) => hours * 60),
    ),
  ),
  ...named(
    ["washout_remaining_at_tau", "flow_through_fraction_remaining", "washout_remaining"],
    gives("fraction", (given) => map(replaced(given), (part) => 1 - part)),
  ),
  ...named(
    ["flow_through_fraction_replaced", "fraction_replaced", "washout_removed_at_tau"],
    gives("fraction", replaced),
  ),
  ...named(
    ["flow_through_conc", "flow_through_concentration"],
    // What is left of the difference to the source: C(t) = Cin + (C0 - Cin)(1 - replaced).
    gives("mg/L", (given) =>
      chain(replaced(given), (part) => afterChanges(given.in(START, "mg/L"), part, 1, source(given))),
    ),
  ),
  ...named(
    ["flow_from_half_life", "flow_for_half_life"],
    gives("L/h", (given) =>
      flowForHalfLifeLPerH(
        given.in(VOLUME, "L"),
        converted(given.in(["t_half", "half_life"], "d"), "d", "h"),
      ),
    ),
  ),
  ...named(
    ["half_life", "flow_through_half_life", "washout_half_life"],
    gives("h", (given) => hoursToReplace(given, 0.5)),
  ),
  ...named(
    ["time_to_replace", "flow_through_time"],
    gives("h", (given) => hoursToReplace(given, removed(given))),
  ),
  dilution_c1v1: gives("as C1", made),
  ...named(
    ["batch_change_series_conc", "batch_change_conc", "batch_series_conc"],
    gives("mg/L", (given) =>
      afterChanges(given.in(START, "mg/L"), fraction(given), given.number(COUNT, 1), source(given)),
    ),
  ),
  ...named(
    ["batch_series_fraction_new", "batch_fraction_new"],
    gives("fraction", (given) => {
      const shares = given.has("fractions")
        ? given.series("fractions")
        : Array.from({ length: given.number(COUNT, 1) }, () => fraction(given));
      return newWaterFraction(shares);
    }),
  ),
  ...named(
    ["batch_series_fraction_old", "batch_series_fraction_remaining"],
    gives("fraction", (given) =>
      map(
        newWaterFraction(Array.from({ length: given.number(COUNT, 1) }, () => fraction(given))),
        (fresh) => 1 - fresh,
      ),
    ),
  ),
  ...named(
    ["batch_changes_needed", "changes_needed"],
    gives("count", (given) =>
      changesNeeded(given.in(START, "mg/L"), given.in(TARGET, "mg/L"), fraction(given), source(given)),
    ),
  ),
  ...named(
    ["batch_fraction_needed", "change_fraction_needed"],
    gives("fraction", (given) =>
      fractionToReach(given.in(START, "mg/L"), source(given), given.in(TARGET, "mg/L")),
    ),
  ),
  periodic_change_steady_state: periodic(),
  periodic_change_steady_state_before: periodic("before"),
  periodic_change_steady_state_after: periodic("after"),
  ...named(
    ["continuous_steady_state", "flow_through_steady_state"],
    gives("mg/L", (given) =>
      steadyFlowMgL(given.in(["load", "P"], "mg/h"), given.in(["Q", "flow"], "L/h"), source(given)),
    ),
  ),

  ...named(
    ["conc_after_evaporation", "evaporation_conc"],
    gives("mg/L", (given) =>
      afterEvaporation(given.in(START, "mg/L"), given.in("V0", "L"), given.in(["V", "V1"], "L")),
    ),
  ),
  ...named(
    ["conc_after_topoff", "topoff_conc"],
    gives("mg/L", (given) =>
      afterTopUps(
        given.in(START, "mg/L"),
        given.share(
          ["evap_fraction_per_cycle", "evap_fraction", "fraction", "f"],
          ["evap_percent_per_cycle", "evap_percent", "percent"],
        ),
        given.number(COUNT, 1),
        given.in(["Ctopoff", "C_topoff"], "mg/L"),
      ),
    ),
  ),
  steady_state_with_topoff_and_changes: gives("mg/L", steadyTopUp),
  ...named(
    ["cycles_from_ppm", "cycles_of_concentration", "cycles_from_conc"],
    gives("ratio", (given) => cyclesOfConcentration(level(given, "C_system"), level(given, "C_makeup"))),
  ),
  blowdown: gives("US gal/h", (given) => drainToHold(flow(given, "evap"), given.number(CYCLES))),
  ...named(
    ["makeup", "makeup_flow", "makeup_from_cycles"],
    gives("US gal/h", (given) =>
      given.has("blowdown") || given.hasIn("blowdown", "L/h")
        ? flow(given, "evap") + flow(given, "blowdown")
        : fillToHold(flow(given, "evap"), given.number(CYCLES)),
    ),
  ),
  evaporation_gph: gives("US gal/h", (given) =>
    towerEvaporationGalPerH(given.number("tons"), given.number("dT_F"), given.number("coef")),
  ),
  // A year of 365 days.
  makeup_per_year: gives("US gal", (given) => given.number("makeup_gph") * converted(365, "d", "h")),
};
