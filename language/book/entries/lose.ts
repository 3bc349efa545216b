import { entryKind } from "../kind.ts";
import { choice, count, name } from "../slots.ts";
import { caseSlot } from "./case-slot.ts";
import { lotSlot } from "./lot-slot.ts";

export const lose = entryKind({
  word: "lose",
  title: "Loss of animals",
  doc: "Animals found dead, missing for good, jumped, culled or euthanised: they leave the book.",
  examples: ['lose praecox 1 found "tail rot"', "lose horn 2 missing"],
  target: "tank",
  duty: false,
  sort: "animals",
  slots: [
    {
      name: "species",
      doc: "What was lost.",
      filling: name("species"),
      column: "subject",
      required: "a species: lose praecox 1",
    },
    {
      name: "animals",
      doc: "How many.",
      filling: count(),
      column: "amount",
      required: "a number: lose praecox 1",
    },
    {
      name: "how",
      doc: "How they were lost.",
      filling: choice("found", "missing", "jumped", "culled", "euthanised"),
      column: "choice",
    },
    lotSlot("Of which batch, brood or animal."),
    caseSlot("The case they died of."),
  ],
});
