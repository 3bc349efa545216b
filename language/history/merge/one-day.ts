import { fill } from "../fill.ts";
import { type LogBlock, type LogLine, linesOfBlock } from "../log-lines.ts";
import { carried } from "./carried.ts";
import { type Element, saidOfAll } from "./elements.ts";
import { readRound } from "./table.ts";
import { type Counts, leftOf, thingsOf } from "./things.ts";
import type { Strand } from "./weave.ts";

/**
 * A date may head several blocks, and a block have several rounds. What both sides added stands once in the result, though each put it into
 * another of them.
 */

/** Strands of the blocks of a log, without the lines of a date that would stand twice. @param made gets rows that lost a cell */
export function onceADay(
  strands: readonly Strand<LogBlock>[],
  base: readonly LogBlock[],
  made: string[],
): readonly Strand<LogBlock>[] {
  const all = withGone(strands, base);
  const days = new Map<string, number[]>();
  all.forEach((strand, at) => {
    const { kind, name } = anyOf(strand);
    if (kind === "day") fill(days, [at], () => name);
  });
  return once(all, days.values(), ofBlocks, made);
}

/** Strands of one block, without the rows of its rounds that would stand twice. */
export function onceInRounds(
  strands: readonly Strand<Element>[],
  base: readonly Element[],
  made: string[],
): readonly Strand<Element>[] {
  const all = withGone(strands, base);
  const rounds = [...all.keys()].filter((at) => anyOf(all[at]!).line.kind === "sheet");
  return once(all, [rounds], ofRounds, made);
}

/** With what neither side has any more: its lines may stand elsewhere. */
function withGone<Item>(strands: readonly Strand<Item>[], base: readonly Item[]): readonly Strand<Item>[] {
  const isLeft = new Set(strands.map((strand) => strand.base));
  const gone = base.filter((item) => !isLeft.has(item));
  return [...strands, ...gone.map((item) => ({ base: item, ours: undefined, theirs: undefined }))];
}

const anyOf = <Item>({ base, ours, theirs }: Strand<Item>): Item => (ours ?? theirs ?? base)!;

/** What strands are of. */
interface Kind<Item> {
  /** All an item says. */
  readonly textOf: (item: Item) => string;
  /** With what a side carried from one strand to another there in all versions. */
  readonly carried: (strands: readonly Strand<Item>[]) => readonly Strand<Item>[];
  readonly linesOf: (item: Item) => readonly LogLine[];
  /** An item that lacks some lines, the last first; undefined if nothing is left of it and it is on one side alone. */
  readonly without: (item: Item, drop: Counts, isAlone: boolean, made: string[]) => Item | undefined;
}

/** @param together the places of strands that say things of one day */
function once<Item>(
  strands: readonly Strand<Item>[],
  together: Iterable<readonly number[]>,
  kind: Kind<Item>,
  made: string[],
): readonly Strand<Item>[] {
  const result = [...strands];
  const textOf = (item: Item | undefined): string | undefined => item && kind.textOf(item);
  for (const places of together) {
    // What only one side touched cannot stand twice.
    const isOneSided = (side: "ours" | "theirs") =>
      places.every((at) => textOf(strands[at]![side]) === textOf(strands[at]!.base));
    if (places.length < 2 || isOneSided("ours") || isOneSided("theirs")) continue;
    const left = dropped(kind.carried(places.map((at) => strands[at]!)), kind, made);
    places.forEach((at, index) => {
      result[at] = left[index]!;
    });
  }
  return result.filter(({ ours, theirs }) => (ours ?? theirs) !== undefined);
}

