import { keptCaution, keptUsual } from "../../checks/sample-words.ts";
import { emphasis, paragraphs, plain } from "../markdown.ts";

/** A way to keep a sample: what is usual, and what hurts. Empty for other words. */
export function keptHover(signature: string, slot: string, word: string): string {
  if (signature !== "sample" || slot !== "kept") return "";
  const care = word === "formalin" || word === "ethanol" ? keptCaution(word) : "";
  return paragraphs(plain(keptUsual(word)), care === "" ? "" : emphasis(`Take care. ${care}`));
}
