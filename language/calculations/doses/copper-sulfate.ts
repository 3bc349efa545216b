import { copperSulfateCeilingMgL, productMg } from "../../science/dosing.ts";
import { isOutside, map } from "../../science/result.ts";
import { ionFraction } from "../../science/salts.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { MASS_IN_WATER, volumeInput } from "./shared.ts";

/** 25.45 % of the crystals. */
const COPPER = ionFraction("CuSO4.5H2O", "Cu") as number;

export const copperSulfate = calculation({
  name: "copper-sulfate",
  title: "Copper sulfate by alkalinity",
  group: "doses",
  answers:
    "The most copper sulfate that extension practice puts into fresh water of this alkalinity, as crystals and as copper; what a wanted copper takes, and on which side of that it stands.",
  inputs: {
    alkalinity: quantity("alkalinity", "mg/L CaCO3", [0, 100_000], { from: "reading KH" }),
    volume: volumeInput,
    copper: quantity("copper wanted", "mg/L", [0, 1000], { optional: true }),
  },
  formula: [
    "ceiling of crystals (pentahydrate) = alkalinity as CaCO3 / 100",
    "copper = 25.45 % of the crystals, 63.546 / 249.68",
    "crystals for a copper = copper × volume / 0.2545",
  ],
  range: "fresh water, alkalinity 50 mg/L as CaCO3 and more: below it is not used at all",
  sources: [
    MASS_IN_WATER,
    "alkalinity / 100 and not below 50 mg/L: extension practice, with SRAC 410 (Masser & Jensen 1991); the limit of 50 recalled",
    "share of copper: atomic weights of CIAAW 2021",
  ],
  caution:
    "A ceiling of fish farms, no advice and no dose: shrimp and snails die at a tenth of it and less, tetras and soft-water fish before others; plants and the filter suffer. It binds to gravel and comes back later. Measure alkalinity and copper, twice a day while it is in; the label, local rules and a veterinarian go before it. Harmful to eyes and to any water it is let into.",
  examples: [
    {
      given: "alkalinity=150 mg/L CaCO3 volume=1000 L",
      gives: { ceiling: "1.5 mg/L", "ceiling-copper": "0.382 mg/L", grams: "1.5 g" },
      from: "150 / 100 = 1.5 mg/L of crystals, of them 25.45 % copper; 1.5 g in 1000 L",
    },
  ],
  compute({ alkalinity, volume, copper }) {
    const ceiling = copperSulfateCeilingMgL(alkalinity);
    if (isOutside(ceiling)) return ceiling;
    const grams = (mgL: number, share = 1) => map(productMg(mgL, volume, share), (mg) => mg / 1000);
    return [
      result("ceiling", "ceiling, crystals", "mg/L", ceiling),
      result("ceiling-copper", "ceiling, as copper", "mg/L", ceiling * COPPER),
      result("grams", "crystals that make the ceiling", "g", grams(ceiling)),
      ...(copper === undefined
        ? []
        : [
            result("wanted", "copper wanted, as crystals", "mg/L", copper / COPPER),
            result("wanted-grams", "crystals that make it", "g", grams(copper, COPPER)),
            result(
              "standing",
              "it stands",
              "",
              copper > ceiling * COPPER
                ? "above the ceiling: not at this alkalinity"
                : "not above the ceiling",
            ),
          ]),
    ];
  },
});
