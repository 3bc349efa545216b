import { entryKind } from "../kind.ts";
import { choice, name, quantity } from "../slots.ts";

export const change = entryKind({
  word: "change",
  title: "Water change",
  doc: "Water out and other water in, as a fraction of the net volume or in litres. A batch is drained, then filled; a flow is both at once at constant level.",
  examples: ["change 30 %", "change 100 L flow from tap at 24 C"],
  target: "water",
  duty: true,
  usual: true,
  sort: "water",
  slots: [
    {
      name: "amount",
      doc: "How much: a fraction of the net volume, or a volume.",
      filling: quantity("fraction or volume", "fraction", "volume"),
      column: "amount",
      required: "an amount: change 30 % or change 40 L",
    },
    {
      name: "method",
      doc: "`batch` (the default): drained, then filled. `flow`: both at once at constant level.",
      filling: choice("batch", "flow"),
      column: "choice",
    },
    {
      name: "source",
      lead: "from",
      doc: "The water that went in; else the first one defined.",
      filling: name("water"),
      column: "object",
    },
    {
      name: "temperature",
      lead: "at",
      doc: "The temperature of the new water.",
      filling: quantity("temperature", "temperature"),
      column: "second",
    },
  ],
});
