import fc from "fast-check";
import { arbitraryLog, definitions, textOf } from "./arbitrary-log.ts";

/** Texts at random: of any characters, of those that mean something here, and valid logs with pieces cut out and put in. */

const meaning = [
  ...'"#@%,;=()<>~-.:0159abxpHLC \t\u00a0\u3000\ufeff¤é水𝟘\u2028',
  "\n",
  "\r\n",
  "\r",
  "\n  ",
  "\n    ",
  "..",
  "->",
  "<=",
  "\\",
  "2026-03-01",
  "2026-02-30",
  "08:40",
  "sheet",
  "room",
  "tank",
  "dam",
  "change",
  "30 %",
  "mg/L",
  "3.5.20",
  "150 x 55",
  "\n<<<<<<< HEAD\n",
  "\n||||||| base\n",
  "\n=======\n",
  "\n>>>>>>> holiday\n",
];

/** Bits that are marks, words and line ends of the format, in no order. */
export const meaningfulText: fc.Arbitrary<string> = fc
  .array(fc.constantFrom(...meaning), { maxLength: 40 })
  .map((bits) => bits.join(""));

export const unicodeText: fc.Arbitrary<string> = fc.oneof(
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.string({ unit: "grapheme", maxLength: 60 }),
  // Halves of surrogate pairs, as an edit may leave them.
  fc
    .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 40 })
    .map((codes) => String.fromCharCode(...codes)),
);

/** An edit of some text: where as a share of its length, so that it fits any. */
export interface Splice {
  readonly at: number;
  readonly remove: number;
  readonly insert: string;
}

export const splice: fc.Arbitrary<Splice> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.oneof({ weight: 3, arbitrary: fc.nat(3) }, fc.nat(60)),
  insert: fc.oneof(
    fc.constant(""),
    fc.constantFrom(...meaning),
    meaningfulText,
    fc.constantFrom(
      "\n2026-03-02\n  dam change 30 %\n",
      "  b1 feed cyclops 2 cubes\n",
      "tank t9\n  volume 9 L\n",
      "\n<<<<<<< HEAD\n  b1 clean\n=======\n  b1 change 30 %\n>>>>>>> holiday\n",
      "\n<<<<<<< HEAD\n",
      "\n=======\n",
      "\n>>>>>>> holiday\n",
    ),
  ),
});

/** Where a splice begins and ends in a text. */
export function rangeOf({ at, remove }: Splice, text: string): { start: number; end: number } {
  const start = Math.floor(at * text.length);
  return { start, end: Math.min(text.length, start + remove) };
}

export function spliced(text: string, edit: Splice): string {
  const { start, end } = rangeOf(edit, text);
  return text.slice(0, start) + edit.insert + text.slice(end);
}

/** Logs that were valid before somebody's fingers slipped. */
export const damagedLog: fc.Arbitrary<string> = fc
  .tuple(arbitraryLog, fc.array(splice, { maxLength: 6 }), fc.boolean())
  .map(([log, edits, whole]) =>
    edits.reduce(spliced, whole ? textOf(log) : textOf(log).slice(definitions.length)),
  );

/** All of them. */
export const anyText: fc.Arbitrary<string> = fc.oneof(meaningfulText, unicodeText, damagedLog);
