import { entryKind } from "../kind.ts";
import { choice, count, name, nameOrWord, oneQuantity, quantity, text } from "../slots.ts";
import { caseSlot } from "./case-slot.ts";

export const sample = entryKind({
  word: "sample",
  title: "Sample for a laboratory",
  doc: "What was taken, how it is kept and where it went. Formalin and alcohol are hazards: follow their labels.",
  examples: [
    'sample gill 2 kept formalin case flukes-1 to "state laboratory"',
    'sample gill 2 of praecox kept formalin at 10 % volumes 20 into "tube 1" case flukes-1',
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
    { name: "species", lead: "of", doc: "Of which animals.", filling: name("species") },
    {
      name: "kept",
      lead: "kept",
      doc: "How it is kept.",
      filling: choice("live", "chilled", "frozen", "formalin", "ethanol"),
      column: "choice",
    },
    {
      name: "strength",
      lead: "at",
      doc: "The strength of what it is kept in.",
      filling: quantity("strength", "fraction"),
      column: "second",
    },
    {
      name: "volumes",
      lead: "volumes",
      doc: "So many volumes of it to one of tissue.",
      filling: oneQuantity("number of volumes", "count"),
    },
    { name: "container", lead: "into", doc: "The tube, bag or bottle.", filling: text("container") },
    caseSlot("The case it belongs to."),
    { name: "laboratory", lead: "to", doc: "Where it went.", filling: text("laboratory") },
  ],
});
