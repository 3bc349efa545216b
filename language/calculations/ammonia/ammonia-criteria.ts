import {
  acuteAmmoniaMgLN,
  chronicAmmoniaMgLN,
  chronicFourDayMgLN,
  toSignificant,
} from "../../science/criteria.ts";
import { map } from "../../science/result.ts";
import { calculation, choice, quantity, result } from "../calculation.ts";

export const ammoniaCriteria = calculation({
  name: "ammonia-criteria",
  title: "Criteria for ammonia",
  group: "ammonia",
  answers:
    "How much total ammonia the criteria for fresh water allow at this pH and temperature, for an hour, four days and thirty days; and where a total stands beside the strictest.",
  inputs: {
    pH: quantity("pH", "pH", [0, 14], { from: "reading pH" }),
    temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
    salmonids: choice("trout or salmon live there", ["no", "yes"], { otherwise: "no" }),
    total: quantity("total ammonia", "mg/L N", [0, 1000], { optional: true, from: "reading ammonia" }),
  },
  formula: [
    "acute, without = 0.7249 × A × min(51.93, 23.12 × 10^(0.036 × (20 - T)))",
    "A = 0.0114 / (1 + 10^(7.204 - pH)) + 1.6181 / (1 + 10^(pH - 7.204))",
    "acute, with trout or salmon = min(0.275 / (1 + 10^(7.204 - pH)) + 39 / (1 + 10^(pH - 7.204)), 0.7249 × A × 23.12 × 10^(0.036 × (20 - T)))",
    "chronic = 0.8876 × (0.0278 / (1 + 10^(7.688 - pH)) + 1.1994 / (1 + 10^(pH - 7.688))) × 2.126 × 10^(0.028 × (20 - max(T, 7)))",
    "four days = 2.5 × chronic, the chronic first rounded to two figures as the document does",
  ],
  range: "fresh water, pH 6.5 to 9, 0 to 30 C",
  sources: [
    "US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia - Freshwater, EPA 822-R-13-001",
  ],
  caution:
    "Criteria protect the animals of a river, and count means of an hour or of days; they are no target for a tank and no promise for one animal. Snails and mussels die at less than fish.",
  examples: [
    {
      given: "pH=7 temperature=20 salmonids=yes",
      gives: { acute: "17 mg/L N", chronic: "1.9 mg/L N", "four-day": "4.8 mg/L N" },
      from: "The figures that the document itself names for pH 7 and 20 C: 17, 1.9 and 2.5 × 1.9 = 4.8 mg/L as N",
    },
    {
      given: "pH=8 temperature=20 salmonids=no total=0.39",
      gives: { chronic: "0.78 mg/L N", "of-chronic": "50 %" },
      from: "Its chronic table has 0.78 at pH 8 and 20 C; half of that is 50 %",
    },
  ],
  compute({ pH, temperature, salmonids, total }) {
    const chronic = chronicAmmoniaMgLN(pH, temperature);
    const acute = acuteAmmoniaMgLN(pH, temperature, salmonids === "yes");
    return [
      result("acute", "acute criterion, mean of an hour", "mg/L N", acute, 2),
      result(
        "four-day",
        "highest mean of four days",
        "mg/L N",
        map(chronic, (most) => chronicFourDayMgLN(toSignificant(most, 2))),
        2,
      ),
      result("chronic", "chronic criterion, mean of thirty days", "mg/L N", chronic, 2),
      ...(total === undefined
        ? []
        : [
            result(
              "of-chronic",
              "this total is of the chronic criterion",
              "%",
              map(chronic, (most) => (total / most) * 100),
              2,
            ),
          ]),
    ];
  },
});
