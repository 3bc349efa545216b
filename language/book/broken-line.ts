import { nextLine } from "../syntax/blocks.ts";
import { conflictMark, conflictWords } from "../syntax/conflict-mark.ts";
import type { Mend, Problem } from "./problem.ts";

/** What to say of a line that the grammar refuses, beside what it says itself: marks that a telephone or a web page put there. */
export function brokenLine(
  text: string,
  start: number,
  end: number,
  message: string,
  isHead = false,
): Problem {
  const isFirst = start === 0 || /[\r\n]/.test(text[start - 1]!);
  const mark = isFirst ? conflictMark(text.slice(start, nextLine(text, start))) : undefined;
  if (mark !== undefined) return conflictProblem(start, mark);
  const code = isHead ? "syntax/head" : "syntax/line";
  const curly = curlyQuotes(text, start);
  if (curly !== undefined) {
    return {
      code,
      start,
      end,
      message: 'a text stands in straight quotes: "eggs on the mop"',
      counts: false,
      mends: curly,
    };
  }
  const mends = text[start] === ":" ? [{ title: "Delete the colon", text: "" }] : [];
  return { code, start, end, message, counts: false, mends };
}

/** What is left over from a merge. @param start where the mark begins */
export function conflictProblem(start: number, mark: string): Problem {
  const end = start + mark.trimEnd().length;
  return { code: "syntax/conflict", start, end, message: conflictWords(mark), counts: false, mends: [] };
}

/** Straight quotes for the curly pair that begins here; none to offer if it is not closed; undefined if none begins here. */
function curlyQuotes(text: string, start: number): Mend[] | undefined {
  if (!/[“”„‟«»]/.test(text[start] ?? "")) return undefined;
  const behind = text.slice(start + 1, nextLine(text, start));
  const close = /[“”„‟«»"]/.exec(behind);
  if (close === null || behind.slice(0, close.index).includes("\\")) return [];
  const at = start + 1 + close.index;
  const also = { text: '"', start: at, end: at + 1 };
  return [{ title: "Write straight quotes", text: '"', start, end: start + 1, also }];
}
