import { nextLine } from "../syntax/blocks.ts";
import { readDay } from "./day.ts";
import { Col, type Facts, floatsPerRow, intsPerRow } from "./facts.ts";

/** A day of which another state is read already: the lines that both begin and end with are not read again. */

/** What is known of the other state. */
export interface ReadDay {
  readonly text: string;
  readonly facts: Facts;
}

/** The same as `readDay` of the text. Where lines hang on others, by a time or as rows of a round, and where something is wrong, all is read. */
export function readDayLike(text: string, known: ReadDay): Facts {
  const { facts } = known;
  const head = nextLine(text, 0);
  const isSameHead = known.text.startsWith(text.slice(0, head)) && nextLine(known.text, 0) === head;
  if (!isSameHead || facts.problems.length > 0 || !standAlone(text) || !standAlone(known.text))
    return readDay(text);
  const [begin, end] = inCommon(known.text, text);
  const middle = readDay(text.slice(0, head) + text.slice(begin, text.length - end));
  if (middle.problems.length > 0) return readDay(text);
  const first = rowsBefore(facts, begin);
  const last = rowsBefore(facts, known.text.length - end);
  return joined([
    { facts, from: 0, to: first, shift: 0 },
    { facts: middle, from: 0, to: middle.count, shift: begin - head },
    { facts, from: last, to: facts.count, shift: text.length - known.text.length },
  ]);
}

/** Whether no line of a day says when the ones below were, none stands further in than others, and each ends in a line feed. */
function standAlone(text: string): boolean {
  if (text.includes("\r") && /\r(?!\n)/.test(text)) return false;
  let indent = -1;
  for (let line = nextLine(text, 0); line < text.length; line = lineEnd(text, line)) {
    let at = line;
    while (text.charCodeAt(at) === 0x20) at++;
    const code = text.charCodeAt(at);
    if (Number.isNaN(code) || code === 0x0a || code === 0x0d || code === 0x23) continue;
    const isDigit = code >= 0x30 && code <= 0x39;
    if (at === line || isDigit || code === 0x09 || (indent >= 0 && at - line !== indent)) return false;
    indent = at - line;
  }
  return true;
}

function lineEnd(text: string, from: number): number {
  const feed = text.indexOf("\n", from);
  return feed < 0 ? text.length : feed + 1;
}

/** How much of whole lines two texts begin and end with. */
function inCommon(a: string, b: string): readonly [begin: number, end: number] {
  const most = Math.min(a.length, b.length);
  let begin = 0;
  while (begin < most && a.charCodeAt(begin) === b.charCodeAt(begin)) begin++;
  begin = b.lastIndexOf("\n", begin - 1) + 1;
  let end = 0;
  while (end < most - begin && a.charCodeAt(a.length - 1 - end) === b.charCodeAt(b.length - 1 - end)) end++;
  const line = b.indexOf("\n", b.length - end - 1);
  return [begin, line < 0 || end === 0 ? 0 : b.length - line - 1];
}

/** The rows of the lines above an offset. */
function rowsBefore({ ints, count }: Facts, offset: number): number {
  let [low, high] = [0, count];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ints[middle * intsPerRow + Col.start]! < offset) low = middle + 1;
    else high = middle;
  }
  return low;
}

interface Rows {
  readonly facts: Facts;
  readonly from: number;
  readonly to: number;
  /** What is to be added to where they stand. */
  readonly shift: number;
}

function joined(parts: readonly Rows[]): Facts {
  const count = parts.reduce((sum, { from, to }) => sum + to - from, 0);
  const ints = new Int32Array(count * intsPerRow);
  const floats = new Float64Array(count * floatsPerRow);
  let row = 0;
  for (const { facts, from, to, shift } of parts) {
    ints.set(facts.ints.subarray(from * intsPerRow, to * intsPerRow), row * intsPerRow);
    floats.set(facts.floats.subarray(from * floatsPerRow, to * floatsPerRow), row * floatsPerRow);
    for (const end = row + to - from; row < end; row++) {
      ints[row * intsPerRow + Col.start]! += shift;
      ints[row * intsPerRow + Col.end]! += shift;
    }
  }
  return { count, ints, floats, problems: [] };
}
