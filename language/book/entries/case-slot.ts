import type { Slot } from "../slots.ts";
import { name } from "../slots.ts";

/** The case an entry belongs to, where its own words do not name it. */
export const caseSlot = (doc: string): Slot => ({
  name: "case",
  lead: "case",
  doc,
  filling: name("case"),
  column: "object",
});

/** The case an entry is about. */
export const ofCaseSlot = (doc: string, example: string): Slot => ({
  name: "case",
  doc,
  filling: name("case"),
  column: "object",
  required: `a case: ${example}`,
});