function dropped<Item>(
  strands: readonly Strand<Item>[],
  { linesOf, without }: Kind<Item>,
  made: string[],
): readonly Strand<Item>[] {
  const told = (item: Item | undefined): Told => toldBy(item === undefined ? [] : linesOf(item));
  const all = strands.map(({ base, ours, theirs }) => ({
    base: told(base),
    ours: { ...told(ours), drop: new Map() as Counts },
    theirs: { ...told(theirs), drop: new Map() as Counts },
  }));
  for (const said of new Set(
    all.flatMap(({ ours, theirs }) => [...ours.times.keys(), ...theirs.times.keys()]),
  )) {
    const each = all.map(({ base, ours, theirs }): Times => {
      const [old, own, other] = [base, ours, theirs].map(({ times }) => times.get(said) ?? 0);
      return [old!, own!, other!];
    });
    const sum = each.reduce<Times>(([b, o, t], of) => [b + of[0], o + of[1], t + of[2]], [0, 0, 0]);
    let surplus = each.reduce((total, times) => total + countAfter(times), 0) - countAfter(sum);
    if (surplus <= 0) continue;
    // What only one side put there: first where it stands most alone, the last first, so that the sides can be swapped.
    const added = all.flatMap(({ ours, theirs }, at) => {
      const [base, own, other] = each[at]!;
      return [
        { at, side: ours, more: own - Math.max(base, other) },
        { at, side: theirs, more: other - Math.max(base, own) },
      ];
    });
    const beside = ({ side }: (typeof added)[number]): number => side.beside.get(said) ?? 0;
    for (const one of added.reverse().sort((a, b) => beside(a) - beside(b))) {
      const out = Math.min(surplus, one.more, countAfter(each[one.at]!));
      if (out <= 0) continue;
      one.side.drop.set(said, out);
      surplus -= out;
    }
  }
  return strands.map(({ base, ours, theirs }, at) => {
    const left = (item: Item | undefined, drop: Counts, other: Item | undefined): Item | undefined =>
      item && (drop.size === 0 ? item : without(item, drop, (base ?? other) === undefined, made));
    return {
      base,
      ours: left(ours, all[at]!.ours.drop, theirs),
      theirs: left(theirs, all[at]!.theirs.drop, ours),
    };
  });
}

type Times = readonly [base: number, ours: number, theirs: number];

/** How often something stands in the result that stood so often in the three versions. */
function countAfter([base, ours, theirs]: Times): number {
  const [a, b] = [ours - base, theirs - base];
  if (a * b <= 0) return base + a + b;
  return base + (a > 0 ? Math.max(a, b) : Math.min(a, b));
}

/** What an item says, with how much the line says that says it. */
interface Told {
  readonly times: Counts;
  readonly beside: ReadonlyMap<string, number>;
}

function toldBy(lines: readonly LogLine[]): Told {
  const [times, beside]: [Counts, Counts] = [new Map(), new Map()];
  for (const things of lines.map(thingsOf))
    for (const said of things) {
      times.set(said, (times.get(said) ?? 0) + 1);
      beside.set(said, Math.max(things.length, beside.get(said) ?? 0));
    }
  return { times, beside };
}

function withoutRows(round: Element, drop: Counts, isAlone: boolean, made: string[]): Element | undefined {
  const rows = round.rows.toReversed().flatMap((row) => {
    const left = leftOf(row, drop);
    if (left === undefined || left === row) return left ?? [];
    made.push(left.text);
    return { ...readRound([round.line.text, left.text])[1]!, eol: row.eol, minute: row.minute };
  });
  return isAlone && rows.length === 0 ? undefined : { line: round.line, rows: rows.reverse() };
}

function withoutLines(block: LogBlock, drop: Counts, isAlone: boolean, made: string[]): LogBlock | undefined {
  const kept: LogLine[] = [];
  let [rows, rowsBefore] = [0, 0];
  for (const line of linesOfBlock(block).reverse()) {
    const left = leftOf(line, drop);
    if (line.kind === "row") {
      rowsBefore++;
      if (left !== undefined) rows++;
    }
    // Heads without a row left go with them.
    const isBare = line.kind === "sheet" && rowsBefore > 0 && rows === 0;
    if (line.kind !== "row")
      [rows, rowsBefore] = line.kind === "comment" || line.kind === "blank" ? [rows, rowsBefore] : [0, 0];
    if (left === undefined || isBare) continue;
    kept.push(left);
    if (left !== line) made.push(left.text);
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

const ofBlocks: Kind<LogBlock> = {
  textOf: ({ text }) => text,
  carried,
  linesOf: linesOfBlock,
  without: withoutLines,
};

const ofRounds: Kind<Element> = {
  textOf: saidOfAll,
  carried: (strands) => strands,
  linesOf: ({ rows }) => rows,
  without: withoutRows,
};
