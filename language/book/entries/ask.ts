import { entryKind } from "../kind.ts";
import { text } from "../slots.ts";
import { ofCaseSlot } from "./case-slot.ts";

export const ask = entryKind({
  word: "ask",
  title: "Question about a case",
  doc: "What the laboratory or the veterinarian is asked. The questions of a case stand on its laboratory sheet.",
  examples: ['ask flukes-1 "Which monogenean is it?"'],
  duty: false,
  sort: "health",
  slots: [
    ofCaseSlot("The case it is about.", 'ask flukes-1 "Which monogenean is it?"'),
    {
      name: "question",
      doc: "The question.",
      filling: text("question"),
      required: 'a question: ask flukes-1 "Which monogenean is it?"',
    },
  ],
});
