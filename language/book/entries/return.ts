import { entryKind } from "../kind.ts";
import { nameOrWord } from "../slots.ts";
import { knownParts } from "./remove.ts";

export const putBack = entryKind({
  word: "return",
  title: "Put back after a course",
  doc: "What was taken out for a treatment and is back.",
  examples: ["return carbon, light"],
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
      required: "what it was: return carbon",
    },
  ],
});
