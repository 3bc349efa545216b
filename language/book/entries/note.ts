import { entryKind } from "../kind.ts";

export const note = entryKind({
  word: "note",
  title: "Note",
  doc: "Prose. It is kept and shown, and nothing is computed from it.",
  examples: ['note "heater clicks"'],
  duty: false,
  sort: "prose",
  slots: [
    {
      name: "note",
      doc: "What there is to say.",
      filling: { is: "text", noun: "note" },
      required: 'a text: note "heater clicks"',
    },
  ],
});
