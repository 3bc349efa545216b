import { entryKind } from "../kind.ts";
import { count, name, quantity, text } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const sell = entryKind({
  word: "sell",
  title: "Sale of animals",
  doc: "Animals handed over to a buyer: they leave the book.",
  examples: ['sell cherry 10, horn 2 to "a neighbour" price 24', "sell cherry 10 order o-12"],
  target: "tank",
  duty: false,
  sort: "animals",
  list: true,
  slots: [
    {
      name: "species",
      doc: "What was sold.",
      filling: name("species"),
      each: true,
      column: "subject",
      required: "a species: sell cherry 10",
    },
    {
      name: "animals",
      doc: "How many.",
      filling: count(),
      each: true,
      column: "amount",
      required: "a number: sell cherry 10",
    },
    lotSlot("Of which batch, brood or animal.", true),
    { name: "buyer", lead: "to", doc: "Who they went to.", filling: text("buyer") },
    {
      name: "order",
      lead: "order",
      doc: "The order they belong to.",
      filling: text("order", "order"),
      column: "object",
    },
    { name: "price", lead: "price", doc: "What was paid.", filling: quantity("price", "price") },
  ],
});
