import { conductivity25MSPerCm, salinityFrom25 } from "../../science/conductivity.ts";
import { type Figure, isOutside, map } from "../../science/result.ts";
import {
  conductivityMSPerCm,
  densityKgPerM3,
  freezingPointC,
  salinityFromConductivity,
  salinityFromGravity,
  specificGravity,
  t68FromC,
} from "../../science/seawater.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";

const READINGS = ["salinity", "conductivity", "conductivity25", "gravity"] as const;

const inputs = {
  temperature: quantity("temperature of the water", "C", [-5, 100], { from: "reading temperature" }),
  salinity: quantity("salinity", "g/kg", [0, 100], { optional: true, alike: "g/L" }),
  conductivity: quantity("or conductivity as it is there", "mS/cm", [0, 200], { optional: true }),
  conductivity25: quantity("or conductivity carried to 25 C", "mS/cm", [0, 200], {
    optional: true,
  }),
  gravity: quantity("or specific gravity", "", [0.9, 1.2], { optional: true }),
  reference: quantity("reference temperature of the gravity", "C", [-2, 40], { otherwise: "25 C" }),
};

export const salinity = calculation({
  name: "salinity",
  title: "Salinity, conductivity, specific gravity",
  group: "hardness and salts",
  answers:
    "What a reading of salinity, conductivity or specific gravity is in the other two, with the density and the freezing point. Give one of them, with the temperature at which it was read.",
  inputs,
  formula: [
    "salinity from conductivity: PSS-78, and below 2 its extension by Hill and others",
    "density by salinity and temperature: EOS-80",
    "specific gravity = density / density of pure water at the reference temperature",
  ],
  range:
    "sea water, whole or diluted: salinity 0.05 to 42 for conductivity and -2 to 35 C, 0 to 42 for density and -2 to 40 C; at the surface. Other salts of the same conductivity are another mass",
  sources: [
    "Fofonoff & Millard 1983, Algorithms for computation of fundamental properties of seawater, UNESCO Technical Papers in Marine Science 44",
    "Hill, Dauphinee & Woods 1986, IEEE J. Oceanic Eng. OE-11:109-112 (below 2)",
    "42.914 mS/cm at 35, 15 C: Culkin & Smith 1980, recalled; temperatures of ITS-90 as those of IPTS-68: Saunders 1990",
  ],
  caution:
    "An instrument for specific gravity is set for one reference temperature, and the same water reads 1.0264 against 25 C and 1.0234 against 4 C: read it off the instrument.",
  examples: [
    {
      given: "temperature=25 salinity=35",
      gives: { gravity: "1.0264", conductivity25: "53.1 mS/cm", density: "1023.34 kg/m3" },
      from: "UNESCO 44 prints 1023.343 kg/m3 for 35 and 25 C; pure water of 25 C has 997.048, and the ratio is 1.0264",
    },
    {
      given: "temperature=24 gravity=1.00754 reference=24",
      gives: { salinity: "10 g/kg" },
      from: "The same equation the other way: at 24 C a salinity of 10 is 1.00754 times as dense as pure water",
    },
  ],
  compute(given) {
    const t68 = t68FromC(given.temperature);
    const reference68 = t68FromC(given.reference);
    const found = salinityOf(given, t68, reference68);
    if (isOutside(found)) return found;
    const density = densityKgPerM3(found, t68);
    return [
      result("salinity", "salinity", "g/kg", found),
      result(
        "grams",
        "salts in a litre",
        "g/L",
        map(density, (each) => (found * each) / 1000),
      ),
      result("conductivity", "conductivity at that temperature", "mS/cm", conductivityMSPerCm(found, t68)),
      result("conductivity25", "conductivity at 25 C", "mS/cm", conductivity25MSPerCm(found)),
      result("gravity", "specific gravity", "", specificGravity(found, t68, reference68), 5),
      result("density", "density", "kg/m3", density, 6),
      result("freezing", "freezes at", "C", freezingPointC(found)),
    ];
  },
});

function salinityOf(given: Given<typeof inputs>, t68: number, reference68: number): Figure {
  const leads = oneOf(given, READINGS);
  if (isOutside(leads)) return leads;
  const read = given[leads]!;
  switch (leads) {
    case "salinity":
      return read;
    case "conductivity":
      return salinityFromConductivity(read, t68);
    case "conductivity25":
      return salinityFrom25(read);
    default:
      return salinityFromGravity(read, t68, reference68);
  }
}
