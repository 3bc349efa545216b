import { co2MgL, co2RuleMgL } from "../../science/carbonate.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { CARBONATE_SOURCES, carbonateWater, ionicStrength, meqLOf } from "./carbonate-inputs.ts";

export const carbonDioxide = calculation({
  name: "carbon-dioxide",
  title: "Carbon dioxide from KH and pH",
  group: "gases",
  answers:
    "How much carbon dioxide is dissolved at this alkalinity, pH and temperature by the equilibrium; and what the common rule of three times KH says beside it.",
  inputs: { ...carbonateWater, pH: quantity("pH", "pH", [0, 14], { from: "reading pH" }) },
  formula: [
    "CO2 = alkalinity in meq/L × 44.009 × 10^(pK1 - pH) × activity of bicarbonate",
    "pK1 by temperature: 6.58 at 0 C, 6.38 at 20 C, 6.35 at 25 C; activity 1 without a conductivity",
    "common rule = 3 × KH × 10^(7 - pH)",
  ],
  range:
    "fresh water of pH 4.5 to 8.3, conductivity up to 2000 uS/cm; all alkalinity is bicarbonate: phosphate, borate and humic buffers make it read high",
  sources: [...CARBONATE_SOURCES, "the rule of three times KH: common practice, no source"],
  caution:
    "A pH that is 0.1 off is a quarter more or less of carbon dioxide, and in tinted or dosed water the figure reads high. Watch the fish at the surface, above all in the morning.",
  examples: [
    {
      given: "KH=50 mg/L CaCO3 pH=7 temperature=25",
      gives: { co2: "9.89 mg/L", rule: "8.4 mg/L", difference: "-15 %" },
      from: "50 / 50.043 = 0.999 meq/L; 0.999 × 44.009 × 10^(6.352 - 7) = 9.89 mg/L (Plummer & Busenberg 1982); the rule implies a pK1 of 6.281, which is 15 % less",
    },
  ],
  compute({ KH, pH, temperature, conductivity }) {
    const strength = ionicStrength(conductivity);
    if (isOutside(strength)) return strength;
    const co2 = co2MgL(meqLOf(KH), pH, temperature, strength);
    if (isOutside(co2)) return co2;
    // The two stand in one ratio whatever the alkalinity and pH; of one degree at pH 7 it is as good as any.
    const ofOne = co2MgL(meqLOf(1), 7, temperature, strength) as number;
    return [
      result("co2", "carbon dioxide by the equilibrium", "mg/L", co2),
      result("rule", "by the common rule", "mg/L", co2RuleMgL(KH, pH)),
      result("difference", "the rule is off by", "%", (co2RuleMgL(1, 7) / ofOne - 1) * 100, 2),
    ];
  },
});
