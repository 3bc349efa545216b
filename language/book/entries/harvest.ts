import { entryKind } from "../kind.ts";
import { name, offering, quantity } from "../slots.ts";

export const harvest = entryKind({
  word: "harvest",
  title: "Harvest of a culture",
  doc: "Live food that was taken from a culture. Of what hatches once, as nauplii, it ends the batch.",
  examples: ["harvest nauplii 120 mL", "harvest grindal 2 spoons"],
  duty: true,
  sort: "care",
  slots: [
    {
      name: "food",
      doc: "What was taken.",
      filling: name("food"),
      column: "subject",
      required: "a food: harvest nauplii 120 mL",
    },
    {
      name: "amount",
      doc: "How much.",
      filling: offering(quantity("amount", "portion", "mass", "volume"), "mL", "g", "spoons"),
      column: "amount",
    },
  ],
});
