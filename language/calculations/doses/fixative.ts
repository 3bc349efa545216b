import { fixativeFor, formaldehydePercent } from "../../science/fixative.ts";
import { isOutside, outside } from "../../science/result.ts";
import { calculation, choice, quantity, result } from "../calculation.ts";

/** Below this many volumes to one of tissue none of the instructions goes. */
const LEAST_RATIO = 10;

/** What is taken where no strength is given, and of what stock. */
const usual = { formalin: { strength: 10, stock: 100 }, ethanol: { strength: 80, stock: 96 } } as const;

/** Salts of neutral buffered formalin, g a litre. */
const salts = { monobasic: 4, dibasic: 6.5 } as const;

export const fixative = calculation({
  name: "fixative",
  title: "Fixative for samples",
  group: "doses",
  answers:
    "How much formalin or ethanol, and how much water, it takes to keep tissue of a given mass for a laboratory: so many volumes of fixative to one of tissue, at the strength that is asked for.",
  inputs: {
    tissue: quantity("tissue, all in one jar", "g", [0, 1e5], { isAbove: true }),
    fixative: choice("what with", ["formalin", "ethanol"], { otherwise: "formalin" }),
    ratio: quantity("volumes of it to one of tissue", "", [1, 100], { otherwise: "10" }),
    strength: quantity("strength; left out: 10 % formalin, 80 % ethanol", "%", [0, 100], {
      isAbove: true,
      optional: true,
    }),
    stock: quantity("strength of the ethanol that is at hand, by volume; left out: 96 %", "%", [0, 100], {
      isAbove: true,
      optional: true,
    }),
  },
  formula: [
    "fixative in mL = tissue in g × ratio, a gram of tissue taken as a mL",
    "stock = fixative × strength / strength of the stock; formalin itself counts as 100 %",
    "10 % formalin is a tenth of the saturated solution of 37 to 40 % formaldehyde: 3.7 to 4 % formaldehyde",
    "neutral buffered: 4 g of monobasic and 6.5 g of dibasic (anhydrous) sodium phosphate to the litre",
  ],
  range:
    "tissue about as dense as water, in slices of 5 mm at most or a small animal with its belly opened: into a thick piece no fixative goes in time, however much there is. Ethanol and water draw together by up to some 4 % (recalled), so fill up to the volume",
  sources: [
    "at least 10 volumes of 10 % neutral buffered formalin to one of tissue, slices of 5 mm at most: instructions for histology of a Norwegian fish laboratory, as is common practice (recalled)",
    "the mixture with its salts, and tissue less than a tenth of the formalin: Veterinary Diagnostic Laboratory of the University of Minnesota, Tissue Submission (seen 2026)",
    "20 volumes leave a margin: common practice, recalled",
    "ethanol for PCR, at least 10 volumes of 70 to 95 %, 80 to 100 % preferred: WOAH 2023, Manual of Diagnostic Tests for Aquatic Animals (recalled)",
    "dilution: C1 V1 = C2 V2, by definition",
  ],
  caution:
    "Formaldehyde burns eyes, skin and lungs, sensitises, and causes cancer in people: gloves, goggles, moving air, a closed jar. Ethanol and its vapour catch fire: no flame, no spark. Follow the label and the law of the place; many laboratories send jars that are filled already, so ask first, also what the carrier takes. Only animals that are dead go into it; how to kill one humanely a veterinarian can tell. Formalin spoils PCR, so no jar, tool or glove of it near what is for PCR.",
  examples: [
    {
      given: "tissue=5 g",
      gives: {
        total: "50 mL",
        stock: "5 mL",
        water: "45 mL",
        formaldehyde: "3.7 to 4 %",
        monobasic: "0.2 g",
        dibasic: "0.325 g",
        jar: "55 mL",
      },
      from: "5 × 10 = 50 mL, a tenth of it formalin; 4 and 6.5 g a litre are 0.2 and 0.325 g in 50 mL, as 100 mL of formalin, 900 of water, 4 g and 6.5 g of the University of Minnesota are in a litre",
    },
    {
      given: "tissue=2 g fixative=ethanol ratio=20 strength=70 % stock=95 %",
      gives: {
        total: "40 mL",
        stock: "29.5 mL",
        water: "10.5 mL",
        formaldehyde: "none",
        ratio: "10 or more",
      },
      from: "2 × 20 = 40 mL; 40 × 70 / 95 = 29.47 mL, filled up with 10.53",
    },
    {
      given: "tissue=10 g ratio=5",
      gives: { total: "50 mL", ratio: "less than the 10 that laboratories ask for" },
      from: "10 × 5 = 50 mL",
    },
  ],
  compute({ tissue, fixative: kind, ratio, strength = usual[kind].strength, stock }) {
    // Formalin is told by its share of the whole; only alcohol is sold in strengths.
    if (kind === "formalin" && stock !== undefined)
      return outside("stock is of ethanol: formalin is told by its share of what is sold as formalin");
    const from = kind === "ethanol" ? (stock ?? usual.ethanol.stock) : usual.formalin.stock;
    const mixed = fixativeFor(tissue, ratio, strength, from);
    if (isOutside(mixed)) return mixed;
    const { totalML, stockML, waterML } = mixed;
    const isFormalin = kind === "formalin";
    const formaldehyde = (percent: number): number => Number(((strength * percent) / 100).toPrecision(3));
    const { low, high } = formaldehydePercent;
    return [
      result("total", "fixative", "mL", totalML),
      result(
        "stock",
        isFormalin ? "of it formalin as it is sold" : "of it ethanol as it is at hand",
        "mL",
        stockML,
      ),
      result("water", "and water, to fill up", "mL", waterML),
      result("jar", "jar, at least", "mL", totalML + tissue),
      result(
        "formaldehyde",
        "formaldehyde in it",
        "",
        isFormalin ? `${formaldehyde(low)} to ${formaldehyde(high)} %` : "none",
      ),
      result(
        "monobasic",
        "sodium phosphate, monobasic",
        "g",
        isFormalin ? (salts.monobasic * totalML) / 1000 : 0,
      ),
      result("dibasic", "sodium phosphate, dibasic", "g", isFormalin ? (salts.dibasic * totalML) / 1000 : 0),
      result(
        "ratio",
        "volumes to one of tissue",
        "",
        ratio < LEAST_RATIO ? "less than the 10 that laboratories ask for" : "10 or more",
      ),
    ];
  },
});
