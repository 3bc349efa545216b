import { entryKind } from "../kind.ts";
import { count, name, quantity, text } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const ship = entryKind({
  word: "ship",
  title: "Shipment of animals",
  doc: "Animals packed and sent: they leave the book. Quarantine, withdrawal and the last feeding are held against it.",
  examples: ['ship cherry 20, horn 5 to "a breeder" order o-12 by courier bags 2'],
  target: "tank",
  duty: false,
  sort: "animals",
  list: true,
  slots: [
    {
      name: "species",
      doc: "What was sent.",
      filling: name("species"),
      each: true,
      column: "subject",
      required: "a species: ship cherry 20",
    },
    {
      name: "animals",
      doc: "How many.",
      filling: count(),
      each: true,
      column: "amount",
      required: "a number: ship cherry 20",
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
    { name: "carrier", lead: "by", doc: "How they were sent.", filling: text("carrier") },
    { name: "bags", lead: "bags", doc: "In how many bags.", filling: count("number of bags") },
    { name: "price", lead: "price", doc: "What was paid.", filling: quantity("price", "price") },
  ],
});
