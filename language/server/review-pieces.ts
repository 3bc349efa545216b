import type { CancellationToken } from "vscode-languageserver";
import type { Source } from "../book/source.ts";
import type { Steps } from "../history/steps.ts";
import { nextLine } from "../syntax/blocks.ts";
import type { Position } from "./protocol.ts";
import { turn } from "./reports.ts";

/** What handlers of versions have in common: work in pieces, and where lines of a text begin that is no document. */

/** So long keys wait at most between two pieces. */
const pieceMs = 20;
/** Undefined where it was cancelled, or the log is another now. */
export async function inPieces<T>(
  steps: Steps<T>,
  token: CancellationToken,
  isOutdated = () => false,
): Promise<T | undefined> {
  for (let begun = performance.now(); ; ) {
    const { done, value } = steps.next();
    if (done === true) return value;
    if (performance.now() - begun < pieceMs) continue;
    await turn();
    if (token.isCancellationRequested || isOutdated()) return undefined;
    begun = performance.now();
  }
}

/** Where lines begin in a source, as long as its text is the same: what is open is edited in place. */
const begins = new WeakMap<Source, { readonly text: string; readonly lines: readonly number[] }>();

export function positionOf(source: Source, offset: number): Position {
  const known = begins.get(source);
  const lines = known?.text === source.text ? known.lines : linesOf(source.text);
  if (lines !== known?.lines) begins.set(source, { text: source.text, lines });
  let low = 0;
  let high = lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (lines[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return { line: low, character: offset - lines[low]! };
}

export function linesOf(text: string): number[] {
  const lines = [0];
  for (let at = nextLine(text, 0); at < text.length; at = nextLine(text, at)) lines.push(at);
  return lines;
}
