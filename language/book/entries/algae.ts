import { scaleSentence } from "../algae-scale.ts";
import { entryKind } from "../kind.ts";
import { nameOrWord, quantity, within } from "../slots.ts";

export const algae = entryKind({
  word: "algae",
  title: "Rating of algae",
  doc: `How much there is of the surface it grows on, as a rating from 0 to 4 or as a share. The ratings: ${scaleSentence}. What is rated often, and always on the same surface, can be compared before and after a change.`,
  examples: ["algae green-spot 2", "algae film 10 %"],
  duty: true,
  sort: "plants",
  slots: [
    {
      name: "sort",
      doc: "Which algae.",
      filling: nameOrWord("algae", "any", "film", "green-spot", "thread", "brush", "blue-green", "diatoms"),
      column: "subject",
    },
    {
      name: "rating",
      doc: `0 to 4, or a share of the surface: ${scaleSentence}.`,
      filling: within(0, 4, quantity("rating from 0 to 4, or share", "count", "fraction")),
      column: "amount",
      required: "a rating: algae green-spot 2",
    },
  ],
});
