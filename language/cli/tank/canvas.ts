/** A small picture in letters. With signs each letter holds two by four dots (the Braille patterns of Unicode), else one. */
export class Canvas {
  readonly columns: number;
  readonly rows: number;
  /** Dots across a letter and down it. */
  readonly across: number;
  readonly down: number;
  private readonly dots: Uint8Array;
  private readonly letters: (string | undefined)[];
  private readonly dot: string;

  /** @param dot the letter of a dot where there are no signs */
  constructor(columns: number, rows: number, hasSigns: boolean, dot = ".") {
    this.columns = columns;
    this.rows = rows;
    this.across = hasSigns ? 2 : 1;
    this.down = hasSigns ? 4 : 1;
    this.dot = dot;
    this.dots = new Uint8Array(columns * rows);
    this.letters = new Array(columns * rows);
  }

  /** Sets a dot; what lies outside is left out. @param x @param y in dots from the top left */
  set(x: number, y: number): void {
    const column = Math.floor(x / this.across);
    const row = Math.floor(y / this.down);
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return;
    this.dots[row * this.columns + column]! |=
      patterns[Math.floor(y) % this.down]![Math.floor(x) % this.across]!;
  }

  /** A line of dots. @param every sets one dot of so many */
  line(fromX: number, fromY: number, toX: number, toY: number, every = 1): void {
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(toX - fromX), Math.abs(toY - fromY))));
    for (let step = 0; step <= steps; step++) {
      if (Math.floor(fromX + ((toX - fromX) * step) / steps) % every !== 0) continue;
      this.set(fromX + ((toX - fromX) * step) / steps, fromY + ((toY - fromY) * step) / steps);
    }
  }

  /** Puts a letter, over dots and over what was put there before; `under` only where nothing is yet. */
  put(column: number, row: number, letter: string, under = false): void {
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return;
    const at = row * this.columns + column;
    if (under && (this.letters[at] !== undefined || this.dots[at] !== 0)) return;
    this.letters[at] = letter;
  }

  lines(): string[] {
    return Array.from({ length: this.rows }, (_, row) =>
      Array.from({ length: this.columns }, (_, column) => this.letterAt(row * this.columns + column)).join(
        "",
      ),
    );
  }

  private letterAt(at: number): string {
    const letter = this.letters[at];
    if (letter !== undefined) return letter;
    const dots = this.dots[at]!;
    if (dots === 0) return " ";
    return this.across === 1 ? this.dot : String.fromCharCode(0x2800 + dots);
  }
}

/** The bits of a Braille pattern, by row and column of its dots (The Unicode Standard, block U+2800). */
const patterns: readonly (readonly number[])[] = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
];
