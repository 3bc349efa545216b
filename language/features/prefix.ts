import { type LineSink, parseBlock } from "../syntax/parser.ts";
import { Pieces } from "../syntax/pieces.ts";

/** The beginning of a line, up to the cursor, as pieces. */
export interface Prefix {
  readonly pieces: Pieces;
  /** The cursor stands at the end of the last piece: it may still go on. */
  readonly isTouching: boolean;
}

/**
 * Reads what stands before the cursor on its line. What the grammar does not take yet (`<`, `->`, `(`) is left off the end. Undefined in
 * a comment, and where nothing can be read.
 */
export function readPrefix(prefix: string): Prefix | undefined {
  if (isComment(prefix)) return undefined;
  let text = prefix;
  for (let tries = 0; tries < 4; tries++) {
    const reader = new PrefixReader();
    parseBlock(text, reader, true);
    if (!reader.isBroken) return { pieces: reader.pieces, isTouching: text !== "" && !/\s$/.test(text) };
    text = text.trimEnd().replace(/\S+$/, "");
  }
  return undefined;
}

function isComment(prefix: string): boolean {
  const outside = prefix.replace(/"(?:[^"\\]|\\.)*"?/g, (text) => "x".repeat(text.length));
  return /(?<!\S)#/.test(outside);
}

/** Keeps the pieces of one line: the parser uses its own again. */
class PrefixReader implements LineSink {
  readonly pieces = new Pieces();
  isBroken = false;

  head(): void {}

  line(read: Pieces): void {
    const { pieces } = this;
    for (let at = 0; at < read.count; at++) {
      const made = pieces.add(
        read.kind[at]! as Parameters<Pieces["add"]>[0],
        read.start[at]!,
        read.end[at]!,
        read.word[at]!,
      );
      pieces.value[made] = read.value[at]!;
      pieces.second[made] = read.second[at]!;
      pieces.third[made] = read.third[at]!;
      pieces.unit[made] = read.unit[at]!;
      pieces.mark[made] = read.mark[at]!;
      pieces.unitStart[made] = read.unitStart[at]!;
      pieces.lastWord[made] = read.lastWord[at]!;
    }
  }

  broken(): void {
    this.isBroken = true;
  }
}
