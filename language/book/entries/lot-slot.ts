import type { Slot } from "../slots.ts";
import { text } from "../slots.ts";

/** Which of the animals: a batch that came together, a brood, or one animal that has a name. */
export const lotSlot = (doc: string, each = false): Slot => ({
  name: "lot",
  lead: "lot",
  doc,
  filling: text("lot", "lot"),
  column: "lot",
  ...(each ? { each } : {}),
});
