import { expect, it } from "vitest";
import { geopotentialM } from "../../language/science/oxygen.ts";
import type { Inputs } from "../published/inputs.ts";
import { answerOf, asked, plain } from "./asked.ts";
import { holdRows, type Scaled } from "./held.ts";

function air(given: Inputs): Record<string, string> {
  if (given.has("P_hPa")) return { pressure: `${given.text("P_hPa")} hPa` };
  if (given.has("P_mmHg")) return { pressure: `${given.text("P_mmHg")} mmHg` };
  return {};
}

const saturation = (given: Inputs): Scaled => ({
  calculation: "oxygen",
  texts: { temperature: `${given.text("T_C")} C`, salinity: given.text("S"), ...air(given) },
  figure: "saturation",
});

/** The figure at a height does not depend on the water. */
const atHeight = (given: Inputs, figure: string, times: number): Scaled => ({
  calculation: "oxygen",
  texts: { temperature: "20 C", altitude: `${plain(heightM(given))} m` },
  figure,
  times,
});
const heightM = (given: Inputs): number =>
  given.has("h_geometric_m")
    ? geopotentialM(given.number("h_geometric_m"))
    : given.number(["h_geopotential_m", "h_m"]);

const carbonDioxide = (given: Inputs, KH: string, figure: string): Scaled => ({
  calculation: "carbon-dioxide",
  texts: { KH, pH: given.text("pH"), temperature: given.has("T_C") ? given.text("T_C") : "25" },
  figure,
});

holdRows(
  /0[34]-[a-z0-9-]+\.csv$/,
  {
    do_saturation: saturation,
    do_saturation_1atm: saturation,
    std_atm_pressure: (given) => atHeight(given, "pressure", 100),
    std_atm_pressure_ratio: (given) => atHeight(given, "pressure", 1 / 1013.25),
    do_altitude_correction_factor: (given) => atHeight(given, "thinner", 1),
    do_sea_level_equivalent: (given) => atHeight(given, "thinner", given.number("DO_mg_L")),
    co2_from_alkalinity: (given) => carbonDioxide(given, `${given.text("alk_mgCaCO3_L")} mg/L CaCO3`, "co2"),
    co2_rule_of_thumb: (given) => carbonDioxide(given, `${given.text("KH_dKH")} dKH`, "rule"),
  },
  [
    "log_K1_carbonic",
    "log_K2_carbonic",
    "log_Kw",
    "pK1_carbonic",
    "pK1_carbonic_harned_davis",
    "ln_K0_co2_seawater",
    "log_K1_seawater_total",
    "co2_dkh_coefficient",
  ],
);

it("a reading in mg/L is the share, and the share the reading", () => {
  const water = { temperature: "24", salinity: "3", altitude: "700 m" };
  const share = asked("oxygen", { ...water, oxygen: "6.2" }, "share").best!;
  expect(asked("oxygen", { ...water, percent: plain(share) }, "read").best).toBeCloseTo(6.2, 9);
});

it("a weather report of 1013.25 hPa is the standard air of a height", () => {
  const place = { temperature: "24", altitude: "700 m" };
  const reported = { ...place, pressure: "1013.25 hPa", "sea-level": "yes" };
  const standard = asked("oxygen", place, "saturation").best!;
  expect(asked("oxygen", reported, "saturation").best).toBeCloseTo(standard, 12);
  // Taken for the pressure at the tank it reads high.
  expect(asked("oxygen", { ...place, pressure: "1013.25 hPa" }, "saturation").best).toBeGreaterThan(
    1.08 * standard,
  );
});

it("the same air pressure is the same in every unit, and a pressure without one is refused", () => {
  const at = (pressure: string) => asked("oxygen", { temperature: "20", pressure }, "saturation").best;
  for (const pressure of ["1013.25 mbar", "101.325 kPa", "1 atm", "1013.25hPa"])
    expect(at(pressure)).toBeCloseTo(at("1013.25 hPa")!, 12);
  // 760 mmHg are an atmosphere within a ten-millionth; an inch is 25.4 mm.
  expect(at("760 mmHg")).toBeCloseTo(at("1 atm")!, 5);
  expect(at("29.92126 inHg")).toBeCloseTo(at("1 atm")!, 5);
  for (const pressure of ["1013", "30 bar", "hPa", "-5 hPa"])
    expect(answerOf("oxygen", { temperature: "20", pressure }).outside).toContain("pressure");
});

it("water that has stood aired has the carbon dioxide of its own KH and pH", () => {
  // The two formulas differ by the carbonate that the first takes for bicarbonate: soft water has next to none.
  const soft = { KH: "0.3 dKH", temperature: "22", conductivity: "40" };
  const aired = asked("aerated-ph", { ...soft, air: "800 ppm" }, "pH").best!;
  const co2 = asked("aerated-ph", { ...soft, air: "800 ppm" }, "co2").best!;
  const back = asked("carbon-dioxide", { ...soft, pH: plain(aired) }, "co2").best!;
  expect(back / co2).toBeCloseTo(1, 2);
});
