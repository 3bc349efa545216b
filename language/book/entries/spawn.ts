import { entryKind } from "../kind.ts";
import { choice, count, name, text } from "../slots.ts";

export const spawn = entryKind({
  word: "spawn",
  title: "Spawning",
  doc: "Eggs laid or young dropped. Eggs are not yet animals of the book.",
  examples: ["spawn praecox 120 eggs on mop", "spawn ricefish"],
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
  ],
});
