import { entryKind } from "../kind.ts";
import { count, name } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const eggs = entryKind({
  word: "eggs",
  title: "Count of living eggs",
  doc: "How many eggs of a brood are alive: what is white or fungused is left out.",
  examples: ["eggs praecox 96 lot p7"],
  target: "tank",
  duty: false,
  sort: "breeding",
  slots: [
    {
      name: "species",
      doc: "Which species.",
      filling: name("species"),
      column: "subject",
      required: "a species: eggs praecox 96",
    },
    {
      name: "eggs",
      doc: "How many are alive.",
      filling: count("number of eggs"),
      column: "amount",
      required: "a number: eggs praecox 96",
    },
    lotSlot("The brood they are of."),
  ],
});
