import { entryKind } from "../kind.ts";
import { count, nameOrWord, text } from "../slots.ts";

export const plant = entryKind({
  word: "plant",
  title: "Planting",
  doc: "Plants or wood that came into the tank. They carry water and hitchhikers from where they were.",
  examples: ["plant fern 3 from r2", 'plant moss 1 from "a friend"'],
  duty: false,
  sort: "plants",
  slots: [
    {
      name: "plant",
      doc: "Which plant.",
      filling: nameOrWord("plant", "species"),
      column: "subject",
      required: "a plant: plant fern 3",
    },
    { name: "number", doc: "How many.", filling: count("number of plants"), column: "amount" },
    {
      name: "origin",
      lead: "from",
      doc: "The tank or supplier they came from.",
      filling: text("origin", "tank"),
      column: "object",
    },
  ],
});
