import { entryKind } from "../kind.ts";
import { nameOrWord } from "../slots.ts";
import { toolSlot } from "./tool-slot.ts";

export const clean = entryKind({
  word: "clean",
  title: "Cleaning",
  doc: "What was cleaned: glass, front-glass, gravel, pump... Without a part it is the usual clean of the tank.",
  examples: ["clean", "clean front-glass, gravel", "clean gravel with siphon"],
  duty: true,
  usual: true,
  sort: "care",
  list: true,
  slots: [
    {
      name: "part",
      doc: "The part that was cleaned.",
      filling: nameOrWord(
        "part",
        "gear",
        "glass",
        "front-glass",
        "back-glass",
        "gravel",
        "sand",
        "lid",
        "pipes",
        "wood",
        "all",
      ),
      each: true,
      column: "subject",
    },
    toolSlot,
  ],
});
