import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { cylinder } from "../published/mapping/units.ts";
import { readRows, referenceFiles } from "../published/published.ts";
import { type Asking, type Askings, allowed, answerTo, plain } from "./asked.ts";

const rows = referenceFiles()
  .filter((file) => /09-[a-z-]+\.csv$/.test(file))
  .flatMap(readRows);

/** A volume as it is written; acre-feet and millions of gallons, which no tank is measured in, in litres. */
function volume(given: Inputs): string {
  for (const [key, unit] of [
    ["V_L", "L"],
    ["V_usgal", "US gal"],
    ["V_impgal", "imp gal"],
    ["V_ft3", "ft3"],
  ] as const)
    if (given.has(key)) return `${given.text(key)} ${unit}`;
  return `${plain(given.has("diam_m") ? cylinder(given) : given.in("V", "L"))} L`;
}

const dose = (
  given: Inputs,
  target: number,
  more: Record<string, string> = {},
  figure = "weight",
): Asking => ({
  calculation: "dose",
  texts: { target: `${plain(target)} mg/L`, volume: volume(given), ...more },
  figure,
});
const oneMgL = (given: Inputs): Asking => dose(given, 1);

const formalin = (given: Inputs): Asking => ({
  calculation: "formalin",
  texts: given.has("conc_ppm_v")
    ? { target: `${given.text("conc_ppm_v")} uL/L`, volume: volume(given) }
    : {
        weight: `${given.text("conc_ppm_w")} mg/L`,
        volume: volume(given),
        density: `${plain(given.number("formalin_density_g_mL") * 1000)} g/L`,
      },
  figure: "liquid",
});

const redose = (given: Inputs): Asking => ({
  calculation: "redose",
  texts: {
    dose: `${given.text("dose_mg_L")} mg/L`,
    change: `${plain(100 * given.number("fraction_changed"))} %`,
    volume: volume(given),
  },
  figure: "weight",
});

const askings: Askings = {
  mass_for_1ppm: oneMgL,
  mass_for_1ppm_grain: oneMgL,
  mass_for_1ppm_lb: oneMgL,
  formalin_volume: formalin,
  oxygen_demand_of_formalin: (given) => ({
    calculation: "formalin",
    texts: { weight: `${given.text("formalin_ppm")} mg/L`, volume: "100 L" },
    figure: "used",
  }),
  copper_sulfate_mass_lb: (given) =>
    dose(given, given.number("Cu_mg_L"), { active: `${given.text("percent_Cu")} %` }),
  copper_sulfate_lb: (given) => dose(given, given.number("conc_ppm")),
  dose_by_acre_ft_lb: (given) => dose(given, given.in("rate", "mg/L")),
  copper_sulfate_max_ppm: (given) => ({
    calculation: "copper-sulfate",
    texts: { alkalinity: `${given.text("alk_mgCaCO3_L")} mg/L CaCO3`, volume: "100 L" },
    figure: "ceiling",
  }),
  chloride_target_for_nitrite: (given) => ({
    calculation: "nitrite-chloride",
    texts: {
      nitrite: `${given.text("nitrite_ppm")} mg/L NO2`,
      ratio: given.text("ratio"),
      volume: "100 L",
    },
    figure: "wanted",
  }),
  // 10 mg/L of nitrite ask for the 100 mg/L of chloride of the row.
  salt_for_chloride: (given) => ({
    calculation: "nitrite-chloride",
    texts: { nitrite: `${plain(given.number("Cl_mg_L") / 10)} mg/L`, volume: volume(given) },
    figure: "salt",
  }),
  product_mass_for_ppm: (given) =>
    dose(given, given.number("dose_mg_L"), { active: `${given.text("percent_active")} %` }),
  salt_mass_w_v: (given) => ({
    calculation: "salt-bath",
    texts: {
      ...(given.has("percent")
        ? { percent: `${given.text("percent")} %` }
        : { strength: `${given.text("ppt")} ppt` }),
      volume: volume(given),
    },
    figure: "grams",
  }),
  stock_volume_for_dose: (given) => {
    // 1 % weight in volume is 10 g/L.
    const strength = given.has("stock_g_L")
      ? given.number("stock_g_L")
      : given.number("stock_percent_w_v") * 10;
    return dose(given, given.number("dose_mg_L"), { strength: `${plain(strength)} g/L` }, "liquid");
  },
  redose_after_change_mg: redose,
};

it("every row is asked", () => {
  const quantities = new Set(rows.map(({ quantity }) => quantity));
  expect([...quantities].filter((quantity) => !(quantity in askings))).toEqual([]);
});

describe("published", () => {
  it.each(rows.map((row) => [row.id, row] as const))("%s", (_, row) => {
    const got = answerTo(row, askings);
    const [least, most] = allowed(row);
    expect(got).toBeGreaterThanOrEqual(least);
    expect(got).toBeLessThanOrEqual(most);
  });
});
