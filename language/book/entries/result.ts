import { entryKind } from "../kind.ts";
import { choice } from "../slots.ts";
import { ofCaseSlot } from "./case-slot.ts";

export const result = entryKind({
  word: "result",
  title: "Result from a laboratory",
  doc: "What the laboratory found in the samples of a case; the finding itself stands in the text.",
  examples: ['result flukes-1 positive "monogeneans on the gill"'],
  duty: false,
  sort: "health",
  slots: [
    ofCaseSlot("The case it belongs to.", "result flukes-1 positive"),
    {
      name: "outcome",
      doc: "Whether it was found.",
      filling: choice("positive", "negative", "inconclusive"),
      column: "choice",
    },
  ],
});
