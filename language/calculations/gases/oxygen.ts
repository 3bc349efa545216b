import {
  atmFromHPa,
  oxygenFromShareMgL,
  oxygenSaturationMgL,
  oxygenSaturationShare,
} from "../../science/oxygen.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { airInputs, airPressureAtm } from "./air-pressure.ts";

export const oxygen = calculation({
  name: "oxygen",
  title: "Oxygen at saturation",
  group: "gases",
  answers:
    "How much oxygen water holds in balance with air at this temperature, salinity and height or air pressure; how full a reading in mg/L is, and what a reading in per cent is in mg/L.",
  inputs: {
    temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
    salinity: quantity("salinity", "g/kg", [0, 100], {
      otherwise: "0",
      alike: "g/L",
      from: "reading salinity",
    }),
    ...airInputs,
    oxygen: quantity("oxygen read", "mg/L", [0, 100], { optional: true, from: "reading oxygen" }),
    percent: quantity("or oxygen read, of saturation", "%", [0, 1000], { optional: true }),
  },
  formula: [
    "saturation = exp(-139.34411 + 157570.1/T - 66423080/T² + 1.2438e10/T³ - 8.621949e11/T⁴), T in kelvin",
    "× exp(-salinity × (0.017674 - 10.754/T + 2140.7/T²))",
    "× (P - u)(1 - θP) / ((1 - u)(1 - θ)), P the air pressure in atm, u vapour pressure, θ by temperature",
    "P by the height h in metres = (1 - 0.0065 h / 288.15)^5.255876",
  ],
  range: "0 to 40 C, salinity 0 to 40, 0.5 to 1.1 atm",
  sources: [
    "Benson & Krause 1984, Limnol. Oceanogr. 29:620-632, as adopted in USGS Office of Water Quality Technical Memorandum 2011.03; the coefficients of the vapour pressure recalled",
    "air pressure by height: U.S. Standard Atmosphere 1976",
  ],
  caution:
    "What water can hold is not what it holds: at night, after food and with a stopped pump it falls within the hour. A weather report gives the pressure reduced to sea level; say so with sea-level=yes.",
  examples: [
    {
      given: "temperature=20 oxygen=6.4 mg/L altitude=500 m",
      gives: { saturation: "8.55 mg/L", share: "74.8 %", thinner: "1.06" },
      from: "9.09 mg/L at sea level (Benson & Krause); Piper and others 1982, Fish Hatchery Management, figure 1, divide by 1.06 at 500 m: 8.57; vapour, which height does not thin, takes off 0.02, and 6.4 is three quarters of it",
    },
    {
      given: "temperature=0 percent=50 %",
      gives: { saturation: "14.6 mg/L", read: "7.31 mg/L" },
      from: "USGS Technical Memorandum 2011.03 has 14.621 mg/L at 0 C and 1 atm; half of it",
    },
  ],
  compute(given) {
    const { temperature, salinity } = given;
    const atm = airPressureAtm(given.altitude, given.pressure, given["sea-level"]);
    if (isOutside(atm)) return atm;
    const saturation = oxygenSaturationMgL(temperature, salinity, atm);
    if (isOutside(saturation)) return saturation;
    return [
      result("saturation", "oxygen at saturation", "mg/L", saturation),
      ...(given.oxygen === undefined
        ? []
        : [
            result(
              "share",
              "the reading, of saturation",
              "%",
              map(oxygenSaturationShare(given.oxygen, temperature, salinity, atm), (share) => share * 100),
            ),
          ]),
      ...(given.percent === undefined
        ? []
        : [
            result(
              "read",
              "oxygen read",
              "mg/L",
              oxygenFromShareMgL(given.percent / 100, temperature, salinity, atm),
            ),
          ]),
      result("pressure", "air pressure here, hPa", "", atm / atmFromHPa(1), 4),
      result("thinner", "thinner than at 1013.25 hPa, times", "", 1 / atm),
    ];
  },
});
