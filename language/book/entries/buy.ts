import { entryKind } from "../kind.ts";
import { name, offering, quantity } from "../slots.ts";

export const buy = entryKind({
  word: "buy",
  title: "Purchase",
  doc: "Food or remedy that was bought: it adds to what is on hand.",
  examples: ["buy cyclops 500 g price 9 EUR", "buy flake 1 tab"],
  duty: false,
  sort: "care",
  slots: [
    {
      name: "food",
      doc: "What was bought.",
      filling: name("food", "remedy"),
      column: "subject",
      required: "a food or remedy: buy cyclops 500 g",
    },
    {
      name: "amount",
      doc: "How much, by weight, volume or portions.",
      filling: offering(quantity("amount", "portion", "mass", "volume"), "g", "mL", "cubes"),
      column: "amount",
      required: "an amount: buy cyclops 500 g",
    },
    { name: "price", lead: "price", doc: "What it cost.", filling: quantity("price", "price") },
  ],
});
