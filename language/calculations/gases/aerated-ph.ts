import { co2AtAirMgL, pHFromCO2 } from "../../science/aeration.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { CARBONATE_SOURCES, carbonateWater, ionicStrength, meqLOf, roomAir } from "./carbonate-inputs.ts";

export const aeratedPH = calculation({
  name: "aerated-ph",
  title: "pH of aired water",
  group: "gases",
  answers:
    "Where the pH and the carbon dioxide of water come to rest when it has stood with an air stone in a room of this air: what tap water or a packed bag turns into.",
  inputs: {
    ...carbonateWater,
    air: roomAir,
    pH: quantity("pH now", "pH", [0, 14], { optional: true, from: "reading pH" }),
  },
  formula: [
    "CO2 = Henry's constant by temperature × share of the air × 44.009",
    "pH where alkalinity = [HCO3] + 2 [CO3] + [OH] - [H], by K1, K2 and Kw at that temperature",
  ],
  range:
    "fresh water, 0 to 50 C, conductivity up to 2000 uS/cm, near sea level; carbonate is the only buffer; nothing gives off or takes up carbon dioxide",
  sources: [
    ...CARBONATE_SOURCES,
    "420 ppm: outdoor air of 2023, recalled; closed rooms of 600 to 1200 ppm: common practice, no source",
  ],
  caution:
    "With the pH the free part of the ammonia rises: before fish go into such water, or aired water onto fish, see free-ammonia.",
  examples: [
    {
      given: "KH=1 meq/L temperature=25 air=420 ppm",
      gives: { pH: "8.19", co2: "0.629 mg/L" },
      from: "10^-1.468 × 420e-6 = 1.43e-5 mol/L, 0.63 mg/L; as bicarbonate only 6.352 + log10(0.001 / 1.43e-5) = 8.20, and the carbonate in it takes off 0.01",
    },
    {
      given: "KH=0 temperature=25 air=420 ppm",
      gives: { pH: "5.6" },
      from: "water without alkalinity is clean rain, pH 5.6 as textbooks have it: [H] = √(10^-6.352 × 1.43e-5) = 10^-5.6",
    },
  ],
  compute({ KH, temperature, conductivity, air, pH }) {
    const strength = ionicStrength(conductivity);
    if (isOutside(strength)) return strength;
    const co2 = co2AtAirMgL(temperature, air);
    if (isOutside(co2)) return co2;
    const found = pHFromCO2(meqLOf(KH), co2, temperature, strength);
    return [
      result("pH", "pH in balance with the air", "pH", found),
      result("co2", "carbon dioxide then", "mg/L", co2),
      ...(pH === undefined
        ? []
        : [
            result(
              "rise",
              "higher than now by",
              "",
              map(found, (aired) => aired - pH),
              2,
            ),
          ]),
    ];
  },
});
