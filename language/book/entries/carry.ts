import { entryKind } from "../kind.ts";
import { nameOrWord } from "../slots.ts";

export const carry = entryKind({
  word: "carry",
  title: "Things carried over",
  doc: "Plants, wood, filter material, water or a tool that went from this tank to another. Where one tank is sick it shows what may have come with them.",
  examples: ["carry wood, plants -> r4", "carry sponge -> q1"],
  target: "tank",
  duty: false,
  sort: "care",
  list: true,
  slots: [
    {
      name: "thing",
      doc: "What was carried over.",
      filling: nameOrWord(
        "thing",
        "gear",
        "plants",
        "wood",
        "stones",
        "gravel",
        "sponge",
        "media",
        "water",
        "net",
        "mop",
      ),
      each: true,
      column: "subject",
      required: "what it was: carry plants -> r4",
    },
    {
      name: "destination",
      doc: "The tank it went to.",
      filling: { is: "destination" },
      column: "object",
      required: "where to: carry plants -> r4",
    },
  ],
});
