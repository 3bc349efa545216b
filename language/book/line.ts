import { Piece, type Pieces } from "../syntax/pieces.ts";
import { kindNumber } from "./entries/registry.ts";

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
  /** `sheet head head ...`. */
  | { readonly is: "sheet"; readonly time: number; readonly word: number }
  /** `[time] target cell cell ...` below a sheet. */
  | { readonly is: "row"; readonly time: number; readonly target: number };

const brokenSheet = /^(?:\d{1,2}:\d{2}[ \t]+)?sheet(?![\w-])/;

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

  /**
   * A line that the grammar refuses. True if it is the head of a sheet: what its columns were is not known then.
   * @param first where its first token stands
   */
  broken(text: string, first: number, indent: number): boolean {
    if (this.sheetIndent >= 0 && indent > this.sheetIndent) return false;
    const isSheet = brokenSheet.test(text.slice(first, first + 16));
    this.sheetIndent = isSheet ? indent : -1;
    return isSheet;
  }

  /** @param indent the width of white space before the line */
  roleOf(pieces: Pieces, indent: number): LineRole {
    const time = pieces.count > 1 && pieces.kind[0] === Piece.time ? 0 : -1;
    const target = time + 1;
    if (this.sheetIndent >= 0 && indent > this.sheetIndent) return { is: "row", time, target };
    this.sheetIndent = -1;
    if (pieces.kind[target] === Piece.word && pieces.word[target] === "sheet") {
      this.sheetIndent = indent;
      return { is: "sheet", time, word: target };
    }
    const kindPiece = target + 1;
    const named = kindPiece < pieces.count && pieces.kind[kindPiece] === Piece.word;
    return {
      is: "entry",
      time,
      target,
      kindPiece,
      kind: named ? (kindNumber(pieces.word[kindPiece]!) ?? -1) : -1,
    };
  }
}
