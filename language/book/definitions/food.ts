import { type DefinitionKind, property, single } from "../property.ts";
import { choice, oneQuantity, quantity } from "../slots.ts";
import { expires, keeps, note, opened } from "./shared.ts";

export const foodKinds = ["dry", "frozen", "live", "gel", "fresh", "grazing"] as const;
export type FoodKind = (typeof foodKinds)[number];

export const food: DefinitionKind = {
  word: "food",
  title: "Food",
  doc: "A food, its kind, and what a portion weighs.",
  properties: [
    single("kind", "What sort of food it is.", { filling: choice(...foodKinds) }, "kind frozen"),
    property(
      "portion",
      "What a portion weighs.",
      [
        {
          name: "portion",
          doc: "The portion.",
          filling: oneQuantity("portion", "portion"),
          required: "a portion: portion 1 cube = 3.5 g",
        },
        {
          name: "mass",
          lead: "=",
          doc: "What it weighs.",
          filling: oneQuantity("mass", "mass"),
          required: "a mass: portion 1 cube = 3.5 g",
        },
      ],
      ["portion 1 cube = 3.5 g"],
      { many: true },
    ),
    single("protein", "Share of protein.", { filling: quantity("fraction", "fraction") }, "protein 45 %"),
    single(
      "ready",
      "Of a live food: how long after its start it can be harvested.",
      { filling: quantity("time", "duration") },
      "ready 20..28 h",
    ),
    keeps,
    opened,
    expires,
    single("price", "Price of a pack.", { filling: quantity("price", "price") }, "price 6 EUR"),
    note,
  ],
};
