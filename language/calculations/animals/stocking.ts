import { biomassKg } from "../../science/feeding.ts";
import { oxygenSaturationMgL } from "../../science/oxygen.ts";
import { groupOxygenMgPerH, loadGPerL } from "../../science/respiration.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";
import { airPressureAtm } from "../gases/air-pressure.ts";

export const stocking = calculation({
  name: "stocking",
  title: "Fish in a volume, and their oxygen",
  group: "animals",
  answers:
    "How heavily a tank is stocked, how much oxygen its fish use in an hour beside what its water holds, and how long that lasts when nothing brings more.",
  inputs: {
    count: quantity("fish", "", [1, 1e9], { isWhole: true }),
    weight: quantity("weight of one", "g", [0, 1e6], { isAbove: true }),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
    salinity: quantity("salinity", "g/kg", [0, 100], {
      otherwise: "0",
      alike: "g/L",
      from: "reading salinity",
    }),
    altitude: quantity("height above the sea", "m", [-500, 11_000], { otherwise: "0 m", from: "altitude" }),
    activity: quantity("oxygen used, times that of a fish at rest", "", [1, 10], { otherwise: "1..3" }),
    least: quantity("oxygen not to fall below", "mg/L", [0, 100], { otherwise: "5 mg/L" }),
    density: quantity("fish by weight that may be in a litre", "g/L", [0, 1000], { optional: true }),
  },
  formula: [
    "oxygen used = count × exp(15.7 - 5020 / T) × (weight / 50 g)^0.79 × 31.998 mg/h × activity, T in kelvin",
    "lasts = (saturation - least) × volume / oxygen used, with no pump, no plant and no air above",
    "weight that may be = density × volume",
  ],
  range: "bony fish of 0.1 g to 5 kg at 0 to 30 C; filter and bottom, which use oxygen too, are left out",
  sources: [
    "oxygen: Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905, abstract; 1 to 3 times the rest: common practice, no source",
    "saturation: Benson & Krause 1984, Limnol. Oceanogr. 29:620-632",
    "5 mg/L of oxygen: Bowser & Buttner 1993, NRAC Bulletin 111, the threshold of cold-water fish; warm-water fish 3",
  ],
  caution:
    "Species differ by a factor of two and more, and oxygen is not all that counts: room, waste and temper do. No figure here says how many fish a tank may hold; what the law of the place says of densities goes before.",
  examples: [
    {
      given: "count=60 weight=0.5 g volume=54 L temperature=24 activity=2",
      gives: { load: "0.556 g/L", used: "30.6 mg", held: "8.42 mg/L", lasts: "6.03 h" },
      from: "60 × exp(15.7 - 5020 / 297.15) × 0.01^0.79 × 31.998 × 2 = 30.6 mg an hour; (8.42 - 5) × 54 = 185 mg are there above the least",
    },
    {
      given: "count=1000 weight=4 kg volume=50 m3 temperature=20 activity=1 density=80 g/L",
      gives: { biomass: "4000000 g", "may-be": "4000 kg", load: "80 g/L" },
      from: "80 kg/m3 × 50 m3 = 4000 kg: an example of the Global Seafood Advocate on recirculating farms, as published",
    },
  ],
  compute(given) {
    const { count, weight, volume, temperature, salinity, activity, least, density } = given;
    const atm = airPressureAtm(given.altitude, undefined, "no");
    if (isOutside(atm)) return atm;
    const used = groupOxygenMgPerH(count, weight, temperature, activity);
    if (isOutside(used)) return used;
    const held = oxygenSaturationMgL(temperature, salinity, atm);
    if (isOutside(held)) return held;
    const results: Result[] = [
      result("biomass", "weight of all", "g", count * weight),
      result("load", "fish in a litre", "g/L", loadGPerL(count, weight, volume)),
      result("used", "oxygen they use in an hour", "mg", used),
      result("used-in", "that is, of the water in an hour", "mg/L", used / volume),
      result("held", "oxygen the water holds at saturation", "mg/L", held),
      result(
        "lasts",
        "lasts to that least, with nothing bringing more, for",
        "h",
        (Math.max(0, held - least) * volume) / used,
      ),
    ];
    if (density !== undefined)
      // A kilogram in a cubic metre is a gram in a litre.
      results.push(
        result("may-be", "weight that may be in it by that density", "kg", biomassKg(density, volume / 1000)),
      );
    return results;
  },
});
