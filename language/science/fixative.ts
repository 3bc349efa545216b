/** Liquids that keep tissue for a laboratory. */
import { negative, notPositive } from "./given.ts";
import { beyond, isOutside, type Outside, outside } from "./result.ts";

export interface Mixed {
  readonly totalML: number;
  readonly stockML: number;
  /** What is filled up with: of alcohol it takes a little more, as the mixture draws together. */
  readonly waterML: number;
}

/** Formaldehyde in what is sold as formalin, saturated, in per cent. */
export const formaldehydePercent = { low: 37, high: 40 } as const;

/**
 * So much of a stock made up with water that there are so many volumes to one of tissue: C1 V1 = C2 V2. A gram of tissue is taken as a mL;
 * as it is a little denser than water there is a little more fixative than asked for.
 * @param ratio volumes of fixative to one of tissue
 * @param stockPercent of what it is diluted from; of formalin 100, as it counts as the whole
 */
export function fixativeFor(
  tissueG: number,
  ratio: number,
  strengthPercent: number,
  stockPercent: number,
): Mixed | Outside {
  const refused =
    negative("tissue", tissueG, "g") ??
    notPositive("volumes to one", ratio) ??
    beyond("strength", strengthPercent, 0, 100, "%") ??
    notPositive("strength", strengthPercent, "%") ??
    beyond("strength of the stock", stockPercent, 0, 100, "%");
  if (isOutside(refused)) return refused;
  if (strengthPercent > stockPercent)
    return outside(`no ${strengthPercent} % can be made from a stock of ${stockPercent} %`);
  const totalML = tissueG * ratio;
  const stockML = (totalML * strengthPercent) / stockPercent;
  return { totalML, stockML, waterML: totalML - stockML };
}
