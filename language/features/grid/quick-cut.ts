import type { Block } from "../../book/source.ts";
import { cutKept, cutOnce, type LineCut } from "./cut.ts";
import { cutState, lineState, moved } from "./edit-line.ts";
import { linesOfBlock, lineText } from "./lines.ts";
import { hasSheet } from "./rounds-on.ts";

/**
 * The lines of a block that may be wanted, for a walk over a whole log: what a line says is looked for in its raw text first, and only what has it
 * is cut. In a block with a sheet lines hang on one another, and all are.
 *
 * @param mayBe of a line as it stands, in small letters; undefined where all are wanted
 * @returns each with its place among the lines that are rows
 */
export function* cutSome(
  block: Block,
  mayBe: ((raw: string) => boolean) | undefined,
): Generator<readonly [line: LineCut, at: number], void, undefined> {
  const kept = cutKept(block);
  if (kept !== undefined || mayBe === undefined || block.kind !== "day" || hasSheet.test(block.text)) {
    for (const [at, line] of (kept ?? cutOnce(block)).entries()) yield [line, at];
    return;
  }
  const { text } = block;
  if (!mayBe(text.toLowerCase())) return;
  const { starts } = linesOfBlock(block);
  for (let at = 0; at < starts.length; at++) {
    const start = starts[at]!;
    const raw = lineText(text, start);
    if (!mayBe(raw.toLowerCase())) continue;
    yield [moved(cutState(lineState(raw, at === 0 ? "day" : "entry")), start), at];
  }
}
