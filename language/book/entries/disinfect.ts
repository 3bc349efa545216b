import { entryKind } from "../kind.ts";
import { nameOrWord, text } from "../slots.ts";
import { knownTools } from "./tool-slot.ts";

export const disinfect = entryKind({
  word: "disinfect",
  title: "Disinfection",
  doc: "A tool, a gear or an empty tank that was disinfected: what it touched before is not passed on. Without a thing it is the target itself. Agents are hazards: follow their labels, and rinse.",
  examples: ["disinfect", 'disinfect net, siphon with "chlorine, 30 min"'],
  duty: true,
  usual: true,
  sort: "health",
  list: true,
  slots: [
    {
      name: "thing",
      doc: "What was disinfected, if not the target itself.",
      filling: nameOrWord("thing", "gear", ...knownTools),
      each: true,
      column: "subject",
    },
    { name: "agent", lead: "with", doc: "In what, and for how long.", filling: text("agent") },
  ],
});
