import { entryKind } from "../kind.ts";
import { nameOrWord, offering, quantity } from "../slots.ts";

export const feed = entryKind({
  word: "feed",
  title: "Feeding",
  doc: "What the tank was fed. `feed none` is a day of fasting.",
  examples: ["feed cyclops 2 cubes, flake 1 pinch", "feed nauplii", 'feed none "fasting before shipping"'],
  duty: true,
  usual: true,
  sort: "care",
  list: true,
  slots: [
    {
      name: "food",
      doc: "A food, or `none` for a day without.",
      filling: nameOrWord("food", "food", "none"),
      each: true,
      column: "subject",
      required: "a food: feed cyclops 2 cubes",
    },
    {
      name: "amount",
      doc: "How much, by weight, volume or portions.",
      filling: offering(
        quantity("amount of food", "portion", "mass", "volume"),
        "cubes",
        "pinches",
        "g",
        "mL",
      ),
      each: true,
      column: "amount",
    },
  ],
});
