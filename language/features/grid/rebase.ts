import { linesOfText } from "../lines.ts";
import { type Refusal, refused, type TextEdit } from "./grid-model.ts";

/**
 * Edits that were made for an older text, for the one that stands now: each is moved along with its lines where they are as they were, and all
 * are refused where one of them is not. So nothing is written over another line.
 */
export function rebaseEdit(
  oldText: string,
  newText: string,
  edits: readonly TextEdit[],
): readonly TextEdit[] | Refusal {
  if (oldText === newText) return edits;
  const old = linesOfText(oldText);
  const fresh = linesOfText(newText);
  const place = matched(
    old.map(({ text }) => text),
    fresh.map(({ text }) => text),
  );
  const lineAt = (offset: number): number => {
    let low = 0;
    let high = old.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (old[middle]!.start <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  const made: TextEdit[] = [];
  for (const edit of edits) {
    const first = lineAt(edit.start);
    const last = lineAt(edit.end);
    // What is put in at the beginning of a line stands behind the line before it, too.
    const from = edit.start === old[first]!.start && first > 0 ? first - 1 : first;
    for (let line = from; line <= last; line++) {
      const now = place[line]!;
      if (now < 0 || (line > from && now !== place[line - 1]! + 1)) return changed;
    }
    const shift = (offset: number, line: number): number =>
      offset - old[line]!.start + fresh[place[line]!]!.start;
    const start = shift(edit.start, first);
    const end = shift(edit.end, last);
    // A line may have got another end.
    if (newText.slice(start, end) !== oldText.slice(edit.start, edit.end)) return changed;
    made.push({ start, end, text: edit.text });
  }
  return made;
}

const changed = refused(
  "this line was changed in the text meanwhile: nothing was written; look at it and type again",
);

/**
 * By old line the new one that it is; -1 where it is gone or changed. The lines that begin and end both texts alike, then those that stand once in
 * each, in order, and their neighbours (Cohen's patience diff, recalled): of lines that are alike none is taken for another across what changed.
 */
function matched(old: readonly string[], fresh: readonly string[]): Int32Array {
  const place = new Int32Array(old.length).fill(-1);
  const taken = new Uint8Array(fresh.length);
  let first = 0;
  const most = Math.min(old.length, fresh.length);
  while (first < most && old[first] === fresh[first]) place[first] = first++;
  let last = 0;
  while (last < most - first && old.at(-1 - last) === fresh.at(-1 - last)) {
    last++;
    place[old.length - last] = fresh.length - last;
  }
  const take = (a: number, b: number): boolean => {
    const [from, upTo] = [old.length - last, fresh.length - last];
    if (a < first || b < first || a >= from || b >= upTo) return false;
    if (old[a] !== fresh[b] || place[a] !== -1 || taken[b] === 1) return false;
    place[a] = b;
    taken[b] = 1;
    return true;
  };
  for (const [a, b] of inOrder(onceInBoth(old, fresh, first, last))) {
    let step = 0;
    while (take(a + step, b + step)) step++;
    step = 1;
    while (take(a - step, b - step)) step++;
  }
  // Of like lines under each other nobody can tell which one is gone, or which is new.
  for (let at = 0; at < old.length; at++) {
    const now = place[at]!;
    if (now >= 0 && old[at]!.trim() !== "" && runAt(old, at) !== runAt(fresh, now)) place[at] = -1;
  }
  return place;
}

/** How many like lines stand under each other at a place. */
function runAt(lines: readonly string[], at: number): number {
  let from = at;
  while (from > 0 && lines[from - 1] === lines[at]) from--;
  let to = at;
  while (to + 1 < lines.length && lines[to + 1] === lines[at]) to++;
  return to - from + 1;
}

/** Lines of the middle that stand once in each of the whole texts. */
function onceInBoth(
  old: readonly string[],
  fresh: readonly string[],
  first: number,
  last: number,
): [number, number][] {
  const count = (lines: readonly string[]): Map<string, number> => {
    const found = new Map<string, number>();
    for (const line of lines) found.set(line, (found.get(line) ?? 0) + 1);
    return found;
  };
  const [inOld, inFresh] = [count(old), count(fresh)];
  const at = new Map<string, number>();
  for (let line = first; line < fresh.length - last; line++) at.set(fresh[line]!, line);
  const anchors: [number, number][] = [];
  for (let line = first; line < old.length - last; line++) {
    const text = old[line]!;
    const now = at.get(text);
    if (text.trim() !== "" && inOld.get(text) === 1 && inFresh.get(text) === 1 && now !== undefined)
      anchors.push([line, now]);
  }
  return anchors;
}

/** The longest run of anchors that go up in both texts. */
function inOrder(anchors: readonly [number, number][]): [number, number][] {
  const tails: number[] = [];
  const before = new Int32Array(anchors.length).fill(-1);
  anchors.forEach(([, now], at) => {
    let low = 0;
    let high = tails.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (anchors[tails[middle]!]![1] < now) low = middle + 1;
      else high = middle;
    }
    before[at] = low > 0 ? tails[low - 1]! : -1;
    tails[low] = at;
  });
  const run: [number, number][] = [];
  for (let at = tails.at(-1) ?? -1; at >= 0; at = before[at]!) run.push(anchors[at]!);
  return run.reverse();
}
