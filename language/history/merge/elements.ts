import { type LogBlock, type LogLine, linesOfBlock } from "../log-lines.ts";
import { How, matchWithin } from "../match-within.ts";
import { readingsOf } from "./added-rows.ts";
import { pairAlike } from "./alike.ts";
import type { Round } from "./columns.ts";
import { saidOf } from "./merge-line.ts";
import type { Side } from "./weave.ts";

/** Which lines of a block, or rows of a round, are those of the base on each side. */

/** A line, or a round: its heads with the rows below. */
export type Element = Round;

const belongsToRound = ({ kind }: LogLine): boolean =>
  kind === "row" || kind === "comment" || kind === "blank";

/** The lines of a block, rows with the heads they stand under. */
export function elementsOf(block: LogBlock): Element[] {
  const all = linesOfBlock(block);
  const found: Element[] = [];
  for (let at = 0; at < all.length; at++) {
    const line = all[at]!;
    let last = at;
    if (line.kind === "sheet")
      for (let next = at + 1; next < all.length && belongsToRound(all[next]!); next++)
        if (all[next]!.kind === "row") last = next;
    found.push({ line, rows: all.slice(at + 1, last + 1) });
    at = last;
  }
  return found;
}

export const isLoose = ({ line }: Element): boolean => line.kind === "comment" || line.kind === "blank";

/** All an element says, whatever its layout. */
export const saidOfAll = ({ line, rows }: Element): string => [line, ...rows].map(saidOf).join("\n");

export interface Matched extends Side<Element> {
  readonly how: Uint8Array;
}

export function sideOf(base: readonly Element[], items: readonly Element[]): Matched {
  // A round is the same with all its rows.
  const whole = (element: Element): LogLine =>
    element.rows.length === 0 ? element.line : { ...element.line, content: saidOfAll(element) };
  const { origin, how } = matchWithin(base.map(whole), items.map(whole));
  let tail = items.length;
  while (tail > 0 && isLoose(items[tail - 1]!)) tail--;
  const inPlace = placesOf(origin, how);
  return { items, origin, how, isMoved: (at) => how[at] !== How.same && inPlace[at] === 0, tail };
}

/** By index whether it stands between the neighbours it had: 1, or 0 where it went elsewhere. */
function placesOf(origin: Int32Array, how: Uint8Array): Uint8Array {
  const found = new Uint8Array(origin.length);
  const below = new Int32Array(origin.length);
  let next = Number.MAX_SAFE_INTEGER;
  for (let at = origin.length - 1; at >= 0; at--) {
    below[at] = Math.min(next, 0x7fffffff);
    if (how[at] === How.same) next = origin[at]!;
  }
  let last = -1;
  for (let at = 0; at < origin.length; at++) {
    if (origin[at]! > last && origin[at]! < below[at]!) found[at] = 1;
    if (how[at] === How.same) last = origin[at]!;
  }
  return found;
}

/** Of equal lines theirs are told apart as ours are. */
export function alikeTwins(base: readonly Element[], ours: Matched, theirs: Matched): void {
  const ownOf: (string | undefined)[] = base.map(() => undefined);
  ours.origin.forEach((from, at) => {
    if (from >= 0) ownOf[from] = saidOfAll(ours.items[at]!);
  });
  const old = base.map((element) => (isLoose(element) ? undefined : saidOfAll(element)));
  pairAlike(old, ownOf, theirs.items.map(saidOfAll), theirs.origin);
}

/** A line that seems to be corrected to what the other side added is no correction: it was added on both sides, and what it was removed. */
export function addedTwice(base: readonly Element[], side: Matched, other: Matched): void {
  const added = new Set<string>();
  const corrected = new Map<number, readonly string[]>();
  other.items.forEach((item, at) => {
    const from = other.origin[at]!;
    const fresh = newOf(item, base[from]);
    if (from >= 0) corrected.set(from, fresh);
    else for (const said of fresh) added.add(said);
  });
  if (added.size === 0) return;
  side.items.forEach((item, at) => {
    const from = side.origin[at]!;
    if (from < 0) return;
    const fresh = newOf(item, base[from]);
    // What both corrected alike is corrected.
    if (corrected.get(from)?.some((said) => fresh.includes(said))) return;
    if (fresh.some((said) => added.has(said))) side.origin[at] = -1;
  });
}

/** What an item says that what it was did not: of a row each reading. */
function newOf({ line }: Element, base: Element | undefined): readonly string[] {
  if (line.kind !== "row" || line.station === "")
    return base !== undefined && saidOf(base.line) === saidOf(line) ? [] : [saidOf(line)];
  const old = new Set(readingsOf(base?.line));
  return readingsOf(line).filter((said) => !old.has(said));
}

/** By index the last item of the base above it. */
export function gapsOf({ items, origin }: Side<Element>): Int32Array {
  const gaps = new Int32Array(items.length);
  let last = -1;
  items.forEach((_, at) => {
    if (origin[at]! >= 0) last = origin[at]!;
    gaps[at] = last;
  });
  return gaps;
}
