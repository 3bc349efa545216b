import { ammoniaAs } from "../../science/ammonia-forms.ts";
import { ammoniaShare } from "../../science/ammonia-salinity.ts";
import {
  ammoniaReleasedMgLN,
  ascorbicAcidMg,
  combinedChlorineMgL,
  criteriaExceeded,
  THIOSULFATE,
  THIOSULFATE_PER_CHLORINE,
  type ThiosulfateForm,
  type ThiosulfatePath,
  TOTAL_CHLORINE_CRITERIA_MG_L,
  thiosulfateMg,
} from "../../science/chlorine.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, quantity, type Result, result } from "../calculation.ts";

const grams = (mg: Figure): Figure => map(mg, (each) => each / 1000);

/** What thiosulfate becomes by each path, the one that needs most first. */
const PATHS: Readonly<Record<ThiosulfatePath, string>> = {
  tetrathionate: "to tetrathionate",
  sulfur: "to sulfur",
  sulfate: "to sulfate",
};

export const chlorine = calculation({
  name: "chlorine",
  title: "Chlorine of new water",
  group: "hardness and salts",
  answers:
    "How much sodium thiosulfate takes up the chlorine of new water, by each way the reaction may go; and how much ammonia combined chlorine leaves in the tank, and how much of that is free.",
  inputs: {
    total: quantity("total chlorine", "mg/L", [0, 1000], { from: "source chlorine" }),
    combined: quantity("of it combined (chloramine)", "mg/L", [0, 1000], {
      otherwise: "0",
      from: "source chloramine",
    }),
    volume: quantity("net volume of tank or vat", "L", [0, 1e9], { isAbove: true, from: "volume" }),
    change: quantity("of it new water", "%", [0, 100], { otherwise: "100 %", from: "change", isAbove: true }),
    pH: quantity("pH after the change", "pH", [0, 14], { optional: true, from: "reading pH" }),
    temperature: quantity("temperature after the change", "C", [-5, 100], {
      optional: true,
      from: "reading temperature",
    }),
  },
  formula: [
    "mg of thiosulfate = total × new litres × moles for one of Cl2 × molar mass / 70.90",
    "moles for one of Cl2: 2 to tetrathionate, the cautious figure; 1 to sulfur; 1/4 to sulfate, in time and at high pH",
    "crystals (pentahydrate) 7.00, 3.50, 0.875 mg for a mg of chlorine; anhydrous 4.46, 2.23, 0.558",
    "ammonia as N = combined × share of new water × 14.007 / 70.90",
  ],
  range:
    "chlorine counted as Cl2; only the new water brings it; combined chlorine taken as monochloramine; free ammonia in fresh water, 0 to 50 C",
  sources: [
    "reactions of thiosulfate with chlorine, recalled; amounts by the atomic weights of CIAAW 2021; 7 mg of the pentahydrate for 1 mg is what instrument makers print",
    "ascorbic acid: AWWA, Disinfection of Pipelines and Storage Facilities field guide (2006), table 7-2, 2.5 mg for 1 mg; without effect on chloramine: Basu & De Souza 2011, J. Water Supply Res. Technol. AQUA 60:167-177",
    "criteria: US EPA 1985, Ambient Water Quality Criteria for Chlorine, EPA 440/5-84-030, 0.019 mg/L acute; 0.011 chronic recalled",
    "free ammonia: Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383",
  ],
  caution:
    "It has to be in before the fish meet the water. Test total chlorine afterwards: a colour test of none still lies above what harms. No agent here takes the ammonia of chloramine out. Waterworks change between chlorine and chloramine, and raise both, without notice.",
  examples: [
    {
      given: "total=1.5 mg/L volume=100 L change=40 %",
      gives: {
        "pentahydrate-tetrathionate": "0.42 g",
        "pentahydrate-sulfate": "0.0525 g",
        ammonia: "0 mg/L N",
      },
      from: "40 L hold 60 mg of chlorine; 7.00 mg of the crystals for each: 420 mg; 0.875 mg by the way to sulfate: 52.5 mg",
    },
    {
      given: "total=2 mg/L combined=2 mg/L volume=100 L change=50 % pH=8 temperature=25",
      gives: { ammonia: "0.198 mg/L N", free: "0.0129 mg/L NH3", "pentahydrate-tetrathionate": "0.7 g" },
      from: "1 mg/L of monochloramine as Cl2 is 14.007 / 70.90 = 0.1976 mg/L as N; 2 mg/L in half the water the same; 5.36 % of it are NH3: 0.1976 × 0.0536 × 1.216 = 0.0129",
    },
  ],
  compute({ total, combined, volume, change, pH, temperature }) {
    const free = combinedChlorineMgL(total, combined);
    if (isOutside(free)) return outside(`combined chlorine ${combined} mg/L is more than the total ${total}`);
    const newL = (volume * change) / 100;
    const released = ammoniaReleasedMgLN(combined, change / 100);
    if (isOutside(released)) return released;
    const exceeded = criteriaExceeded(total);
    if (isOutside(exceeded)) return exceeded;
    return [
      result("new", "new water", "L", newL),
      result("chlorine", "chlorine in it", "mg", total * newL),
      ...(Object.keys(THIOSULFATE) as ThiosulfateForm[])
        .sort()
        .reverse()
        .flatMap((form) => paths(form, total, newL)),
      result("ascorbic", "or ascorbic acid", "g", grams(ascorbicAcidMg(free, combined, newL))),
      result("ammonia", "ammonia that chloramine leaves", "mg/L N", released),
      ...(pH === undefined || temperature === undefined
        ? []
        : [result("free", "of it free", "mg/L NH3", freeOf(released, pH, temperature))]),
      result("untreated", "the new water untreated", "", standing(exceeded)),
    ];
  },
});

function paths(form: ThiosulfateForm, total: number, newL: number): Result[] {
  const said = form === "pentahydrate" ? "thiosulfate crystals" : "anhydrous thiosulfate";
  return (Object.keys(THIOSULFATE_PER_CHLORINE) as ThiosulfatePath[]).map((path) =>
    result(`${form}-${path}`, `${said}, ${PATHS[path]}`, "g", grams(thiosulfateMg(total, newL, form, path))),
  );
}

function freeOf(totalMgLN: number, pH: number, temperatureC: number): Figure {
  const share = ammoniaShare(pH, temperatureC, 0);
  return isOutside(share) ? share : ammoniaAs(totalMgLN * share.share, "N", "NH3");
}

function standing(exceeded: readonly string[]): string {
  const { acute, chronic } = TOTAL_CHLORINE_CRITERIA_MG_L;
  if (exceeded.includes("acute")) return `above the acute criterion of ${acute} mg/L`;
  if (exceeded.includes("chronic")) return `above the chronic criterion of ${chronic} mg/L`;
  return `not above the criteria of ${acute} and ${chronic} mg/L, which lie below what a colour test shows`;
}
