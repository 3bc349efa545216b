import { fill } from "../fill.ts";
import { type LogBlock, type LogLine, linesOfBlock } from "../log-lines.ts";
import { type Element, saidOfAll } from "./elements.ts";
import { saidOf } from "./merge-line.ts";
import type { Strand } from "./weave.ts";

/**
 * A date may head several blocks, and a block have several rounds. What both sides added stands once in the result, though each put it into
 * another of them.
 */

type Counts = Map<string, number>;

/** Strands of the blocks of a log, without the lines of a date that would stand twice. */
export function onceADay(strands: readonly Strand<LogBlock>[]): readonly Strand<LogBlock>[] {
  const days = new Map<string, number[]>();
  strands.forEach((strand, at) => {
    const { kind, name } = anyOf(strand);
    if (kind === "day") fill(days, [at], () => name);
  });
  return once(strands, days.values(), ({ text }) => text, linesOfBlock, without);
}

/** Strands of one block, without the rows of its rounds that would stand twice. */
export function onceInRounds(strands: readonly Strand<Element>[]): readonly Strand<Element>[] {
  const rounds = [...strands.keys()].filter((at) => anyOf(strands[at]!).line.kind === "sheet");
  return once(strands, [rounds], saidOfAll, ({ rows }) => rows, withoutRows);
}

const anyOf = <Item>({ base, ours, theirs }: Strand<Item>): Item => (ours ?? theirs ?? base)!;

/** @param together the places of strands that say things of one day */
function once<Item>(
  strands: readonly Strand<Item>[],
  together: Iterable<readonly number[]>,
  textOf: (item: Item) => string,
  linesOf: (item: Item) => readonly LogLine[],
  without: Without<Item>,
): readonly Strand<Item>[] {
  const result: (Strand<Item> | undefined)[] = [...strands];
  const isSame = (a: Item | undefined, b: Item | undefined): boolean => (a && textOf(a)) === (b && textOf(b));
  for (const places of together) {
    // What only one side touched cannot stand twice.
    const isOneSided = (side: "ours" | "theirs") =>
      places.every((at) => isSame(strands[at]![side], strands[at]!.base));
    if (places.length < 2 || isOneSided("ours") || isOneSided("theirs")) continue;
    const counts = (item: Item | undefined): Counts => countsOf(item === undefined ? [] : linesOf(item));
    const left = dropped(
      places.map((at) => strands[at]!),
      counts,
      without,
    );
    places.forEach((at, index) => {
      result[at] = left[index];
    });
  }
  return result.filter((each) => each !== undefined);
}

/** An item that lacks some lines, the last first; undefined if nothing is left of it and it is on one side alone. */
type Without<Item> = (item: Item | undefined, drop: Counts, isAlone: boolean) => Item | undefined;

function dropped<Item>(
  strands: readonly Strand<Item>[],
  countsOf: (item: Item | undefined) => Counts,
  without: Without<Item>,
): (Strand<Item> | undefined)[] {
  const counts = strands.map(({ base, ours, theirs }) => [base, ours, theirs].map(countsOf));
  const keys = new Set(counts.flatMap(([, ours, theirs]) => [...ours!.keys(), ...theirs!.keys()]));
  const [fromOurs, fromTheirs] = [strands.map((): Counts => new Map()), strands.map((): Counts => new Map())];
  for (const key of keys) {
    const each = counts.map(
      (versions) => versions.map((found) => found.get(key) ?? 0) as [number, number, number],
    );
    const sum = each.reduce<Times>(([b, o, t], of) => [b + of[0], o + of[1], t + of[2]], [0, 0, 0]);
    let surplus = each.reduce((all, times) => all + countAfter(times), 0) - countAfter(sum);
    // What only one side put there, the last first, so that the sides can be swapped.
    for (let at = each.length - 1; at >= 0; at--)
      for (const [drop, other] of [[fromTheirs, 1] as const, [fromOurs, 2] as const]) {
        const times = each[at]!;
        const more = times[other === 1 ? 2 : 1] - Math.max(times[0], times[other]);
        const own = Math.min(surplus, more, countAfter(times));
        if (own <= 0) continue;
        drop[at]!.set(key, own);
        surplus -= own;
      }
  }
  return strands.map(({ base, ours, theirs }, at) => {
    const own = without(ours, fromOurs[at]!, base === undefined && theirs === undefined);
    const other = without(theirs, fromTheirs[at]!, base === undefined && ours === undefined);
    return (base ?? own ?? other) ? { base, ours: own, theirs: other } : undefined;
  });
}

type Times = readonly [base: number, ours: number, theirs: number];

/** How often something stands in the result that stood so often in the three versions. */
function countAfter([base, ours, theirs]: Times): number {
  const [a, b] = [ours - base, theirs - base];
  if (a * b <= 0) return base + a + b;
  return base + (a > 0 ? Math.max(a, b) : Math.min(a, b));
}

/** Lines by what they say; rows with their heads. */
function countsOf(lines: readonly LogLine[]): Counts {
  const found: Counts = new Map();
  for (const line of lines) if (isTold(line)) found.set(saidOf(line), (found.get(saidOf(line)) ?? 0) + 1);
  return found;
}

/** Whether a line is to be left out; then one less is. */
function isDropped(line: LogLine, drop: Counts): boolean {
  const left = isTold(line) ? (drop.get(saidOf(line)) ?? 0) : 0;
  if (left > 0) drop.set(saidOf(line), left - 1);
  return left > 0;
}

function withoutRows(round: Element | undefined, drop: Counts, isAlone: boolean): Element | undefined {
  if (drop.size === 0 || round === undefined) return round;
  const kept = [...round.rows].reverse().filter((line) => !isDropped(line, drop));
  return isAlone && kept.length === 0 ? undefined : { line: round.line, rows: kept.reverse() };
}

const isTold = ({ kind }: LogLine): boolean => kind === "entry" || kind === "row" || kind === "unread";

function without(block: LogBlock | undefined, drop: Counts, isAlone: boolean): LogBlock | undefined {
  if (drop.size === 0 || block === undefined) return block;
  const kept: LogLine[] = [];
  let [rows, rowsBefore] = [0, 0];
  for (const line of linesOfBlock(block).reverse()) {
    const isOut = isDropped(line, drop);
    if (line.kind === "row") {
      rowsBefore++;
      if (!isOut) rows++;
    }
    // Heads without a row left go with them.
    const isBare = line.kind === "sheet" && rowsBefore > 0 && rows === 0;
    if (line.kind !== "row")
      [rows, rowsBefore] = line.kind === "comment" || line.kind === "blank" ? [rows, rowsBefore] : [0, 0];
    if (!isOut && !isBare) kept.push(line);
  }
  const isEmpty = kept.every(
    ({ kind, note, comment }) => kind === "blank" || (kind === "head" && note === "" && comment === ""),
  );
  if (isEmpty && isAlone) return undefined;
  const text = kept
    .reverse()
    .map((line) => line.text + line.eol)
    .join("");
  return { ...block, text };
}
