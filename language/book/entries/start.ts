import { entryKind } from "../kind.ts";
import { name, offering, quantity } from "../slots.ts";

export const start = entryKind({
  word: "start",
  title: "Start of a culture",
  doc: "A live food that is begun: cysts to hatch, a fresh pot from an old one. When it is ready follows from what the food states.",
  examples: ["start nauplii 2 g salt 25 g/L at 27 C", "start grindal"],
  duty: true,
  sort: "care",
  slots: [
    {
      name: "food",
      doc: "What is raised.",
      filling: name("food"),
      column: "subject",
      required: "a food: start nauplii 2 g",
    },
    {
      name: "amount",
      doc: "How much was put in: cysts, starter.",
      filling: offering(quantity("amount", "portion", "mass", "volume"), "g", "mL"),
      column: "amount",
    },
    {
      name: "salt",
      lead: "salt",
      doc: "How salty the water is.",
      filling: quantity("salt", "concentration"),
    },
    {
      name: "temperature",
      lead: "at",
      doc: "How warm it stands.",
      filling: quantity("temperature", "temperature"),
      column: "second",
    },
  ],
});
