/**
 * Cuts a text into the rows of a table, wherever its parts end. What a row is, is decided here, as the parser library misreads a part that ends
 * between CR and LF; the cells of a row are the library's (`cells.ts`). A row that is broken costs itself: reading goes on at its next line.
 */

export interface Cut {
  /** From 1, in the file. */
  readonly line: number;
  /** The row as it stands, without its line end; of a row that is too long its beginning. */
  readonly raw: string;
  /** Why it cannot be read; empty if it can. */
  readonly flaw: string;
}

/** Lines that this tool writes into a file of rejected rows: they are no rows. */
export const ourMark = "#standpipe ";

/** A row of a table is shorter. */
export const mostInRow = 1 << 20;
/** So is a cell in quotes: one that goes on longer was never closed. */
const mostInQuotes = 1 << 16;

const CR = 13;
const LF = 10;
const QUOTE = 34;
const SPACE = 32;

export class Cutter {
  private readonly delimiter: number;
  private readonly hasQuotes: boolean;
  private rest = "";
  private line = 1;
  /** Of a row that is too long, how many letters went by. */
  private dropped = 0;
  private beginning = "";
  private feed = -1;

  /** @param delimiter `fixed` where cells stand at fixed places */
  constructor(delimiter: string) {
    this.delimiter = delimiter.length === 1 ? delimiter.charCodeAt(0) : -1;
    this.hasQuotes = delimiter.length === 1;
  }

  /** The rows that a further part completes. */
  cut(part: string, isLast = false): Cut[] {
    const cuts: Cut[] = [];
    const text = this.rest + part;
    let at = 0;
    this.feed = -1;
    if (this.dropped > 0) {
      at = this.drop(text, isLast, cuts);
      if (at < 0) return cuts;
    }
    while (at < text.length) {
      const next = this.row(text, at, isLast, cuts);
      if (next < 0) break;
      at = next;
    }
    this.rest = text.slice(at);
    if (this.rest.length > mostInRow) {
      this.dropped = this.rest.length;
      this.beginning = this.rest.slice(0, 200);
      this.rest = "";
    }
    if (isLast && this.dropped > 0) this.tooLong(cuts);
    return cuts;
  }

  /** Goes by what is left of a row that is too long. Returns where the next begins; -1 if it is not over. */
  private drop(text: string, isLast: boolean, cuts: Cut[]): number {
    const end = /[\r\n]/.exec(text)?.index ?? -1;
    if (end < 0) {
      this.dropped += text.length;
      this.rest = "";
      if (isLast) this.tooLong(cuts);
      return -1;
    }
    this.dropped += end;
    this.tooLong(cuts);
    const after = endOfLine(text, end, true);
    this.line++;
    return after;
  }

  private tooLong(cuts: Cut[]): void {
    const letters = String(this.dropped).replace(/\B(?=(\d{3})+$)/g, ",");
    cuts.push({
      line: this.line,
      raw: this.beginning,
      flaw: `${letters} characters in a line: no row of a table is so long`,
    });
    this.dropped = 0;
    this.beginning = "";
  }

  /** Reads a row. Returns where the next begins; -1 if the row may go on behind the text. */
  private row(text: string, at: number, isLast: boolean, cuts: Cut[]): number {
    if (this.feed < at) {
      const found = text.indexOf("\n", at);
      this.feed = found < 0 ? text.length : found;
    }
    // Most rows hold no quote and end in LF or CR LF.
    if (this.feed < text.length) {
      const end = text.charCodeAt(this.feed - 1) === CR && this.feed > at ? this.feed - 1 : this.feed;
      const raw = text.slice(at, end);
      if (!raw.includes("\r") && !(this.hasQuotes && raw.includes('"'))) {
        cuts.push({ line: this.line++, raw, flaw: "" });
        return this.feed + 1;
      }
    }
    return this.slowly(text, at, isLast, cuts);
  }

  private slowly(text: string, at: number, isLast: boolean, cuts: Cut[]): number {
    let isStart = true;
    let quoted = -1;
    let lines = 0;
    let flaw = "";
    for (let i = at; i < text.length; i++) {
      const code = text.charCodeAt(i);
      if (quoted >= 0) {
        if (code === LF || (code === CR && text.charCodeAt(i + 1) !== LF)) lines++;
        if (i - quoted > mostInQuotes) return this.firstLine(text, at, "a quote that is not closed", cuts);
        if (code !== QUOTE) continue;
        if (i + 1 >= text.length && !isLast) return -1;
        if (text.charCodeAt(i + 1) === QUOTE) {
          i++;
          continue;
        }
        const behind = afterBlanks(text, i + 1);
        if (behind >= text.length && !isLast) return -1;
        const next = text.charCodeAt(behind);
        if (behind >= text.length || next === this.delimiter || next === CR || next === LF) quoted = -1;
        else flaw = "a quote inside a cell in quotes is not doubled";
        continue;
      }
      if (code === CR || code === LF) {
        const next = endOfLine(text, i, isLast);
        if (next < 0) return -1;
        // What a misplaced quote drew in are rows of their own.
        if (flaw !== "" && lines > 0) return this.firstLine(text, at, flaw, cuts);
        cuts.push({ line: this.line, raw: text.slice(at, i), flaw });
        this.line += lines + 1;
        return next;
      }
      if (code === QUOTE && isStart && this.hasQuotes) quoted = i;
      isStart = code === this.delimiter;
    }
    if (!isLast) return -1;
    if (quoted >= 0) return this.firstLine(text, at, "a quote that is not closed", cuts);
    if (flaw !== "" && lines > 0) return this.firstLine(text, at, flaw, cuts);
    cuts.push({ line: this.line, raw: text.slice(at), flaw });
    this.line += lines + 1;
    return text.length;
  }

  private firstLine(text: string, at: number, flaw: string, cuts: Cut[]): number {
    let end = at;
    while (end < text.length && text.charCodeAt(end) !== LF && text.charCodeAt(end) !== CR) end++;
    cuts.push({ line: this.line++, raw: text.slice(at, end), flaw });
    return end >= text.length ? end : endOfLine(text, end, true);
  }
}

/** Where the next line begins: CR LF is one end, and so are CR CR LF and CR CR CR LF. -1 if that is not known yet. */
function endOfLine(text: string, at: number, isLast: boolean): number {
  if (text.charCodeAt(at) === LF) return at + 1;
  let behind = at;
  while (text.charCodeAt(behind) === CR) behind++;
  if (behind >= text.length) return isLast ? at + 1 : -1;
  return text.charCodeAt(behind) === LF ? behind + 1 : at + 1;
}

function afterBlanks(text: string, at: number): number {
  let behind = at;
  while (text.charCodeAt(behind) === SPACE) behind++;
  return behind;
}
