import { ammoniaShare } from "../../science/ammonia-salinity.ts";
import { acuteAmmoniaMgLN, chronicAmmoniaMgLN } from "../../science/criteria.ts";
import { molarMass } from "../../science/elements.ts";
import { isOutside, outside } from "../../science/result.ts";
import { calculation, result } from "../calculation.ts";
import { ammoniaWater } from "./water-inputs.ts";

/** The criteria are of fresh water. */
const FRESH_G_PER_KG = 1;

export const freeAmmonia = calculation({
  name: "free-ammonia",
  title: "Free ammonia",
  group: "ammonia",
  answers:
    "How much of the total ammonia that a test reads is NH3, the part that harms, at this pH and temperature; and where the total stands beside the criteria for fresh water.",
  inputs: ammoniaWater,
  formula: [
    "share = 1 / (1 + 10^(pKa - pH))",
    "pKa = 0.09018 + 2729.92 / T up to 1 g/kg, T in kelvin; above that a fit by temperature and salinity",
    "NH3 = total as N × share × 17.031 / 14.007",
  ],
  range:
    "0 to 50 C in fresh water, 0 to 40 C and 40 g/kg in salt; the criteria fresh water, pH 6.5 to 9, 0 to 30 C",
  sources: [
    "Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383",
    "salt water: Clegg & Whitfield 1995, Geochim. Cosmochim. Acta 59:2403-2421",
    "criteria: US EPA 2013, Aquatic Life Ambient Water Quality Criteria for Ammonia, EPA 822-R-13-001",
  ],
  caution:
    "Raising the pH or the temperature makes more of the same total harmful. Criteria protect the animals of a river; they are no target for a tank and no promise for one animal.",
  examples: [
    {
      given: "total=1 mg/L pH=8 temperature=20",
      gives: { share: "3.81 %", free: "0.046 mg/L NH3" },
      from: "Emerson and others 1975 print 3.82 % at 20 C and pH 8.0; their table takes 273.2 K for 0 C, this 273.15",
    },
  ],
  compute({ total, pH, temperature, salinity }) {
    const found = ammoniaShare(pH, temperature, salinity);
    if (isOutside(found)) return found;
    const { share } = found;
    const asNH3 = (molarMass("NH3") as number) / (molarMass("N") as number);
    const isFresh = salinity <= FRESH_G_PER_KG;
    const notFresh = outside("the criteria are for fresh water");
    return [
      result("free", "free ammonia", "mg/L NH3", total * share * asNH3, 2),
      result("free-N", "free ammonia as N", "mg/L N", total * share, 2),
      result("share", "share that is free", "%", share * 100),
      result(
        "chronic",
        "chronic criterion of the total",
        "mg/L N",
        isFresh ? chronicAmmoniaMgLN(pH, temperature) : notFresh,
      ),
      result(
        "acute",
        "acute criterion of the total",
        "mg/L N",
        isFresh ? acuteAmmoniaMgLN(pH, temperature, false) : notFresh,
      ),
    ];
  },
});
