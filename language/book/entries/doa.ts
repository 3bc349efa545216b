import { entryKind } from "../kind.ts";
import { count, quantity, text } from "../slots.ts";

export const doa = entryKind({
  word: "doa",
  title: "Dead on arrival",
  doc: "What a buyer reports of a shipment: how many arrived dead. `doa none` says that all arrived alive.",
  examples: ["doa cherry 2, horn 1 order o-12 after 26 h", "doa none order o-12"],
  duty: false,
  sort: "animals",
  list: true,
  slots: [
    {
      name: "species",
      doc: "What arrived dead, or `none`.",
      filling: { is: "name", of: ["species", "any"], also: ["none"], noun: "species" },
      each: true,
      column: "subject",
      required: "a species, or none: doa cherry 2 order o-12",
    },
    { name: "animals", doc: "How many.", filling: count(), each: true, column: "amount" },
    {
      name: "order",
      lead: "order",
      doc: "The order it is about.",
      filling: text("order", "order"),
      column: "object",
      required: "its order: doa cherry 2 order o-12",
    },
    {
      name: "hours",
      lead: "after",
      doc: "How long it was under way.",
      filling: quantity("time", "duration"),
      column: "second",
    },
  ],
});
