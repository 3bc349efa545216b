import { formatNumber } from "../quantity/format.ts";
import type { Sample } from "../room/samples.ts";

/** Samples in words, and what must be said where people may be hurt. */

export const formalinCaution =
  "Formalin is formaldehyde in water: it burns eyes and skin, and it can cause cancer. Wear gloves and eye protection, work in moving air, keep the jar closed. " +
  "Limits in the air: 0.75 ppm over 8 hours and 2 ppm over 15 minutes (OSHA), 0.016 ppm and 0.1 ppm (NIOSH). Follow its label and local rules, and ask whether the laboratory sends jars that are filled already.";

export const ethanolCaution =
  "Ethanol burns, and so does its vapour: no flame and no spark near it, the jar closed. Whether a carrier takes it, and how it is packed and marked, its rules on dangerous goods say: ask the carrier first, and follow the label.";

export const notifiableCaution =
  "Some diseases must be reported by law, even where they are only suspected, and animals, water and tools may then not leave the room: ask the authority of your place. Telephone the laboratory before you send anything: what it takes, how, and on which days.";

/** The caution of a fixative; empty for what is kept without one. */
export const keptCaution = (kept: Sample["kept"]): string =>
  kept === "formalin" ? formalinCaution : kept === "ethanol" ? ethanolCaution : "";

/** What is usual of a way to keep a sample, for who looks at the word. */
export function keptUsual(kept: string): string {
  switch (kept) {
    case "live":
      return "Affected animals that still live tell a laboratory most; freshly dead ones (clear eyes, red gills) are second, decomposed ones useless (university laboratories of Minnesota and Cornell). Telephone first.";
    case "chilled":
      return "On wet ice, not frozen: for bacteria, viruses, fungi or identification up to 12 to 36 hours (fish laboratory of the state of Maine).";
    case "frozen":
      return frozenText;
    case "formalin":
      return "For histology: 10 % neutral buffered formalin, which is about 4 % formaldehyde, at least 10 volumes to one of tissue, at once, gills first, slices of at most 5 mm, the belly of whole fry opened (instructions of a Norwegian fish laboratory); 20 volumes leave a margin (recalled). It spoils PCR.";
    case "ethanol":
      return "For PCR: 70 to 95 %, 80 to 100 % preferred, at least 10 volumes to one of tissue, with no formalin near it (WOAH aquatic manual, recalled).";
    default:
      return "";
  }
}

export const frozenText =
  "Freezing spoils a sample for histology, bacteriology and parasites; it suits PCR and virology (animal-health training book on sample types).";

/** `2 gill of praecox`. */
export function sampleWords({ count, material, species }: Sample): string {
  const many = Number.isNaN(count) ? "" : `${formatNumber(count, 6)} `;
  return `${many}${material}${species === "" ? "" : ` of ${species}`}`;
}

/** `in formalin at 10 %, 20 volumes`; empty where nothing is said. */
export function keptWords({ kept, strengthLow, strengthHigh, volumes }: Sample): string {
  if (kept === "") return "";
  const way = kept === "formalin" || kept === "ethanol" ? `in ${kept}` : kept;
  const strength = Number.isNaN(strengthLow) ? "" : ` at ${strengthText(strengthLow, strengthHigh)}`;
  return `${way}${strength}${Number.isNaN(volumes) ? "" : `, ${formatNumber(volumes)} volumes`}`;
}

export const strengthText = (low: number, high: number): string =>
  low === high ? `${formatNumber(low)} %` : `${formatNumber(low)}..${formatNumber(high)} %`;
