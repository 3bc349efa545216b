import { entryKind } from "../kind.ts";

export const test = entryKind({
  word: "test",
  title: "Water test",
  doc: "Readings of one tank. Each is held against the limits of the tank and against what is possible; from several the trend follows.",
  examples: ["test nitrate 18 mg/L, pH 7.2, temperature 24.6", "test nitrate <5, KH 4"],
  target: "water",
  duty: true,
  sort: "water",
  list: true,
  slots: [
    {
      name: "parameter",
      doc: "What was measured.",
      filling: { is: "name", of: ["parameter"] },
      each: true,
      column: "subject",
      required: "a parameter: nitrate 18",
    },
    {
      name: "reading",
      doc: "What it read; `<5` if below the lowest step of the test.",
      filling: { is: "reading" },
      each: true,
      column: "amount",
      required: "a reading: nitrate 18",
    },
  ],
});
