import { conflictMark } from "../../syntax/conflict-mark.ts";
import { blocksOf, type LogLine, linesOfBlock } from "../log-lines.ts";

/**
 * Whether a merged text holds what it should, read again: every line reads as it did in a version it is from, or as it was put together, so
 * that none is broken that was whole.
 */
export function holds(result: string, versions: readonly string[], made: readonly string[]): boolean {
  const merged = blocksOf(withoutMark(result));
  const isMerged = new Set(merged.map(({ text }) => text));
  const blocks = versions.flatMap((text) => blocksOf(withoutMark(text)));
  const isKnown = new Set(blocks.map(({ text }) => text));
  // What stands in the result as it stood is not read, but where another block of its name may have its lines.
  const isRead = new Set(merged.filter(({ text }) => !isKnown.has(text)).map(({ name }) => name));
  const known = new Set<string>();
  for (const block of blocks)
    if (!isMerged.has(block.text) || isRead.has(block.name))
      for (const line of linesOfBlock(block)) known.add(keyOf(line));
  const isMade = new Set(made.map((text) => text.trim()));
  const isRight = (line: LogLine): boolean => {
    if (line.kind === "blank" || known.has(keyOf(line)) || conflictMark(line.text) !== undefined) return true;
    return isMade.has(line.text.trim()) && line.kind !== "unread";
  };
  return merged.every((block) => isKnown.has(block.text) || linesOfBlock(block).every(isRight));
}

const withoutMark = (text: string): string => text.replace(/^\ufeff/, "");
const keyOf = (line: LogLine): string => `${line.kind} ${line.time} ${line.content}`;
