import { entryKind } from "../kind.ts";
import { count, name, text } from "../slots.ts";
import { caseSlot } from "./case-slot.ts";
import { lotSlot } from "./lot-slot.ts";

export const sick = entryKind({
  word: "sick",
  title: "Sick animals",
  doc: "How many show signs of disease, of how many at risk, and which. A case ties the entries of one outbreak together.",
  examples: [
    'sick praecox 2 of 9 signs "flashing, clamped fins" case flukes-1',
    "sick praecox 4 of 9 new 2 case flukes-1",
  ],
  duty: false,
  sort: "health",
  slots: [
    {
      name: "species",
      doc: "Which species.",
      filling: name("species"),
      column: "subject",
      required: "a species: sick praecox 2",
    },
    { name: "affected", doc: "How many show signs.", filling: count("number affected"), column: "amount" },
    { name: "at risk", lead: "of", doc: "Of how many.", filling: count("number at risk"), column: "second" },
    {
      name: "new",
      lead: "new",
      doc: "How many of them showed none before.",
      filling: count("number of new ones"),
    },
    {
      name: "signs",
      lead: "signs",
      doc: "What is seen, sign by sign: the words of the vocabulary are counted and told by site, all others are kept.",
      filling: text("text in quotes"),
    },
    lotSlot("Of which batch, brood or animal."),
    caseSlot("The case it belongs to; a new name opens one."),
  ],
});
