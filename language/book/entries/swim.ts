import { entryKind } from "../kind.ts";
import { count, name } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const swim = entryKind({
  word: "swim",
  title: "Free-swimming young",
  doc: "Young that have left the yolk and swim: from here they are fed. They are in the book since they hatched; a number here is how many swim.",
  examples: ["swim praecox ~60 lot p7", "swim praecox"],
  target: "tank",
  duty: false,
  sort: "breeding",
  slots: [
    {
      name: "species",
      doc: "Which species.",
      filling: name("species"),
      column: "subject",
      required: "a species: swim praecox ~60",
    },
    { name: "animals", doc: "How many swim.", filling: count(), column: "amount" },
    lotSlot("The brood they are of."),
  ],
});
