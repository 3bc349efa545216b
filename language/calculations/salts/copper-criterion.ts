import {
  copperAcuteDissolvedUgL,
  copperAcuteTotalUgL,
  copperChronicDissolvedUgL,
  copperChronicTotalUgL,
} from "../../science/copper.ts";
import { map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";

export const copperCriterion = calculation({
  name: "copper-criterion",
  title: "Criteria for copper by hardness",
  group: "hardness and salts",
  answers:
    "How much copper the criteria by hardness allow in fresh water, dissolved and in all, for an hour and for four days; and where a reading stands.",
  inputs: {
    hardness: quantity("general hardness", "mg/L CaCO3", [0, 100_000], { from: "reading GH" }),
    copper: quantity("copper", "ug/L", [0, 1e6], { optional: true, from: "reading copper" }),
  },
  formula: [
    "acute, in all = exp(0.9422 × ln(hardness) - 1.464); dissolved 0.960 × exp(0.9422 × ln(hardness) - 1.700)",
    "chronic, in all = exp(0.8545 × ln(hardness) - 1.465); dissolved 0.960 × exp(0.8545 × ln(hardness) - 1.702)",
  ],
  range: "fresh water, hardness 25 to 400 mg/L as CaCO3",
  sources: [
    "US EPA 1985, Ambient Water Quality Criteria for Copper, EPA 440/5-84-031 (total recoverable); update of 1995 (dissolved)",
    "invertebrates: Arthur & Leonard 1970, J. Fish. Res. Board Can. 27:1277-1283 (Gammarus, Physa); Theodoxus fluviatilis, three weeks: PubMed 32556375 (2020, abstract)",
  ],
  caution:
    "Shrimp, snails and other invertebrates die at a few times less than fish: half of them at 16 to 39 ug/L in published trials (Theodoxus, Physa, Gammarus). EPA went over to a model of more of the water in 2007: soft water, low pH and little organic matter make copper worse than hardness tells. Copper from pipes stands highest in the first and the hot water.",
  examples: [
    {
      given: "hardness=100 mg/L CaCO3",
      gives: { "acute-dissolved": "13 ug/L", "chronic-dissolved": "9 ug/L" },
      from: "Tables of the update print 13 and 9.0 ug/L, dissolved, for a hardness of 100 (recalled); 0.960 × exp(0.9422 × 4.605 - 1.700) = 13.4, and 0.960 × exp(0.8545 × 4.605 - 1.702) = 8.96",
    },
  ],
  compute({ hardness, copper }) {
    const chronic = copperChronicDissolvedUgL(hardness);
    return [
      result("acute-dissolved", "acute, dissolved", "ug/L", copperAcuteDissolvedUgL(hardness), 2),
      result("chronic-dissolved", "chronic, dissolved", "ug/L", chronic, 2),
      result("acute-total", "acute, in all", "ug/L", copperAcuteTotalUgL(hardness), 2),
      result("chronic-total", "chronic, in all", "ug/L", copperChronicTotalUgL(hardness), 2),
      ...(copper === undefined
        ? []
        : [
            result(
              "of-chronic",
              "this copper is of the chronic criterion, dissolved",
              "%",
              map(chronic, (most) => (copper / most) * 100),
              2,
            ),
          ]),
    ];
  },
});
