import { entryKind } from "../kind.ts";
import { choice, count, name, text } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";

export const spawn = entryKind({
  word: "spawn",
  title: "Spawning",
  doc: "Eggs laid or young dropped. Eggs are not yet animals of the book.",
  examples: [
    "spawn praecox 120 eggs on mop lot p7",
    "spawn ricefish",
    "spawn praecox 60 eggs lot p8 father blue-1 mother gold-2",
  ],
  target: "tank",
  duty: false,
  sort: "breeding",
  slots: [
    {
      name: "species",
      doc: "Which species spawned.",
      filling: name("species"),
      column: "subject",
      required: "a species: spawn praecox 120 eggs",
    },
    {
      name: "eggs",
      doc: "How many, as far as they can be counted.",
      filling: count("number of eggs"),
      column: "amount",
    },
    { name: "what", doc: "Only for reading.", filling: choice("eggs"), column: "choice" },
    { name: "site", lead: "on", doc: "Where they lie.", filling: text("place") },
    lotSlot("What the brood is called from now on."),
    { name: "father", lead: "father", doc: "The father, by its name or batch.", filling: text("lot", "lot") },
    { name: "mother", lead: "mother", doc: "The mother, by its name or batch.", filling: text("lot", "lot") },
  ],
});
