import { blocksOf, type LogBlock } from "../log-lines.ts";
import type { LogText } from "../match-lines.ts";

/**
 * Days of which only some lines are others, without what they have in common at their beginning and end: there stands white space of the
 * same length, so that every offset and line number is still true, and nothing is read of it.
 */
export interface Shortened {
  readonly before: readonly LogText[];
  readonly after: readonly LogText[];
  /** What was taken out, on both sides. */
  readonly common: readonly Common[];
}

/** A stretch that is the same on both sides. Offsets in the files. */
export interface Common {
  readonly path: string;
  readonly before: number;
  readonly after: number;
  readonly length: number;
}

/** @param before files of which each stands on the other side too under its path, or not at all */
export function shortened(before: readonly LogText[], after: readonly LogText[]): Shortened {
  const was = new Map(before.map((file) => [file.path, file]));
  const common: Common[] = [];
  const cut = new Map<string, string>();
  const fresh = after.map((file) => {
    const old = was.get(file.path);
    if (old === undefined) return file;
    const pairs = daysOfBoth(blocksOf(old.text), blocksOf(file.text));
    const [oldParts, newParts]: [Stretch[], Stretch[]] = [[], []];
    for (const [a, b] of pairs) {
      for (const { from, to, length } of commonLines(a.text, b.text)) {
        common.push({ path: file.path, before: a.start + from, after: b.start + to, length });
        oldParts.push({ start: a.start + from, length });
        newParts.push({ start: b.start + to, length });
      }
    }
    cut.set(file.path, blanked(old.text, oldParts));
    return { path: file.path, text: blanked(file.text, newParts) };
  });
  return {
    before: before.map(({ path, text }) => ({ path, text: cut.get(path) ?? text })),
    after: fresh,
    common,
  };
}

/** Days that stand once on each side, and say something else there. */
function daysOfBoth(was: readonly LogBlock[], now: readonly LogBlock[]): [LogBlock, LogBlock][] {
  const [old, fresh] = [once(was), once(now)];
  return [...fresh].flatMap(([name, b]): [LogBlock, LogBlock][] => {
    const a = old.get(name);
    return a === undefined || b === undefined || a.text === b.text ? [] : [[a, b]];
  });
}

function once(blocks: readonly LogBlock[]): Map<string, LogBlock | undefined> {
  const found = new Map<string, LogBlock | undefined>();
  for (const block of blocks)
    if (block.kind === "day") found.set(block.name, found.has(block.name) ? undefined : block);
  return found;
}

interface Alike {
  readonly from: number;
  readonly to: number;
  readonly length: number;
}

/** Whole lines that two days begin and end with, their heads left out. None where a line stands further in: it may belong to a round. */
function commonLines(a: string, b: string): Alike[] {
  const headA = lineEnd(a, 0);
  const headB = lineEnd(b, 0);
  if (!isFlat(a, headA) || !isFlat(b, headB)) return [];
  const most = Math.min(a.length - headA, b.length - headB);
  let begin = 0;
  while (begin < most && a.charCodeAt(headA + begin) === b.charCodeAt(headB + begin)) begin++;
  begin = begin === 0 ? 0 : a.lastIndexOf("\n", headA + begin - 1) + 1 - headA;
  if (begin < 0) begin = 0;
  let end = 0;
  while (end < most - begin && a.charCodeAt(a.length - 1 - end) === b.charCodeAt(b.length - 1 - end)) end++;
  // A line that is cut in two is none that both have.
  const tail = end === 0 ? -1 : a.indexOf("\n", a.length - end - 1);
  end = tail < 0 ? 0 : a.length - tail - 1;
  const found: Alike[] = [];
  if (begin > 0) found.push({ from: headA, to: headB, length: begin });
  if (end > 0) found.push({ from: a.length - end, to: b.length - end, length: end });
  return found;
}

function lineEnd(text: string, from: number): number {
  const feed = text.indexOf("\n", from);
  return feed < 0 ? text.length : feed + 1;
}

/** Whether all lines that say something are indented alike, and end in line feeds alone or with a return before each. */
function isFlat(text: string, from: number): boolean {
  let indent = -1;
  for (let line = from; line < text.length; line = lineEnd(text, line)) {
    let at = line;
    while (text.charCodeAt(at) === 0x20) at++;
    const code = text.charCodeAt(at);
    if (Number.isNaN(code) || code === 0x0a || code === 0x0d || code === 0x23) continue;
    if (code === 0x09 || (indent >= 0 && at - line !== indent)) return false;
    indent = at - line;
  }
  return !/\r(?!\n)/.test(text);
}

interface Stretch {
  readonly start: number;
  readonly length: number;
}

/** A text with white space in place of some stretches, its line ends kept. */
function blanked(text: string, stretches: readonly Stretch[]): string {
  if (stretches.length === 0) return text;
  const parts: string[] = [];
  let at = 0;
  for (const { start, length } of [...stretches].sort((a, b) => a.start - b.start)) {
    parts.push(text.slice(at, start), text.slice(start, start + length).replace(/[^\r\n]+/g, blank));
    at = start + length;
  }
  parts.push(text.slice(at));
  return parts.join("");
}

const blank = (line: string): string => " ".repeat(line.length);
