import { entryKind } from "../kind.ts";
import { count, name } from "../slots.ts";
import { lotSlot } from "./lot-slot.ts";
import { toolSlot } from "./tool-slot.ts";

export const move = entryKind({
  word: "move",
  title: "Move of animals",
  doc: "Animals that go from this tank to another. Both tanks' books follow.",
  examples: ["move cherry 12 -> r4", "move praecox 1.2.0 -> q1", "move cherry 12 -> r4 with net"],
  target: "tank",
  duty: false,
  sort: "animals",
  slots: [
    {
      name: "species",
      doc: "What was moved.",
      filling: name("species"),
      column: "subject",
      required: "a species: move cherry 12 -> r4",
    },
    {
      name: "animals",
      doc: "How many.",
      filling: count(),
      column: "amount",
      required: "a number: move cherry 12 -> r4",
    },
    {
      name: "destination",
      doc: "The tank they went to.",
      filling: { is: "destination" },
      column: "object",
      required: "where to: move cherry 12 -> r4",
    },
    lotSlot("Of which batch, brood or animal."),
    toolSlot,
  ],
});
