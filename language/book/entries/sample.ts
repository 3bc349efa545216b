import { entryKind } from "../kind.ts";
import { choice, count, name, nameOrWord, text } from "../slots.ts";

export const sample = entryKind({
  word: "sample",
  title: "Sample for a laboratory",
  doc: "What was taken, how it is kept and where it went. Formalin and alcohol are hazards: follow their labels.",
  examples: [
    'sample gill 2 kept formalin case flukes-1 to "state laboratory"',
    "sample water 1 kept chilled",
  ],
  duty: false,
  sort: "health",
  slots: [
    {
      name: "material",
      doc: "What was taken.",
      filling: nameOrWord("material", "species", "fish", "gill", "skin", "fin", "faeces", "water", "whole"),
      column: "subject",
      required: "what was taken: sample gill 2",
    },
    { name: "number", doc: "How many.", filling: count("number of samples"), column: "amount" },
    {
      name: "kept",
      lead: "kept",
      doc: "How it is kept.",
      filling: choice("live", "chilled", "frozen", "formalin", "ethanol"),
      column: "choice",
    },
    { name: "case", lead: "case", doc: "The case it belongs to.", filling: name("case"), column: "object" },
    { name: "laboratory", lead: "to", doc: "Where it went.", filling: text("laboratory") },
  ],
});
