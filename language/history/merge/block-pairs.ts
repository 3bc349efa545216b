import { align } from "../align.ts";
import { fill } from "../fill.ts";
import type { LogBlock } from "../log-lines.ts";
import type { Side } from "./weave.ts";

/** Which blocks of two versions of a log are the same. */

export function sideOf(base: readonly LogBlock[], items: readonly LogBlock[]): Side<LogBlock> {
  const origin = new Int32Array(items.length).fill(-1);
  const isTaken = new Uint8Array(base.length);
  const isSame = new Uint8Array(items.length);
  const pair = (from: number, to: number): void => {
    origin[to] = from;
    isTaken[from] = 1;
  };
  // A head alone is like any other of its day: that it is the same says nothing.
  const pairs = align(
    base.map((block, at) => (bodyOf(block) === "" ? `base ${at}` : block.text)),
    items.map((block, at) => (bodyOf(block) === "" ? `item ${at}` : block.text)),
  );
  for (const [from, to] of pairs) {
    pair(from, to);
    isSame[to] = 1;
  }
  // By what they are, then, for what has another date or name now, by what is in them.
  for (const key of [nameOf, bodyOf])
    pairByKey(
      base,
      items,
      (at) => isTaken[at] === 0,
      (at) => origin[at]! < 0,
      key,
      pair,
    );
  const isInPlace = (at: number): boolean => {
    let before = at - 1;
    while (before >= 0 && isSame[before] === 0) before--;
    let next = at + 1;
    while (next < items.length && isSame[next] === 0) next++;
    const top = next < items.length ? origin[next]! : base.length;
    return origin[at]! > (before < 0 ? -1 : origin[before]!) && origin[at]! < top;
  };
  return { items, origin, isMoved: (at) => isSame[at] === 0 && !isInPlace(at), tail: items.length };
}

/** Blocks that both added: the same day, the same definition. By index of theirs the index of ours; -1 for none. */
export function twinsOf(ours: Side<LogBlock>, theirs: Side<LogBlock>): Int32Array {
  const found = new Int32Array(theirs.items.length).fill(-1);
  const isFree = Uint8Array.from(ours.origin, (from) => (from < 0 ? 1 : 0));
  for (const key of [({ text }: LogBlock) => text, nameOf])
    pairByKey(
      ours.items,
      theirs.items,
      (at) => isFree[at] === 1,
      (at) => theirs.origin[at]! < 0 && found[at]! < 0,
      key,
      (own, at) => {
        found[at] = own;
        isFree[own] = 0;
      },
    );
  return found;
}

/** Pairs blocks of one key: of several those that have most lines in common, then in their order. */
function pairByKey(
  from: readonly LogBlock[],
  to: readonly LogBlock[],
  isLeft: (from: number) => boolean,
  isLoose: (to: number) => boolean,
  key: (block: LogBlock) => string,
  pair: (from: number, to: number) => void,
): void {
  const left = new Map<string, number[]>();
  from.forEach((block, at) => {
    if (isLeft(at)) fill(left, [at], () => key(block));
  });
  const loose = new Map<string, number[]>();
  to.forEach((block, at) => {
    if (isLoose(at) && key(block) !== "") fill(loose, [at], () => key(block));
  });
  for (const [name, items] of loose) {
    const olds = left.get(name) ?? [];
    if (olds.length === 1 && items.length === 1) pair(olds[0]!, items[0]!);
    else for (const [old, item] of likest(olds, items, from, to)) pair(old, item);
  }
}

function likest(
  olds: readonly number[],
  items: readonly number[],
  from: readonly LogBlock[],
  to: readonly LogBlock[],
): readonly (readonly [number, number])[] {
  const all = olds.flatMap((old, nth) =>
    items.map((item, each) => ({
      old,
      item,
      common: inCommon(from[old]!, to[item]!),
      apart: Math.abs(nth - each),
    })),
  );
  const [isOld, isItem] = [new Set(olds), new Set(items)];
  const found: (readonly [number, number])[] = [];
  for (const { old, item } of all.sort((a, b) => b.common - a.common || a.apart - b.apart)) {
    if (!isOld.has(old) || !isItem.has(item)) continue;
    isOld.delete(old);
    isItem.delete(item);
    found.push([old, item]);
  }
  return found;
}

/** How many lines below their heads two blocks have in common; lines that begin alike count for little. */
function inCommon(a: LogBlock, b: LogBlock): number {
  const linesOf = (block: LogBlock): string[] =>
    belowHead(block.text)
      .split(/[\r\n]+/)
      .map((line) => line.trim().replace(/\s+/g, " "));
  const begins = (line: string): string => line.split(" ", 2).join(" ");
  const [own, others] = [linesOf(a).filter((line) => line !== ""), linesOf(b)];
  const [isWhole, isBegun] = [new Set(others), new Set(others.map(begins))];
  const shared = own.filter((line) => isWhole.has(line)).length;
  return shared + own.filter((line) => isBegun.has(begins(line))).length / 1000;
}

const nameOf = ({ kind, name }: LogBlock): string => `${kind} ${name}`;

/** What stands below the head of a block; empty where nothing does. */
function bodyOf({ kind, text }: LogBlock): string {
  const body = belowHead(text);
  return body === "" ? "" : `${kind} ${body}`;
}

function belowHead(text: string): string {
  const end = text.indexOf("\n");
  return end < 0 ? "" : text.slice(end + 1).trim();
}
