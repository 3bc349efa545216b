import { entryKind } from "../kind.ts";
import { name, quantity, within } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const condition = entryKind({
  word: "condition",
  title: "Body condition",
  doc: "Body condition from 1 (emaciated) over 3 (ideal) to 5 (obese), measured length and weight.",
  examples: ["condition praecox 3.5 length 5.2 cm weight 3 g", "condition praecox length 5.2 cm"],
  target: "tank",
  duty: true,
  sort: "animals",
  slots: [
    {
      name: "species",
      doc: "Which species.",
      filling: name("species"),
      column: "subject",
      required: "a species: condition praecox 3.5",
    },
    {
      name: "score",
      doc: "1 to 5; 3 is ideal.",
      filling: within(1, 5, quantity("score from 1 to 5", "count")),
      column: "amount",
    },
    {
      name: "length",
      lead: "length",
      doc: "Standard length.",
      filling: quantity("length", "length"),
      column: "second",
    },
    { name: "weight", lead: "weight", doc: "Weight of one animal.", filling: quantity("weight", "mass") },
    lotSlot("Of which batch, brood or animal."),
  ],
});
