import { entryKind } from "../kind.ts";
import { name, quantity } from "../slots.ts";

export const topUp = entryKind({
  word: "top-up",
  title: "Top-up of evaporated water",
  doc: "Replaces what evaporated: adds water and what is dissolved in it, removes nothing, and does not count as a change.",
  examples: ["top-up 4 L", "top-up 4 L from ro"],
  target: "water",
  duty: true,
  usual: true,
  sort: "water",
  slots: [
    {
      name: "volume",
      doc: "How much was added.",
      filling: quantity("volume", "volume"),
      column: "amount",
      required: "a volume: top-up 4 L",
    },
    {
      name: "source",
      lead: "from",
      doc: "The water that went in; else the first one defined.",
      filling: name("water"),
      column: "object",
    },
  ],
});
