import { nearest } from "../quantity/nearest.ts";
import { editDistance } from "../quantity/units.ts";
import { conflictMark } from "../syntax/conflict-mark.ts";
import { Piece, type Pieces } from "../syntax/pieces.ts";
import { entryKinds, kindNumber } from "./entries/registry.ts";

/** What a line of a day block is, from its first pieces; the same answer for facts, features and layout. */
export type LineRole =
  /** `[time] target kind ...`. `kind` is -1 if its word names no kind. */
  | {
      readonly is: "entry";
      readonly time: number;
      readonly target: number;
      readonly kindPiece: number;
      readonly kind: number;
    }
  /** `sheet head head ...`. Of a misspelt word the heads are not read, and the rows below wait. */
  | { readonly is: "sheet"; readonly time: number; readonly word: number; readonly isMisspelt: boolean }
  /** `[time] target cell cell ...` below a sheet. */
  | { readonly is: "row"; readonly time: number; readonly target: number };

const brokenSheet = /^(?:\d{1,2}:\d{2}[ \t]+)?sheet(?![\w-])/;

/** Whether the words a line begins with are `sheet` with a slip of the finger, and the head of a column. */
function isLikeSheet(first: string, second: string): boolean {
  if (first === "" || second === "" || editDistance(first.toLowerCase(), "sheet") > 1) return false;
  return nearest(second, kindWords).length === 0;
}

const kindWords = entryKinds.map((kind) => kind.word);

/** Tells the lines of a day block apart; it must see them in order. */
export class LineRoles {
  private sheetIndent = -1;

  /** Whether the lines seen last are the rows of a sheet. */
  get inSheet(): boolean {
    return this.sheetIndent >= 0;
  }

  begin(): void {
    this.sheetIndent = -1;
  }

  /** Whether a line with this indentation would be a row of the sheet above. */
  isRowAt(indent: number): boolean {
    return this.sheetIndent >= 0 && indent > this.sheetIndent;
  }

  /**
   * A line that the grammar refuses. True if it is the head of a sheet: what its columns were is not known then.
   * @param first where its first token stands
   */
  broken(text: string, first: number, indent: number): boolean {
    if (this.sheetIndent >= 0 && indent > this.sheetIndent) return false;
    // What a merge left stands between rows as well, and ends no round.
    if (indent === 0 && conflictMark(text.slice(first, first + 80)) !== undefined) return false;
    const isSheet = brokenSheet.test(text.slice(first, first + 16));
    this.sheetIndent = isSheet ? indent : -1;
    return isSheet;
  }

  /** @param indent the width of white space before the line */
  roleOf(pieces: Pieces, indent: number): LineRole {
    const time = pieces.kind[0] === Piece.time ? 0 : -1;
    const target = time + 1;
    if (this.sheetIndent >= 0 && indent > this.sheetIndent) return { is: "row", time, target };
    this.sheetIndent = -1;
    const kindPiece = target + 1;
    const first = target < pieces.count && pieces.kind[target] === Piece.word ? pieces.word[target]! : "";
    const second =
      kindPiece < pieces.count && pieces.kind[kindPiece] === Piece.word ? pieces.word[kindPiece]! : "";
    const kind = kindNumber(second) ?? -1;
    const isMisspelt = first !== "sheet" && kind < 0 && isLikeSheet(first, second);
    if (first === "sheet" || isMisspelt) {
      this.sheetIndent = indent;
      return { is: "sheet", time, word: target, isMisspelt };
    }
    return { is: "entry", time, target, kindPiece, kind };
  }
}
