import { changesToFreeLimit, changeToFreeLimit, freeAfterChange } from "../../science/ammonia-change.ts";
import { ammoniaAs } from "../../science/ammonia-forms.ts";
import { ammoniaShare } from "../../science/ammonia-salinity.ts";
import { type Figure, isOutside, map } from "../../science/result.ts";
import { calculation, quantity, result } from "../calculation.ts";
import { ammoniaWater } from "./water-inputs.ts";

const asNH3 = (mgLN: Figure): Figure => (isOutside(mgLN) ? mgLN : ammoniaAs(mgLN, "N", "NH3"));
const percent = (fraction: Figure): Figure => map(fraction, (share) => share * 100);

export const ammoniaChange = calculation({
  name: "ammonia-change",
  title: "Change of water against free ammonia",
  group: "ammonia",
  answers:
    "What change of water brings free ammonia under a limit at this pH and temperature, at once or in several changes; and what one change does where the new water has another pH.",
  inputs: {
    ...ammoniaWater,
    limit: quantity("limit of free ammonia", "mg/L NH3", [0, 100], { otherwise: "0.02 mg/L NH3" }),
    source: quantity("total ammonia of the new water", "mg/L N", [0, 1000], {
      otherwise: "0",
      from: "source ammonia",
    }),
    "source-pH": quantity("pH of the new water", "pH", [0, 14], { optional: true, from: "source pH" }),
    change: quantity("one change", "%", [0, 100], { otherwise: "25 %", from: "change", isAbove: true }),
  },
  formula: [
    "total allowed = limit × 14.007 / 17.031 / share, the share by pH, temperature and salinity",
    "at once = (total - total allowed) / (total - source)",
    "changes = ln((total allowed - source) / (total - source)) / ln(1 - change), to the next whole one",
    "after one change: total × (1 - change) + source × change, times the share",
  ],
  range:
    "0 to 50 C in fresh water, 0 to 40 C and 40 g/kg in salt; well mixed, nothing produced between changes, temperature and salinity staying",
  sources: [
    "share: Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383; salt water: Clegg & Whitfield 1995, Geochim. Cosmochim. Acta 59:2403-2421",
    "dilution: mass balance of a well-mixed volume; the same washout in Steffensen 1989, Fish Physiol. Biochem. 6:49-59",
    "0.02 mg/L NH3 as a limit: Bowser & Buttner 1993, NRAC Bulletin 111, a stress threshold of farmed fish",
  ],
  caution:
    "Raising the pH makes more of the same total harmful: new water of a higher pH can make it worse at once, and water that gives off carbon dioxide after the change rises further. A large change is a shock of its own. Find where the ammonia is from.",
  examples: [
    {
      given: "total=2 mg/L pH=8 temperature=25 source-pH=8.4",
      gives: {
        "free-now": "0.13 mg/L NH3",
        "at-once": "84.7 %",
        changes: "7",
        "at-once-source-pH": "93.4 %",
      },
      from: "5.36 % of it is NH3: 2 × 0.0536 × 1.2159 = 0.130; the total allowed is 0.02 / 1.2159 / 0.0536 = 0.307, and (2 - 0.307) / 2 = 84.7 %; 0.75^7 × 2 = 0.267 is under it, 0.75^6 × 2 = 0.356 is not",
    },
  ],
  compute(given) {
    const { total, pH, temperature, salinity, limit, source, change } = given;
    const sourcePH = given["source-pH"];
    const tank = { totalMgLN: total, pH, temperatureC: temperature, salinityGPerKg: salinity };
    const share = ammoniaShare(pH, temperature, salinity);
    if (isOutside(share)) return share;
    const limitN = ammoniaAs(limit, "NH3", "N");
    if (isOutside(limitN)) return limitN;
    const becoming = sourcePH === undefined ? undefined : { ...tank, pH: sourcePH };
    const after = freeAfterChange(tank, { ...tank, totalMgLN: source, pH: sourcePH ?? pH }, change / 100);
    if (isOutside(after)) return after;
    return [
      result("free-now", "free ammonia now", "mg/L NH3", asNH3(total * share.share), 2),
      result("at-once", "change at once", "%", percent(changeToFreeLimit(tank, limitN, source))),
      result("changes", "changes of that size", "", changesToFreeLimit(tank, limitN, change / 100, source)),
      result("after", "free ammonia after one change", "mg/L NH3", asNH3(after.freeIfPHStaysMgLN), 2),
      ...(becoming === undefined
        ? []
        : [
            result(
              "after-source-pH",
              "the same at the new water's pH",
              "mg/L NH3",
              asNH3(after.freeIfPHOfSourceMgLN),
              2,
            ),
            result(
              "at-once-source-pH",
              "change at once at the new water's pH",
              "%",
              percent(changeToFreeLimit(becoming, limitN, source)),
            ),
          ]),
      result(
        "direction",
        "one change",
        "",
        after.mayRise ? "may raise free ammonia" : "does not raise free ammonia",
      ),
    ];
  },
  entry(_, results) {
    const atOnce = results.find(({ name }) => name === "at-once")?.value;
    if (typeof atOnce !== "number" || atOnce <= 0) return undefined;
    return `change ${Math.min(100, Math.ceil(atOnce - 1e-9))} %`;
  },
});
