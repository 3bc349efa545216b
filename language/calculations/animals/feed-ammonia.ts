import { feedOxygenG, nitrateRiseMgLPerDay } from "../../science/feed-waste.ts";
import { ammoniaFromFeedGN } from "../../science/feeding.ts";
import { calculation, quantity, result } from "../calculation.ts";

export const feedAmmonia = calculation({
  name: "feed-ammonia",
  title: "What a day's food makes of ammonia and nitrate",
  group: "animals",
  answers:
    "How much ammonia a day's food turns into, what that is in a volume, how much nitrate rises with it once the filter has worked, and how much oxygen all of it takes.",
  inputs: {
    food: quantity("food a day, as weighed", "g", [0, 1e9]),
    protein: quantity("protein of the food", "%", [0, 100]),
    volume: quantity("net volume", "L", [0, 1e9], { isAbove: true, from: "volume" }),
  },
  formula: [
    "ammonia as N = food × protein × 0.092",
    "nitrate a day = ammonia as N × 62.004 / 14.007 / volume, when all of it is oxidised and none taken up",
    "oxygen at most = food × (0.4 × 2.664 + protein / 6.25 × 4.569): nothing of it grows into fish",
  ],
  range:
    "dry food as farms use it; frozen food holds a tenth of the protein by weight that its dry matter does",
  sources: [
    "0.092: Timmons & Ebeling, Recirculating Aquaculture, about 2010, recalled",
    "oxygen: arithmetic of atomic weights, CIAAW 2021; 40 % of carbon in food: C. E. Boyd, Oxygen demand of aquaculture feed, Global Aquaculture Advocate, read in part without its date; 16 % of nitrogen in protein: the Kjeldahl convention",
  ],
  caution:
    "A planning figure of fish farms: the nitrate of the tank's own tests says more. A filter that is new, washed or dosed with medicine does not take it.",
  examples: [
    {
      given: "food=60 kg protein=40 % volume=50 m3",
      gives: { ammonia: "2208 g", "in-volume": "44.2 mg/L N" },
      from: "60000 × 0.4 × 0.092 = 2208 g of nitrogen a day, by the formula of Timmons & Ebeling",
    },
    {
      given: "food=1 g protein=45 % volume=100 L",
      gives: { "in-volume": "0.414 mg/L N", nitrate: "1.83 mg/L/d", oxygen: "1.39 g" },
      from: "0.45 × 0.092 = 0.0414 g in 100 L; × 4.427 as nitrate; 0.4 × 2.664 + 0.072 × 4.569",
    },
  ],
  compute({ food, protein, volume }) {
    const share = protein / 100;
    const nitrogenG = ammoniaFromFeedGN(food, share);
    return [
      result("ammonia", "total ammonia a day, as N", "g", nitrogenG),
      result("in-volume", "in the volume, were none taken up, a day", "mg/L N", (nitrogenG * 1000) / volume),
      result("nitrate", "nitrate rises by, as NO3", "mg/L/d", nitrateRiseMgLPerDay(food, share, volume)),
      result(
        "oxygen",
        "oxygen that all of it takes, at most",
        "g",
        feedOxygenG(food, share, { carbon: 0, nitrogen: 0 }),
      ),
    ];
  },
});
