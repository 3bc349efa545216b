/**
 * How wide a text is on a screen of fixed columns, for laying lines out under each other.
 *
 * Letters of East Asian scripts and pictures take two columns, marks that sit on another letter none (Unicode Standard Annex 11, East Asian
 * Width, classes W and F; ranges from memory of its table, block by block). A tab counts two, as everywhere in a log.
 */

const wide: readonly (readonly [first: number, last: number])[] = [
  [0x1100, 0x115f],
  [0x231a, 0x231b],
  [0x2329, 0x232a],
  [0x23e9, 0x23ec],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0x9fff],
  [0xa000, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];
const plain = /^[\x20-\x7e]*$/;
const noColumn = /\p{Mn}|\p{Me}|\p{Cf}/u;

/** The number of columns a text takes. */
export function widthOf(text: string): number {
  if (plain.test(text)) return text.length;
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width;
}

function letterWidth(letter: string): number {
  const code = letter.codePointAt(0)!;
  if (code === 0x09) return 2;
  if (code < 0x300) return 1;
  if (noColumn.test(letter)) return 0;
  return wide.some(([first, last]) => code >= first && code <= last) ? 2 : 1;
}

/** The text with spaces behind it up to a width. */
export function padTo(text: string, width: number): string {
  return text + " ".repeat(Math.max(0, width - widthOf(text)));
}
