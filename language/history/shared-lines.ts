import { nextLine } from "../syntax/blocks.ts";
import { align } from "./align.ts";
import type { LogBlock, SharedStretch } from "./log-lines.ts";

/**
 * Days of which only some lines are others: what stands on both sides, letter for letter, is told by its text and never read. A line below
 * a comment that is another is read all the same, as the comment is told of it.
 */

/** @param old blocks that are not the same on both sides; days that stand once in a file, before and after, are looked at */
export function sharedLines(
  old: Iterable<LogBlock>,
  fresh: Iterable<LogBlock>,
): Map<LogBlock, readonly SharedStretch[]> {
  const [was, now] = [onlyDays(old), onlyDays(fresh)];
  const found = new Map<LogBlock, readonly SharedStretch[]>();
  for (const [name, after] of now) {
    const before = was.get(name);
    if (before === undefined || after === undefined) continue;
    const pairs = sharedPairs(before.text, after.text);
    if (pairs.length === 0) continue;
    const key = (at: number): string => `${name} ${at}`;
    found.set(
      before,
      pairs.map(({ before: [start, end], lines }, at) => ({ start, end, lines, key: key(at) })),
    );
    found.set(
      after,
      pairs.map(({ after: [start, end], lines }, at) => ({ start, end, lines, key: key(at) })),
    );
  }
  return found;
}

/** By file and date; undefined for a day of which a file has several. */
function onlyDays(blocks: Iterable<LogBlock>): Map<string, LogBlock | undefined> {
  const found = new Map<string, LogBlock | undefined>();
  for (const block of blocks) {
    if (block.kind !== "day") continue;
    const name = `${block.name} ${block.path}`;
    found.set(name, found.has(name) ? undefined : block);
  }
  return found;
}

interface SharedPair {
  readonly before: readonly [start: number, end: number];
  readonly after: readonly [start: number, end: number];
  readonly lines: number;
}

/** None where a line stands further in than others: it may belong to a round. Heads are read. */
function sharedPairs(a: string, b: string): SharedPair[] {
  const [old, fresh] = [flatLines(a), flatLines(b)];
  if (old === undefined || fresh === undefined) return [];
  const pairs: SharedPair[] = [];
  const [isShared, isAlso] = [new Set<number>(), new Set<number>()];
  for (const [one, two] of align(old.texts, fresh.texts)) {
    if (isLoose(old.texts, one - 1, isShared) || isLoose(fresh.texts, two - 1, isAlso)) continue;
    isShared.add(one);
    isAlso.add(two);
    const [before, after] = [placeOf(old, one), placeOf(fresh, two)];
    const last = pairs.at(-1);
    if (last !== undefined && last.before[1] === before[0] && last.after[1] === after[0])
      pairs[pairs.length - 1] = {
        before: [last.before[0], before[1]],
        after: [last.after[0], after[1]],
        lines: last.lines + 1,
      };
    else pairs.push({ before, after, lines: 1 });
  }
  return pairs;
}

/** A comment or a blank line that is not on both sides. */
const isLoose = (texts: readonly string[], at: number, isShared: ReadonlySet<number>): boolean =>
  at >= 0 && !isShared.has(at) && /^\s*(?:#|$)/.test(texts[at]!);

interface Lines {
  readonly texts: readonly string[];
  readonly starts: readonly number[];
}

const placeOf = ({ texts, starts }: Lines, at: number): readonly [number, number] => [
  starts[at]!,
  starts[at]! + texts[at]!.length,
];

/** The lines below a head with their ends; undefined unless all that say something are indented alike, by spaces. */
function flatLines(text: string): Lines | undefined {
  const texts: string[] = [];
  const starts: number[] = [];
  let indent = -1;
  for (let line = nextLine(text, 0); line < text.length; ) {
    const end = nextLine(text, line);
    let at = line;
    while (text.charCodeAt(at) === 0x20) at++;
    const code = text.charCodeAt(at);
    if (!(Number.isNaN(code) || code === 0x0a || code === 0x0d || code === 0x23)) {
      if (code === 0x09 || (indent >= 0 && at - line !== indent)) return undefined;
      indent = at - line;
    }
    texts.push(text.slice(line, end));
    starts.push(line);
    line = end;
  }
  return { texts, starts };
}
