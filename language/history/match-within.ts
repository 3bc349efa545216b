import { align } from "./align.ts";
import { Queues } from "./fill.ts";
import type { LogLine } from "./log-lines.ts";

/** The lines of one day or definition, before and after: what is the same, then what moved, then what was corrected. */

export const How = { none: 0, same: 1, moved: 2, corrected: 3 } as const;
export type How = (typeof How)[keyof typeof How];

export interface Within {
  /** By the index of a line after: the index of what it was before; -1 where it is new. */
  readonly origin: Int32Array;
  /** By the same index. */
  readonly how: Uint8Array;
}

/** A line, or undefined for what stands below the last. */
type Line = LogLine | undefined;

export function matchWithin(old: readonly Line[], after: readonly Line[]): Within {
  return new Matching(old, after).run();
}

/** What a line is about: `dam test nitrate, pH`. Two with the same are, on one day, the same fact with other values. */
export function factOf(line: LogLine): string {
  if (line.kind === "head") return "head";
  return `${line.kind} ${line.station} ${line.word} ${line.facts.map(({ about }) => about).join(", ")}`;
}

/** All a line says but its time and comment. */
export function contentOf(line: Line): string {
  return line === undefined ? "" : `${line.kind} ${line.content}`;
}

const saysNothing = (line: Line): boolean =>
  line === undefined || line.kind === "comment" || line.kind === "blank" || line.kind === "shared";

/** A line that was put right stands near where it stood. */
const mostTried = 30;

class Matching {
  private readonly old: readonly Line[];
  private readonly after: readonly Line[];
  private readonly origin: Int32Array;
  private readonly how: Uint8Array;
  /** By index before. */
  private readonly goal: Int32Array;

  constructor(old: readonly Line[], after: readonly Line[]) {
    this.old = old;
    this.after = after;
    this.origin = new Int32Array(after.length).fill(-1);
    this.how = new Uint8Array(after.length);
    this.goal = new Int32Array(old.length).fill(-1);
  }

  run(): Within {
    this.inOrder();
    // Of what says the same at two times, that of its own time goes first.
    this.byKey((line) => `${line.time} ${contentOf(line)}`, How.moved);
    this.byKey((line) => `${line.time} ${factOf(line)}`, How.corrected);
    this.byKey(contentOf, How.moved);
    this.byKey(factOf, How.corrected);
    this.inGaps();
    return { origin: this.origin, how: this.how };
  }

  /** What says the same in the same order, between the stretches that both are known to have. */
  private inOrder(): void {
    const said = (line: Line): string => `${line?.time ?? ""} ${contentOf(line)}`;
    const [old, after] = [this.old.map(said), this.after.map(said)];
    const shared = this.sharedPairs(old, after);
    let [fromOld, fromAfter] = [0, 0];
    for (const [a, b] of [...shared, [old.length, after.length] as const]) {
      for (const [one, two] of align(old.slice(fromOld, a), after.slice(fromAfter, b)))
        this.pair(fromOld + one, fromAfter + two, How.same);
      if (a < old.length) this.pair(a, b, How.same);
      [fromOld, fromAfter] = [a + 1, b + 1];
    }
  }

  private sharedPairs(old: readonly string[], after: readonly string[]): (readonly [number, number])[] {
    const places = new Map<string, number>();
    this.old.forEach((line, at) => {
      if (line?.kind === "shared") places.set(old[at]!, at);
    });
    if (places.size === 0) return [];
    const rising: (readonly [number, number])[] = [];
    this.after.forEach((line, at) => {
      const from = line?.kind === "shared" ? places.get(after[at]!) : undefined;
      if (from === undefined) return;
      // Of two files that hold the same day each has its own order.
      if (from > (rising.at(-1)?.[0] ?? -1)) rising.push([from, at]);
      else this.pair(from, at, How.same);
    });
    return rising;
  }

  /** Pairs what is left by a key, in order. */
  private byKey(key: (line: LogLine) => string, how: How): void {
    const left = new Queues<number>();
    this.old.forEach((line, at) => {
      if (this.goal[at]! < 0 && !saysNothing(line)) left.add(key(line!), at);
    });
    if (left.size === 0) return;
    this.after.forEach((line, at) => {
      if (this.origin[at]! >= 0 || saysNothing(line)) return;
      const from = left.take(key(line!));
      if (from !== undefined) this.pair(from, at, how);
    });
  }

  /** Between two neighbours that are matched, a line of the same kind and station, or one much like it, was put right. */
  private inGaps(): void {
    let [first, from] = [0, 0];
    for (let at = 0; at <= this.old.length; at++) {
      const goal = at === this.old.length ? this.after.length : this.goal[at]!;
      if (goal < 0) continue;
      const loose: number[] = [];
      for (let next = from; next < goal; next++)
        if (this.origin[next]! < 0 && !saysNothing(this.after[next])) loose.push(next);
      for (let index = first; index < at && loose.length > 0; index++) {
        if (this.goal[index]! >= 0 || saysNothing(this.old[index])) continue;
        const found = loose
          .slice(0, mostTried)
          .findIndex((made) => isPutRight(this.old[index]!, this.after[made]!));
        if (found >= 0) this.pair(index, loose.splice(found, 1)[0]!, How.corrected);
      }
      first = at + 1;
      from = Math.max(from, goal + 1);
    }
  }

  private pair(from: number, to: number, how: How): void {
    this.goal[from] = to;
    this.origin[to] = from;
    this.how[to] = how;
  }
}

function isPutRight(before: LogLine, after: LogLine): boolean {
  if ((before.kind === "head") !== (after.kind === "head")) return false;
  const rough = (line: LogLine): string => `${line.kind} ${line.station} ${line.word}`;
  const hasWords = before.word !== "" && before.kind !== "property";
  if (hasWords && rough(before) === rough(after)) return true;
  // One word of a short line is another, or a few of a long one.
  return likeness(before.content, after.content) > 0.5;
}

/** The part of the words of two lines that both have, from 0 to 1. */
function likeness(a: string, b: string): number {
  const [one, two] = [a.split(/\s+/), b.split(/\s+/)];
  const left = new Map<string, number>();
  for (const word of one) left.set(word, (left.get(word) ?? 0) + 1);
  let both = 0;
  for (const word of two) {
    const count = left.get(word) ?? 0;
    if (count === 0) continue;
    left.set(word, count - 1);
    both++;
  }
  return (2 * both) / (one.length + two.length);
}
