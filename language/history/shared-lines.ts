import { align } from "./align.ts";
import type { LogBlock, SharedStretch } from "./log-lines.ts";
import { paused, type Steps } from "./steps.ts";

/**
 * Days of which only some lines are others: what stands on both sides, letter for letter, is told by its text and never read. A line below
 * a comment that is another is read all the same, as the comment is told of it.
 */

/**
 * @param old blocks that are not the same on both sides; days that stand once in a file, before and after, are looked at
 * @param atOnce so many days between two pauses
 */
export function* sharedLines(
  old: Iterable<LogBlock>,
  fresh: Iterable<LogBlock>,
  atOnce: number,
): Steps<Map<LogBlock, readonly SharedStretch[]>> {
  const [was, now] = [onlyDays(old), onlyDays(fresh)];
  const found = new Map<LogBlock, readonly SharedStretch[]>();
  yield* paused(now, atOnce, ([name, after]) => {
    const before = was.get(name);
    if (before === undefined || after === undefined) return;
    const pairs = sharedPairs(before.text, after.text);
    if (pairs.length === 0) return;
    const key = (at: number): string => `${name} ${at}`;
    found.set(
      before,
      pairs.map(({ before: [start, end], lines }, at) => ({ start, end, lines, key: key(at) })),
    );
    found.set(
      after,
      pairs.map(({ after: [start, end], lines }, at) => ({ start, end, lines, key: key(at) })),
    );
  });
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
  if (!isFlat(a) || !isFlat(b)) return [];
  const pairs: SharedPair[] = [];
  const add = (from: number, to: number, length: number, lines: number): void => {
    const last = pairs.at(-1);
    if (last !== undefined && last.before[1] === from && last.after[1] === to)
      pairs[pairs.length - 1] = {
        before: [last.before[0], from + length],
        after: [last.after[0], to + length],
        lines: last.lines + lines,
      };
    else if (length > 0) pairs.push({ before: [from, from + length], after: [to, to + length], lines });
  };
  const [headA, headB] = [lineEnd(a, 0), lineEnd(b, 0)];
  const { begin, end } = inCommon(a, headA, b, headB);
  add(headA, headB, begin, feedsIn(a, headA, headA + begin));
  const old = linesIn(a, headA + begin, a.length - end);
  const fresh = linesIn(b, headB + begin, b.length - end);
  const [isShared, isAlso] = [new Set<number>(), new Set<number>()];
  for (const [one, two] of align(old.texts, fresh.texts)) {
    if (isLoose(old.texts, one - 1, isShared) || isLoose(fresh.texts, two - 1, isAlso)) continue;
    isShared.add(one);
    isAlso.add(two);
    add(old.starts[one]!, fresh.starts[two]!, old.texts[one]!.length, 1);
  }
  // What follows a comment that is another is read with it, down to the first line that says something.
  let tail = end;
  if (
    isLoose(old.texts, old.texts.length - 1, isShared) ||
    isLoose(fresh.texts, fresh.texts.length - 1, isAlso)
  )
    for (let isRead = false; tail > 0 && !isRead; ) {
      const line = a.slice(a.length - tail, lineEnd(a, a.length - tail));
      isRead = !loose.test(line);
      tail -= line.length;
    }
  add(a.length - tail, b.length - tail, tail, feedsIn(a, a.length - tail, a.length));
  return pairs;
}

const loose = /^\s*(?:#|$)/;

/** A comment or a blank line that is not on both sides. */
const isLoose = (texts: readonly string[], at: number, isShared: ReadonlySet<number>): boolean =>
  at >= 0 && !isShared.has(at) && loose.test(texts[at]!);

/** How much of whole lines two texts have in common at the beginning, from an offset of each on, and at the end. */
function inCommon(a: string, fromA: number, b: string, fromB: number): { begin: number; end: number } {
  const most = Math.min(a.length - fromA, b.length - fromB);
  let begin = 0;
  while (begin < most && a.charCodeAt(fromA + begin) === b.charCodeAt(fromB + begin)) begin++;
  begin = begin === 0 ? 0 : Math.max(0, a.lastIndexOf("\n", fromA + begin - 1) + 1 - fromA);
  let end = 0;
  while (end < most - begin && a.charCodeAt(a.length - 1 - end) === b.charCodeAt(b.length - 1 - end)) end++;
  // A line that is cut in two is none that both have.
  const feed = end === 0 ? -1 : a.indexOf("\n", a.length - end - 1);
  return { begin, end: feed < 0 ? 0 : a.length - feed - 1 };
}

function feedsIn(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = from; at < to; at = lineEnd(text, at)) count++;
  return count;
}

function linesIn(text: string, from: number, to: number): { texts: string[]; starts: number[] } {
  const texts: string[] = [];
  const starts: number[] = [];
  for (let at = from; at < to; ) {
    const end = lineEnd(text, at);
    texts.push(text.slice(at, end));
    starts.push(at);
    at = end;
  }
  return { texts, starts };
}

/** Where lines end in line feeds alone, or with a return before each. */
function lineEnd(text: string, from: number): number {
  const feed = text.indexOf("\n", from);
  return feed < 0 ? text.length : feed + 1;
}

/** Whether all lines below the head that say something are indented alike, by spaces, and end in line feeds. */
function isFlat(text: string): boolean {
  let indent = -1;
  for (let line = lineEnd(text, 0); line < text.length; line = lineEnd(text, line)) {
    let at = line;
    while (text.charCodeAt(at) === 0x20) at++;
    const code = text.charCodeAt(at);
    if (Number.isNaN(code) || code === 0x0a || code === 0x0d || code === 0x23) continue;
    if (code === 0x09 || (indent >= 0 && at - line !== indent)) return false;
    indent = at - line;
  }
  return !text.includes("\r") || !/\r(?!\n)/.test(text);
}
