import { entryKind } from "../kind.ts";
import { choice, text } from "../slots.ts";
import { ofCaseSlot } from "./case-slot.ts";

export const send = entryKind({
  word: "send",
  title: "Samples on their way",
  doc: "What became of the samples of a case: packed, handed over, sent, received. One line a step is the chain of custody.",
  examples: ['send flukes-1 to "state laboratory" by "courier"', 'send flukes-1 received "by telephone"'],
  duty: false,
  sort: "health",
  slots: [
    ofCaseSlot("The case the samples are of.", "send flukes-1"),
    {
      name: "step",
      doc: "Which step; `sent` where nothing is said.",
      filling: choice("packed", "handed", "sent", "received"),
      column: "choice",
    },
    { name: "laboratory", lead: "to", doc: "Where to, or to whom.", filling: text("laboratory") },
    { name: "carrier", lead: "by", doc: "Who carries it.", filling: text("carrier") },
  ],
});
