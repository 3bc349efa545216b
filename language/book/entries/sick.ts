import { entryKind } from "../kind.ts";
import { count, name, text } from "../slots.ts";

export const sick = entryKind({
  word: "sick",
  title: "Sick animals",
  doc: "How many show signs of disease, of how many at risk, and which. A case ties the entries of one outbreak together.",
  examples: ['sick praecox 2 of 9 signs "flashing, clamped fins" case flukes-1'],
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
    { name: "signs", lead: "signs", doc: "What is seen.", filling: text("text in quotes") },
    {
      name: "case",
      lead: "case",
      doc: "The case it belongs to; a new name opens one.",
      filling: name("case"),
      column: "object",
    },
  ],
});
