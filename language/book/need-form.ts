import { Piece, type Pieces } from "../syntax/pieces.ts";
import { readDays, readTimes } from "./duty-form.ts";
import type { Problem } from "./problem.ts";

/** `frozen at least 3 per 7 d`: what a species must or may be fed. */
export interface NeedForm {
  /** A food or a kind of food. */
  readonly food: string;
  readonly when: "at least" | "at most";
  readonly times: number;
  readonly periodDays: number;
  readonly start: number;
  readonly end: number;
}

const example = "needs frozen at least 3 per 7 d, dry at most 2 per 7 d";

/** Reads the needs in the pieces `begin..end`; undefined, with a problem, if one of them is none. */
export function readNeeds(
  pieces: Pieces,
  begin: number,
  end: number,
  problems: Problem[],
): NeedForm[] | undefined {
  const needs: NeedForm[] = [];
  let at = begin + 1;
  const isWord = (piece: number, ...words: string[]): boolean =>
    piece < end &&
    pieces.kind[piece] === Piece.word &&
    (words.length === 0 || words.includes(pieces.word[piece]!));
  while (at < end || needs.length === 0) {
    const first = at;
    // What a species must never get is needed at most 0 times.
    const least = at + 2 < end && pieces.word[at + 2] === "most" ? 0 : 1;
    const times = readTimes(pieces, at + 3, end, least);
    const periodDays = readDays(pieces, at + 5, end);
    const fits =
      isWord(at) && isWord(at + 1, "at") && isWord(at + 2, "least", "most") && isWord(at + 4, "per");
    const after = at + 6;
    if (
      !fits ||
      Number.isNaN(times) ||
      Number.isNaN(periodDays) ||
      (after < end && pieces.kind[after] !== Piece.comma)
    ) {
      const shown = Math.min(first, end - 1);
      problems.push({
        code: "definition/needs",
        start: pieces.start[shown]!,
        end: pieces.end[end - 1]!,
        message: `needs are written: ${example}`,
        counts: false,
        mends: [],
      });
      return undefined;
    }
    needs.push({
      food: pieces.word[at]!,
      when: pieces.word[at + 2] === "least" ? "at least" : "at most",
      times,
      periodDays,
      start: pieces.start[first]!,
      end: pieces.end[after - 1]!,
    });
    at = after + 1;
  }
  return needs;
}
