import type { Slot } from "../slots.ts";
import { nameOrWord } from "../slots.ts";

/** Tools that go from tank to tank, as they are offered where no gear has a name of its own. */
export const knownTools = ["net", "siphon", "hose", "bucket", "scraper", "hands"] as const;

/** What was worked with: it may carry something from one tank to the next, until it is disinfected. */
export const toolSlot: Slot = {
  name: "tool",
  lead: "with",
  doc: "The tool that was used: what it touched before may be traced.",
  filling: nameOrWord("tool", "gear", ...knownTools),
  column: "tool",
};
