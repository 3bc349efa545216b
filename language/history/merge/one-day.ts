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

/** Strands of one date, without the lines of theirs that would stand twice. */
export function onceADay(strands: readonly Strand<LogBlock>[]): Strand<LogBlock>[] {
  const days = new Map<string, number[]>();
  strands.forEach(({ base, ours, theirs }, at) => {
    const { kind, name } = (ours ?? theirs ?? base)!;
    if (kind === "day") fill(days, [at], () => name);
  });
  const result: (Strand<LogBlock> | undefined)[] = [...strands];
  for (const places of days.values()) {
    // What only one side touched cannot stand twice.
    const isOneSided = (side: "ours" | "theirs") =>
      places.every((at) => strands[at]![side]?.text === strands[at]!.base?.text);
    if (places.length < 2 || isOneSided("ours") || isOneSided("theirs")) continue;
    const left = dropped(
      places.map((at) => strands[at]!),
      countsOf,
      without,
    );
    places.forEach((at, index) => {
      result[at] = left[index];
    });
  }
  return result.filter((each) => each !== undefined);
}

/** Strands of one block, without the rows of its rounds that would stand twice. */
export function onceInRounds(strands: readonly Strand<Element>[]): readonly Strand<Element>[] {
  const places = [...strands.keys()].filter(
    (at) => (strands[at]!.ours ?? strands[at]!.theirs ?? strands[at]!.base)!.line.kind === "sheet",
  );
  const said = (element: Element | undefined): string => (element === undefined ? "" : saidOfAll(element));
  const isOneSided = (side: "ours" | "theirs") =>
    places.every((at) => said(strands[at]![side]) === said(strands[at]!.base));
  if (places.length < 2 || isOneSided("ours") || isOneSided("theirs")) return strands;
  const left = dropped(
    places.map((at) => strands[at]!),
    rowCounts,
    withoutRows,
  );
  const result: (Strand<Element> | undefined)[] = [...strands];
  places.forEach((at, index) => {
    result[at] = left[index];
  });
  return result.filter((each) => each !== undefined);
}

function dropped<Item>(
  strands: readonly Strand<Item>[],
  countsOf: (item: Item | undefined) => Counts,
  without: (item: Item | undefined, drop: Counts, isAlone: boolean) => Item | undefined,
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

/** Lines of a block by what they say; rows with their heads. */
function countsOf(block: LogBlock | undefined): Counts {
  const found: Counts = new Map();
  for (const line of block === undefined ? [] : linesOfBlock(block))
    if (isTold(line)) found.set(saidOf(line), (found.get(saidOf(line)) ?? 0) + 1);
  return found;
}

function rowCounts(round: Element | undefined): Counts {
  const found: Counts = new Map();
  for (const line of round?.rows ?? [])
    if (line.kind === "row") found.set(saidOf(line), (found.get(saidOf(line)) ?? 0) + 1);
  return found;
}

/** A round that lacks some rows, the last first; undefined if none is left and it is on one side alone. */
function withoutRows(round: Element | undefined, drop: Counts, isAlone: boolean): Element | undefined {
  if (drop.size === 0 || round === undefined) return round;
  const kept = [...round.rows].reverse().filter((line) => {
    const left = line.kind === "row" ? (drop.get(saidOf(line)) ?? 0) : 0;
    if (left > 0) drop.set(saidOf(line), left - 1);
    return left === 0;
  });
  if (isAlone && kept.length === 0) return undefined;
  return { line: round.line, rows: kept.reverse() };
}

const isTold = ({ kind }: LogLine): boolean => kind === "entry" || kind === "row" || kind === "unread";

/** A block that lacks some lines, the last first; undefined if nothing is left of it and it is on one side alone. */
function without(block: LogBlock | undefined, drop: Counts, isAlone: boolean): LogBlock | undefined {
  if (drop.size === 0 || block === undefined) return block;
  const kept: LogLine[] = [];
  let [rows, rowsBefore] = [0, 0];
  for (const line of linesOfBlock(block).reverse()) {
    const left = isTold(line) ? (drop.get(saidOf(line)) ?? 0) : 0;
    if (left > 0) drop.set(saidOf(line), left - 1);
    if (line.kind === "row") {
      rowsBefore++;
      if (left === 0) rows++;
    }
    // Heads without a row left go with them.
    const isBare = line.kind === "sheet" && rowsBefore > 0 && rows === 0;
    if (line.kind !== "row")
      [rows, rowsBefore] = line.kind === "comment" || line.kind === "blank" ? [rows, rowsBefore] : [0, 0];
    if (left === 0 && !isBare) kept.push(line);
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
