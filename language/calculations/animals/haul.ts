import { convert } from "../../quantity/quantity.ts";
import { unitOf } from "../../quantity/units.ts";
import { type Figure, isOutside, type Outside, outside } from "../../science/result.ts";
import { threshold } from "../../science/thresholds.ts";
import { catfishLoadLbPerGal, loadAtTemperature } from "../../science/transport.ts";
import { calculation, choice, type Given, quantity, type Result, result } from "../calculation.ts";

/** Trout: the load falls by so much of itself for each degree F. */
const TROUT_PERCENT_PER_F = 5.56;

const inputs = {
  species: choice("fish", ["trout", "channel-catfish"]),
  temperature: quantity("temperature of the water", "C", [-5, 100]),
  load: quantity("trout: a load that is known to do", "kg", [0, 1e6], { optional: true, isAbove: true }),
  reference: quantity("trout: the temperature at which it does", "C", [-5, 100], { optional: true }),
  water: quantity("channel catfish: water of the tank", "L", [0, 1e6], { optional: true, isAbove: true }),
};

export const haul = calculation({
  name: "haul",
  title: "Published loads of hauling tanks",
  group: "animals",
  answers:
    "What hatcheries published of the load of an aerated hauling tank by temperature, for trout and for channel catfish of 16 inches, and for no other fish.",
  inputs,
  formula: [
    "trout: load × (1 - 5.56 % × (temperature - reference in F))",
    "channel catfish of 16 inches: 4 lb in a US gallon at 65 F, a quarter less for each 10 F warmer and as much more colder",
  ],
  range:
    "hauling tanks with aeration or oxygen; trout of one size; channel catfish of 16 inches at 45 to 85 F",
  sources: [
    "Piper and others 1982, Fish Hatchery Management, p. 356 (trout), p. 362 (catfish)",
    "Wynne 2007, World Aquaculture 38(1):42 (channel catfish, trips of 1 to 4 h)",
  ],
  caution:
    "What experienced hauliers published of their fish is no licence for others, and none for bags (see bag). Fast them first; 11 mg/L of total ammonia for 6 hours harmed trout (Piper p. 357). Transport of live fish has rules of its own: the law of the place goes before.",
  examples: [
    {
      given: "species=trout load=1000 lb reference=52 F temperature=57 F",
      gives: { load: "327 kg" },
      from: "Piper and others 1982, p. 356: 1000 lb at 52 F are 722 lb at 57 F, which is 327 kg",
    },
    {
      given: "species=channel-catfish temperature=65 F water=1000 L",
      gives: { load: "479 g/L", "in-all": "479 kg" },
      from: "Piper and others 1982, p. 362: 4 lb in a US gallon; 4 × 453.592 / 3.785",
    },
  ],
  compute(given) {
    const { species, temperature } = given;
    const fahrenheit = convert(temperature, unitOf("C"), unitOf("F"))!;
    return species === "trout" ? ofTrout(given, fahrenheit) : ofCatfish(given, fahrenheit);
  },
});

function ofTrout({ load, reference, water }: Given<typeof inputs>, toF: number): readonly Result[] | Outside {
  if (water !== undefined) return outside("water: of trout no load by the litre is published here");
  if (load === undefined || reference === undefined) return outside("trout: load and reference are needed");
  const fromF = convert(reference, unitOf("C"), unitOf("F"))!;
  const kg = loadAtTemperature(load, fromF, toF, TROUT_PERCENT_PER_F);
  return isOutside(kg) ? kg : [result("load", "load at that temperature", "kg", kg)];
}

function ofCatfish(
  { load, reference, water }: Given<typeof inputs>,
  toF: number,
): readonly Result[] | Outside {
  if (load !== undefined || reference !== undefined)
    return outside("load, reference: of channel catfish the load itself is published");
  const perGallon: Figure = catfishLoadLbPerGal(16, toF);
  if (isOutside(perGallon)) return perGallon;
  const gL =
    (perGallon * convert(1, unitOf("lb"), unitOf("g"))!) / convert(1, unitOf("US gal"), unitOf("L"))!;
  const published = (end: "min" | "max"): number =>
    threshold(`haul_density_${end}_channel_catfish`)!.value * 1000;
  return [
    result("load", "load at that temperature", "g/L", gL),
    ...(water === undefined ? [] : [result("in-all", "in that water", "kg", (gL * water) / 1000)]),
    result("short-least", "on trips of 1 to 4 h, published from", "g/L", published("min")),
    result("short-most", "to", "g/L", published("max")),
  ];
}
