import { entryKind } from "../kind.ts";
import { choice, name } from "../slots.ts";

export const result = entryKind({
  word: "result",
  title: "Result from a laboratory",
  doc: "What the laboratory found in the samples of a case; the finding itself stands in the text.",
  examples: ['result flukes-1 positive "monogeneans on the gill"'],
  duty: false,
  sort: "health",
  slots: [
    {
      name: "case",
      doc: "The case it belongs to.",
      filling: name("case"),
      column: "object",
      required: "a case: result flukes-1 positive",
    },
    {
      name: "outcome",
      doc: "Whether it was found.",
      filling: choice("positive", "negative", "inconclusive"),
      column: "choice",
    },
  ],
});
