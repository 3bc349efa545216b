import { entryKind } from "../kind.ts";
import { choice } from "../slots.ts";
import { ofCaseSlot } from "./case-slot.ts";

export const close = entryKind({
  word: "close",
  title: "Close of a case",
  doc: "The case is over, and how.",
  examples: ["close flukes-1 recovered"],
  duty: false,
  sort: "health",
  slots: [
    ofCaseSlot("The case that is over.", "close flukes-1 recovered"),
    {
      name: "outcome",
      doc: "How it ended.",
      filling: choice("recovered", "died", "euthanised", "unresolved"),
      column: "choice",
    },
  ],
});
