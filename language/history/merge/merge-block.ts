import { fill } from "../fill.ts";
import { type LogBlock, type LogLine, linesOfBlock } from "../log-lines.ts";
import { How, matchWithin } from "../match-within.ts";
import { mergeLine, saidOf } from "./merge-line.ts";
import { conflict, type Line, lines, type Outcome } from "./outcome.ts";
import { sharedFacts } from "./said-twice.ts";
import { type Side, type Strand, weave } from "./weave.ts";

/** The lines of one day or definition, of which there are two versions made of one. */

/** A line, or a round: its heads with the rows below. */
export interface Element {
  readonly line: LogLine;
  /** What stands below the heads of a round, up to its last row. */
  readonly rows: readonly LogLine[];
}

export interface Merged {
  readonly outcomes: readonly Outcome[];
  /** Lines that stand in no version, as they were put together. */
  readonly made: readonly string[];
}

/** What comes of a block; each version may be missing, its base even where both have it. */
export function mergeBlock(
  base: LogBlock | undefined,
  ours: LogBlock | undefined,
  theirs: LogBlock | undefined,
): Merged {
  const [old, own, other] = [base, ours, theirs].map((block) =>
    block === undefined ? [] : elementsOf(block),
  );
  const block = ours ?? theirs ?? base!;
  return new BlockMerge(old!, own!, other!, block.kind === "definition").run();
}

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

const belongsToRound = ({ kind }: LogLine): boolean =>
  kind === "row" || kind === "comment" || kind === "blank";
const isLoose = ({ line }: Element): boolean => line.kind === "comment" || line.kind === "blank";
const alone = (line: LogLine): Element => ({ line, rows: [] });

class BlockMerge {
  private readonly base: readonly Element[];
  private readonly ours: readonly Element[];
  private readonly theirs: readonly Element[];
  private readonly isDefinition: boolean;
  private readonly made: string[] = [];

  constructor(
    base: readonly Element[],
    ours: readonly Element[],
    theirs: readonly Element[],
    isDefinition: boolean,
  ) {
    this.base = base;
    this.ours = ours;
    this.theirs = theirs;
    this.isDefinition = isDefinition;
  }

  run(): Merged {
    return { outcomes: this.list(this.base, this.ours, this.theirs, true), made: this.made };
  }

  private list(
    base: readonly Element[],
    ours: readonly Element[],
    theirs: readonly Element[],
    isTimed: boolean,
  ): Outcome[] {
    const own = sideOf(base, ours);
    const other = sideOf(base, theirs);
    alikeTwins(base, own, other);
    addedTwice(base, own, other);
    addedTwice(base, other, own);
    const twins = this.twinsOf(own, other);
    const strands = weave(base, own, other, twins);
    const told = strands.map((strand) => ({ strand, outcomes: this.outcomes(strand) }));
    if (isTimed && !this.isDefinition && inOrder(ours) && inOrder(theirs)) return byTime(told);
    return told.flatMap(({ outcomes }) => outcomes);
  }

  /** What both sides added alike. Comments and blank lines are the same only in the same place: they belong to what they stand at. */
  private twinsOf(ours: Side<Element>, theirs: Side<Element>): Int32Array {
    const found = new Int32Array(theirs.items.length).fill(-1);
    const key = (side: Side<Element>, gaps: Int32Array, at: number): string => {
      const element = side.items[at]!;
      return isLoose(element)
        ? `${gaps[at]} ${element.line.kind} ${saidOf(element.line)}`
        : saidOf(element.line);
    };
    const [ownGaps, otherGaps] = [gapsOf(ours), gapsOf(theirs)];
    const left = new Map<string, number[]>();
    ours.items.forEach((_, at) => {
      if (ours.origin[at]! < 0) fill(left, [at], () => key(ours, ownGaps, at));
    });
    theirs.items.forEach((_, at) => {
      if (theirs.origin[at]! < 0) found[at] = left.get(key(theirs, otherGaps, at))?.shift() ?? -1;
    });
    this.pairContradictions(ours, theirs, found, left);
    return found;
  }

  /** Heads of a block that both added, and properties of a definition that say two things of one, stand against each other. */
  private pairContradictions(
    ours: Side<Element>,
    theirs: Side<Element>,
    found: Int32Array,
    left: ReadonlyMap<string, number[]>,
  ): void {
    const loose = new Set([...left.values()].flat());
    theirs.items.forEach(({ line }, at) => {
      if (theirs.origin[at]! >= 0 || found[at]! >= 0) return;
      if (!this.isDefinition && line.kind !== "head") return;
      for (const index of loose) {
        const own = ours.items[index]!.line;
        const isHead = own.kind === "head" && line.kind === "head";
        if (!isHead && !(this.isDefinition && sharedFacts(own, line))) continue;
        found[at] = index;
        loose.delete(index);
        return;
      }
    });
  }

  private outcomes({ base, ours, theirs }: Strand<Element>): readonly Outcome[] {
    if (ours === undefined || theirs === undefined) {
      const kept = (ours ?? theirs)!;
      if (base === undefined) return [lines(...linesOf(kept))];
      if (isLoose(kept) || isSame(kept, base)) return [];
      return [ours === undefined ? conflict([], linesOf(kept)) : conflict(linesOf(kept), [])];
    }
    if (ours.line.kind === "sheet" && theirs.line.kind === "sheet") return this.round(base, ours, theirs);
    return [this.line(base, ours, theirs)];
  }

