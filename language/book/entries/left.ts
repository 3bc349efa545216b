import { entryKind } from "../kind.ts";
import { name, offering, quantity } from "../slots.ts";

export const left = entryKind({
  word: "left",
  title: "What is on hand",
  doc: "How much of a food or remedy is on hand now, as it was weighed or counted: the reckoning goes on from there.",
  examples: ["left cyclops 120 g", "left flake 3 pinches"],
  duty: true,
  sort: "care",
  slots: [
    {
      name: "food",
      doc: "What is on hand.",
      filling: name("food", "remedy"),
      column: "subject",
      required: "a food or remedy: left cyclops 120 g",
    },
    {
      name: "amount",
      doc: "How much, by weight, volume or portions.",
      filling: offering(quantity("amount", "portion", "mass", "volume"), "g", "mL", "cubes"),
      column: "amount",
      required: "an amount: left cyclops 120 g",
    },
  ],
});
