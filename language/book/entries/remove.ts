import { entryKind } from "../kind.ts";
import { nameOrWord } from "../slots.ts";

/** What a remedy may be stated to be given without. */
export const knownParts = ["carbon", "light", "uv", "filter", "resin", "plants", "wood"] as const;

export const remove = entryKind({
  word: "remove",
  title: "Taken out for a course",
  doc: "What was taken out of the water or switched off for a treatment, such as activated carbon or the light. It is out until it is returned.",
  examples: ["remove carbon, light"],
  target: "water",
  duty: false,
  sort: "health",
  list: true,
  slots: [
    {
      name: "part",
      doc: "What it was.",
      filling: nameOrWord("part", "gear", ...knownParts),
      each: true,
      column: "subject",
      required: "what it was: remove carbon",
    },
  ],
});
