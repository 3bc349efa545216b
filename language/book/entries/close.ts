import { entryKind } from "../kind.ts";
import { choice, name } from "../slots.ts";

export const close = entryKind({
  word: "close",
  title: "Close of a case",
  doc: "The case is over, and how.",
  examples: ["close flukes-1 recovered"],
  duty: false,
  sort: "health",
  slots: [
    {
      name: "case",
      doc: "The case that is over.",
      filling: name("case"),
      column: "object",
      required: "a case: close flukes-1 recovered",
    },
    {
      name: "outcome",
      doc: "How it ended.",
      filling: choice("recovered", "died", "euthanised", "unresolved"),
      column: "choice",
    },
  ],
});