  private line(base: Element | undefined, ours: Element, theirs: Element): Outcome {
    const text = mergeLine(base?.line, ours.line, theirs.line);
    if (text === undefined || ours.rows.length + theirs.rows.length > 0)
      return conflict(linesOf(ours), linesOf(theirs));
    if (text !== ours.line.text && text !== theirs.line.text) this.made.push(text);
    const { eol } = text === ours.line.text ? ours.line : theirs.line;
    return lines({ text, eol });
  }

  /** Rows can be joined below the same heads; below others their figures would be of something else. */
  private round(base: Element | undefined, ours: Element, theirs: Element): Outcome[] {
    const heads = (element: Element): string => element.line.content;
    const isFlat = (other: Element | undefined): boolean =>
      other === undefined || other.line.kind === "sheet";
    const isSameHead = heads(ours) === heads(theirs) && (base === undefined || heads(base) === heads(ours));
    if (isFlat(base) && isSameHead) {
      const head = this.line(base && alone(base.line), alone(ours.line), alone(theirs.line));
      const rows = [base?.rows ?? [], ours.rows, theirs.rows].map((each) => each.map(alone));
      return [head, ...this.list(rows[0]!, rows[1]!, rows[2]!, false)];
    }
    if (isSame(ours, theirs) || (base !== undefined && isSame(theirs, base)))
      return [lines(...linesOf(ours))];
    if (base !== undefined && isSame(ours, base)) return [lines(...linesOf(theirs))];
    return [conflict(linesOf(ours), linesOf(theirs))];
  }
}

const linesOf = ({ line, rows }: Element): Line[] => [line, ...rows].map(({ text, eol }) => ({ text, eol }));

/** Says the same, whatever its layout. */
function isSame(a: Element, b: Element): boolean {
  const said = ({ line, rows }: Element): string => [line, ...rows].map(saidOf).join("\n");
  return said(a) === said(b);
}

interface Matched extends Side<Element> {
  readonly how: Uint8Array;
}

function sideOf(base: readonly Element[], items: readonly Element[]): Matched {
  const { origin, how } = matchWithin(
    base.map(({ line }) => line),
    items.map(({ line }) => line),
  );
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

/** Of equal lines of which each side changed or removed one it is the same that is left: theirs are told apart as ours are. */
function alikeTwins(base: readonly Element[], ours: Matched, theirs: Matched): void {
  const groups = new Map<string, number[]>();
  base.forEach((element, at) => {
    if (!isLoose(element)) fill(groups, [at], () => saidOf(element.line));
  });
  if (groups.size === base.length) return;
  const isKept = new Uint8Array(base.length);
  ours.origin.forEach((from, at) => {
    if (from >= 0 && ours.how[at] === How.same) isKept[from] = 1;
  });
  const itemOf = new Int32Array(base.length).fill(-1);
  theirs.origin.forEach((from, at) => {
    if (from >= 0) itemOf[from] = at;
  });
  for (const group of groups.values()) {
    const items = group.map((from) => itemOf[from]!).filter((at) => at >= 0);
    if (group.length < 2 || items.every((at) => theirs.how[at] === How.same && group.length === items.length))
      continue;
    const free = [
      ...group.filter((from) => isKept[from] === 1),
      ...group.filter((from) => isKept[from] === 0),
    ];
    const isSameItem = (at: number): boolean => theirs.how[at] === How.same;
    for (const at of items.filter(isSameItem)) theirs.origin[at] = free.shift()!;
    // What was changed is what ours changed too, if it did.
    for (const at of items.filter((each) => !isSameItem(each))) theirs.origin[at] = free.pop()!;
  }
}

/** A line that seems to be corrected to what the other side added is no correction: it was added on both sides, and what it was removed. */
function addedTwice(base: readonly Element[], side: Matched, other: Matched): void {
  const added = new Set<string>();
  other.items.forEach(({ line }, at) => {
    if (other.origin[at]! < 0) added.add(saidOf(line));
  });
  side.items.forEach(({ line }, at) => {
    const from = side.origin[at]!;
    if (from >= 0 && saidOf(base[from]!.line) !== saidOf(line) && added.has(saidOf(line)))
      side.origin[at] = -1;
  });
}

/** By index the last item of the base above it. */
function gapsOf({ items, origin }: Side<Element>): Int32Array {
  const gaps = new Int32Array(items.length);
  let last = -1;
  items.forEach((_, at) => {
    if (origin[at]! >= 0) last = origin[at]!;
    gaps[at] = last;
  });
  return gaps;
}

function inOrder(elements: readonly Element[]): boolean {
  let before = 0;
  for (const element of elements) {
    if (isLoose(element)) continue;
    if (element.line.minute < before) return false;
    before = element.line.minute;
  }
  return true;
}

interface Told {
  readonly strand: Strand<Element>;
  readonly outcomes: readonly Outcome[];
}

/** In the order of the times at which each counts where it comes from; comments stay above what they stand above, and what closes a day closes it. */
function byTime(told: readonly Told[]): Outcome[] {
  const groups: { minute: number; outcomes: Outcome[] }[] = [];
  let above: Outcome[] = [];
  for (const { strand, outcomes } of told) {
    if (outcomes.length === 0) continue;
    above.push(...outcomes);
    if (isLoose((strand.ours ?? strand.theirs)!)) continue;
    groups.push({ minute: minuteOf(strand), outcomes: above });
    above = [];
  }
  // Sorting is stable: what counts at the same time stays as it was woven.
  groups.sort((a, b) => a.minute - b.minute);
  return [...groups.flatMap(({ outcomes }) => outcomes), ...above];
}

function minuteOf({ base, ours, theirs }: Strand<Element>): number {
  const own = ours?.line.minute;
  if (theirs === undefined) return own ?? 0;
  if (own === undefined || (base !== undefined && own === base.line.minute)) return theirs.line.minute;
  return own;
}
