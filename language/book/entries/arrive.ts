import { entryKind } from "../kind.ts";
import { count, name, quantity, text } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const arrive = entryKind({
  word: "arrive",
  title: "Arrival of animals",
  doc: "Animals that come into the room alive. Their quarantine runs from here.",
  examples: ['arrive praecox 10 from "river nursery" by courier lot a17 dead 1', "arrive horn 20"],
  target: "tank",
  duty: false,
  sort: "animals",
  slots: [
    {
      name: "species",
      doc: "What came.",
      filling: name("species"),
      column: "subject",
      required: "a species: arrive praecox 10",
    },
    {
      name: "animals",
      doc: "How many came alive.",
      filling: count(),
      column: "amount",
      required: "a number: arrive praecox 10",
    },
    {
      name: "supplier",
      lead: "from",
      doc: "Where they came from.",
      filling: text("supplier"),
      column: "object",
    },
    lotSlot("What the batch that came is called from now on."),
    {
      name: "dead",
      lead: "dead",
      doc: "How many came dead, beside those alive.",
      filling: count("number dead on arrival"),
      column: "second",
    },
    { name: "carrier", lead: "by", doc: "How they were brought.", filling: text("carrier") },
    { name: "price", lead: "price", doc: "What they cost.", filling: quantity("price", "price") },
  ],
});
