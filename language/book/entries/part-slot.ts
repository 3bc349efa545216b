import { nameOrWord, type Slot } from "../slots.ts";

/** What a remedy may be stated to be given without. */
export const knownParts = ["carbon", "light", "uv", "filter", "resin", "plants", "wood"] as const;

/** What is taken out, or put back. @param word that of the entry */
export const partSlot = (word: string): Slot => ({
  name: "part",
  doc: "What it was.",
  filling: nameOrWord("part", "gear", ...knownParts),
  each: true,
  column: "subject",
  required: `what it was: ${word} carbon`,
});
