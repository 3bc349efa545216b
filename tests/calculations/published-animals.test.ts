import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { answerOf, asked, plain } from "./asked.ts";
import { holdRows, type Scaled } from "./held.ts";

/** A fish whose weight in g is a times its length in mm cubed has the condition of that a. */
const condition = (a: number): Scaled => ({
  calculation: "growth",
  texts: { weight: `${plain(a * 100 ** 3)} g`, length: "100 mm" },
  figure: "condition-english",
});

/** Degree-days are a plain number in C; of rows in F they are nine fifths. */
function summed(given: Inputs): Scaled {
  const isF = given.has("Tmean_F");
  const unit = isF ? "F" : "C";
  const mean = given.text([`Tmean_${unit}`, `T_${unit}`]);
  const base = given.has(`base_${unit}`) ? given.text(`base_${unit}`) : "0";
  return {
    calculation: "degree-days",
    texts: {
      temperature: `${mean} ${unit}`,
      days: given.has("days") ? `${given.text("days")} d` : "1 d",
      base: `${base} ${unit}`,
    },
    figure: "sum",
    times: isF ? 9 / 5 : 1,
  };
}

const haul = (given: Inputs, figure: string): Scaled => ({
  calculation: "haul",
  texts: given.has("load_lb")
    ? {
        species: "trout",
        load: `${given.text("load_lb")} lb`,
        reference: `${given.text("T0_F")} F`,
        temperature: `${given.text("T_F")} F`,
      }
    : { species: "channel-catfish", temperature: given.has("T_F") ? `${given.text("T_F")} F` : "65 F" },
  figure,
});

holdRows(
  /1[25]-[a-z-]+\.csv$/,
  {
    transport_load_temp_adjusted_lb: (given) => haul(given, "load"),
    catfish_load_lb_per_gal: (given) => haul(given, "load"),
    haul_density_kg_per_L_min: (given) => haul(given, "short-least"),
    haul_density_kg_per_L_max: (given) => haul(given, "short-most"),
    condition_factor_english: (given) => condition(given.number("K_metric")),
    condition_factor_unit_ratio: (given) => condition(given.number("lb_in3_over_g_mm3")),
    weight_from_length_g: (given) => ({
      calculation: "ration",
      texts: {
        count: "1",
        length: `${given.text("L_mm")} mm`,
        a: plain(given.number("a")),
        b: given.text("b"),
        percent: "1 %",
      },
      figure: "weight",
    }),
    daily_feed_kg: (given) => ({
      calculation: "ration",
      texts: {
        count: "1000",
        weight: `${plain(given.number("biomass_kg") / 1000)} kg`,
        percent: `${given.text("percent_per_day")} %`,
      },
      figure: "a-day",
      // Grams of a day, of a row in kg/day.
      times: 1e-3,
    }),
    max_biomass_kg: (given) => ({
      calculation: "stocking",
      texts: {
        count: "1",
        weight: "1 kg",
        temperature: "20 C",
        activity: "1",
        volume: `${given.text("V_m3")} m3`,
        density: `${given.text("density_kg_m3")} g/L`,
      },
      figure: "may-be",
    }),
    specific_growth_rate: (given) => ({
      calculation: "growth",
      texts: {
        from: `${given.text("W1_g")} g`,
        to: `${given.text("W2_g")} g`,
        days: `${given.text("days")} d`,
      },
      figure: "growth",
      times: 1,
    }),
    feed_conversion_ratio: (given) => ({
      calculation: "growth",
      texts: {
        from: "100 g",
        to: `${plain(100 + given.number("gain_g"))} g`,
        days: "30 d",
        food: `${given.text("feed_g")} g`,
      },
      figure: "conversion",
    }),
    tan_production_g_day: (given) => ({
      calculation: "feed-ammonia",
      texts: {
        food: `${given.text("feed_g_day")} g`,
        protein: `${plain(100 * given.number("protein_fraction"))} %`,
        volume: "100 L",
      },
      figure: "ammonia",
      times: 1,
    }),
    zebrafish_hours_at_T: (given) => ({
      calculation: "development",
      texts: { hours: `${given.text("h_at_28_5")} h`, temperature: `${given.text("T_C")} C` },
      figure: "hours",
    }),
    degree_days_single_day: summed,
    degree_days_sum: summed,
    cooling_degree_days: summed,
    carp_degree_days: summed,
    days_to_target_degree_days: (given) => ({
      calculation: "degree-days",
      texts: {
        target: given.text("target_DD"),
        temperature: `${given.text("T_C")} C`,
        base: `${given.text("base_C")} C`,
      },
      figure: "left",
    }),
  },
  // Raceways and their flows are no part of a fish room; the ranges are published as such (thresholds.ts).
  [
    "raceway_total_ammonia_ppm",
    "flow_index_oxygen_adjusted",
    "feed_rate_range_min",
    "feed_rate_range_max",
    "haul_tan_exposure_limit_ppm",
  ],
);

describe("animals", () => {
  it("a rate that grew a fish grows it again", () => {
    const grown = { from: "0.2 g", to: "0.5 g", days: "30 d" };
    const rate = asked("growth", grown, "growth").best!;
    const again = asked("growth", { from: "0.2 g", days: "30 d", rate: plain(rate) }, "to");
    expect(again.best).toBeCloseTo(0.5, 9);
  });

  it("warm days so far shorten what is left", () => {
    const left = (temperatures: string) =>
      asked("degree-days", { temperatures, temperature: "10", target: "310" }, "left").best;
    expect(left("10, 10")).toBe(29);
    expect(
      answerOf("degree-days", { temperatures: "10", target: "310", base: "10" }).figures[1]?.outside,
    ).toContain("base");
  });

  it("a stage by its name is the stage by its hours", () => {
    const named = asked("development", { stage: "long-pec", temperature: "27" }, "hours").best!;
    expect(asked("development", { hours: "48", temperature: "27" }, "hours").best).toBe(named);
    expect(answerOf("development", { temperature: "27" }).outside).toContain("stage, hours");
  });

  it("fish that are stocked use what the same fish in a bag use", () => {
    const fish = { count: "60", weight: "0.5 g", temperature: "24", activity: "2" };
    const used = asked("stocking", { ...fish, volume: "54 L" }, "used").best!;
    const packed = { ...fish, water: "1 L", gas: "1 L", hours: "10", KH: "5", pH: "7.5" };
    const total = asked("bag", packed, "total").best!;
    expect(total).toBeCloseTo(((used * 10) / 31.998) * 0.08 * 14.007, 9);
  });

  it("loads are of the fish of the source only", () => {
    expect(answerOf("haul", { species: "guppy", temperature: "24" }).problems[0]?.message).toContain(
      "species",
    );
    expect(answerOf("haul", { species: "trout", temperature: "12" }).outside).toContain("load and reference");
    expect(
      answerOf("haul", { species: "channel-catfish", temperature: "20", load: "5 kg" }).outside,
    ).toContain("load");
  });
});
