import { entryKind } from "../kind.ts";
import { partSlot } from "./part-slot.ts";

export const remove = entryKind({
  word: "remove",
  title: "Taken out for a course",
  doc: "What was taken out of the water or switched off for a treatment, such as activated carbon or the light. It is out until it is returned.",
  examples: ["remove carbon, light"],
  target: "water",
  duty: false,
  sort: "health",
  list: true,
  slots: [partSlot("remove")],
});
