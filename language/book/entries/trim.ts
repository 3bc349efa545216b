import { entryKind } from "../kind.ts";
import { nameOrWord, quantity } from "../slots.ts";

export const trim = entryKind({
  word: "trim",
  title: "Trimming of plants",
  doc: "What was cut and how much of it. From its mass, and the days since the trimming before, follows what grows in a week.",
  examples: ["trim stems 200 g", "trim"],
  duty: true,
  usual: true,
  sort: "plants",
  slots: [
    {
      name: "plant",
      doc: "Which plants.",
      filling: nameOrWord("plant", "species", "stems", "moss", "floating"),
      column: "subject",
    },
    {
      name: "amount",
      doc: "How much was cut.",
      filling: quantity("mass or fraction", "mass", "fraction"),
      column: "amount",
    },
  ],
});
