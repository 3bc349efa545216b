import { unionisedFraction } from "../../science/ammonia.ts";
import { acuteAmmoniaMgLN, chronicAmmoniaMgLN } from "../../science/criteria.ts";
import { molarMass } from "../../science/elements.ts";
import { isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";

export const freeAmmonia = calculation({
  name: "free-ammonia",
  title: "Free ammonia",
  group: "ammonia",
  answers:
    "How much of the total ammonia that a test reads is NH3, the part that harms, at this pH and temperature; and where the total stands beside the criteria for fresh water.",
  inputs: {
    total: quantity("total ammonia", "mg/L N", [0, 1000], { from: "reading ammonia" }),
    pH: quantity("pH", "pH", [0, 14], { from: "reading pH" }),
    temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
    salinity: quantity("salinity", "g/kg", [0, 100], {
      otherwise: "0",
      alike: "g/L",
      from: "reading salinity",
    }),
  },
  formula: [
    "pKa = 0.09018 + 2729.92 / T, T in kelvin",
    "share = 1 / (1 + 10^(pKa - pH))",
    "NH3 = total as N x share x 17.031 / 14.007",
  ],
  range: "0 to 50 C, fresh water; the criteria pH 6.5 to 9 and 0 to 30 C",
  sources: [
    "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383",
    "criteria: US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia, EPA 822-R-13-001",
  ],
  caution:
    "Raising the pH or the temperature makes more of the same total harmful. Criteria protect the animals of a river; they are no target for a tank and no promise for one animal.",
  examples: [
    {
      given: "total=1 mg/L pH=8 temperature=20",
      gives: { share: "3.81 %", free: "0.0463 mg/L NH3" },
      from: "Emerson and others 1975 print 3.83 % at 20 C and pH 8.0; their table takes 273.2 K for 0 C, this 273.15",
    },
  ],
  compute({ total, pH, temperature, salinity }) {
    const share = unionisedFraction(pH, temperature, salinity);
    if (isOutside(share)) return share;
    const asNH3 = (molarMass("NH3") as number) / (molarMass("N") as number);
    return [
      result("free", "free ammonia", "mg/L NH3", total * share * asNH3),
      result("free-N", "free ammonia as N", "mg/L N", total * share),
      result(
        "share",
        "share that is free",
        "%",
        map(share, (each) => each * 100),
      ),
      result("chronic", "chronic criterion of the total", "mg/L N", chronicAmmoniaMgLN(pH, temperature)),
      result("acute", "acute criterion of the total", "mg/L N", acuteAmmoniaMgLN(pH, temperature, false)),
    ];
  },
});
