import { entryKind } from "../kind.ts";
import { choice, name, quantity, text } from "../slots.ts";
import { toolSlot } from "./tool-slot.ts";

export const change = entryKind({
  word: "change",
  title: "Water change",
  doc: "Water out and other water in, as a fraction of the net volume or in litres. A batch is drained, then filled; a flow is both at once at constant level.",
  examples: ["change 30 %", "change 100 L flow from tap at 24 C", "change 30 % barrel b-12 with siphon"],
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
      doc: "The water that went in, or the tank whose water it was; else the first water defined.",
      filling: name("water", "tank"),
      column: "object",
    },
    {
      name: "temperature",
      lead: "at",
      doc: "The temperature of the new water.",
      filling: quantity("temperature", "temperature"),
      column: "second",
    },
    {
      name: "barrel",
      lead: "barrel",
      doc: "The batch of prepared water it was taken from: tanks of one barrel may be traced.",
      filling: text("barrel"),
      column: "subject",
    },
    toolSlot,
  ],
});
