import { entryKind } from "../kind.ts";
import { count, name } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const hatch = entryKind({
  word: "hatch",
  title: "Hatch or birth",
  doc: "Young that enter the book of this tank.",
  examples: ["hatch praecox ~80", "hatch endler 22 lot e9"],
  target: "tank",
  duty: false,
  sort: "breeding",
  slots: [
    {
      name: "species",
      doc: "Which species.",
      filling: name("species"),
      column: "subject",
      required: "a species: hatch praecox ~80",
    },
    {
      name: "animals",
      doc: "How many, often about.",
      filling: count(),
      column: "amount",
      required: "a number: hatch praecox ~80",
    },
    lotSlot("The brood they are of, or what it is called from now on."),
  ],
});
