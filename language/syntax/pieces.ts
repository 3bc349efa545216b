/**
 * The pieces of one line, kept in columns and used again for the next line.
 *
 * A piece is the smallest thing an entry's arguments are made of: a word, a quantity with its unit, a text, an arrow with where
 * it points. Positions are offsets into the text that was parsed.
 */

export const Piece = {
  word: 0,
  /** `18 mg/L`, `<5`, `23..27 C`, `<= 25`, `~200`, `30 %`. */
  quantity: 1,
  /** `3.5.20`: males, females, unsexed. */
  sexed: 2,
  text: 3,
  /** A text that is not closed on its line. */
  openText: 4,
  /** `@rack`; the name without the mark. */
  group: 5,
  /** `-> q1`; the name without the arrow. */
  destination: 6,
  comma: 7,
  semicolon: 8,
  date: 9,
  time: 10,
  /** `-` in a sheet: not measured. */
  dash: 11,
  /** `150 x 55 x 50 cm`. */
  lengths: 12,
  equals: 13,
  /** `(F)` behind the head of a column. */
  columnUnit: 14,
  /** `r1 .. r12`. */
  nameRange: 15,
} as const;
export type PieceKind = (typeof Piece)[keyof typeof Piece];

/** How a quantity is qualified. */
export const Mark = { exact: 0, below: 1, above: 2, range: 3, atMost: 4, atLeast: 5, about: 6 } as const;
export type MarkKind = (typeof Mark)[keyof typeof Mark];

export class Pieces {
  count = 0;
  kind = new Uint8Array(64);
  start = new Int32Array(64);
  end = new Int32Array(64);
  /** First number: the value, the lower end of a range, the males of a sexed count, the minutes of a time. */
  value = new Float64Array(64);
  /** Second number: the upper end of a range, the females of a sexed count, the second length. */
  second = new Float64Array(64);
  /** Third number: the unsexed of a sexed count, the third length. */
  third = new Float64Array(64);
  unit = new Int16Array(64);
  mark = new Uint8Array(64);
  /** Where the unit begins, or the end of the piece where it has none. */
  unitStart = new Int32Array(64);
  /** A word, the name of a group or destination, the first name of a range; else empty. */
  word: string[] = new Array(64).fill("");
  /** The last name of a range; else as left by an earlier line. */
  lastWord: string[] = new Array(64).fill("");

  clear(): void {
    this.count = 0;
  }

  /** Adds a piece without numbers and returns its index. */
  add(kind: PieceKind, start: number, end: number, word: string): number {
    const at = this.count++;
    if (at === this.kind.length) this.grow();
    this.kind[at] = kind;
    this.start[at] = start;
    this.end[at] = end;
    this.word[at] = word;
    return at;
  }

  private grow(): void {
    const size = this.kind.length * 2;
    this.kind = larger(this.kind, new Uint8Array(size));
    this.start = larger(this.start, new Int32Array(size));
    this.end = larger(this.end, new Int32Array(size));
    this.value = larger(this.value, new Float64Array(size));
    this.second = larger(this.second, new Float64Array(size));
    this.third = larger(this.third, new Float64Array(size));
    this.unit = larger(this.unit, new Int16Array(size));
    this.mark = larger(this.mark, new Uint8Array(size));
    this.unitStart = larger(this.unitStart, new Int32Array(size));
  }
}

function larger<T extends { set(from: T): void }>(from: T, to: T): T {
  to.set(from);
  return to;
}
