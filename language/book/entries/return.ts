import { entryKind } from "../kind.ts";
import { partSlot } from "./part-slot.ts";

export const putBack = entryKind({
  word: "return",
  title: "Put back after a course",
  doc: "What was taken out for a treatment and is back.",
  examples: ["return carbon, light"],
  target: "water",
  duty: false,
  sort: "health",
  list: true,
  slots: [partSlot("return")],
});
