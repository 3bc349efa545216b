import { fill } from "../fill.ts";
import type { LogBlock, LogLine } from "../log-lines.ts";
import { pairAdded } from "./added-rows.ts";
import {
  addedTwice,
  alikeTwins,
  type Element,
  elementsOf,
  gapsOf,
  isLoose,
  saidOfAll,
  sideOf,
} from "./elements.ts";
import { mergeLine, saidOf } from "./merge-line.ts";
import { mergeRound } from "./merge-round.ts";
import { onceInRounds } from "./one-day.ts";
import { conflict, type Line, lines, type Outcome } from "./outcome.ts";
import { sharedFacts } from "./said-twice.ts";
import { wholeOf } from "./table.ts";
import { type Side, type Strand, weave } from "./weave.ts";

/** The lines of one day or definition, of which there are two versions made of one. */

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

const isRowText = (text: string): boolean => /^\s*[^\s#]/.test(text);
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
    const strands = onceInRounds(weave(base, own, other, twins), base, this.made);
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
    const isFree = Uint8Array.from(ours.origin, (from) => (from < 0 ? 1 : 0));
    const isLeft = (at: number): boolean => theirs.origin[at]! < 0 && found[at]! < 0;
    pairAdded(
      ours.items,
      theirs.items,
      (at) => isFree[at] === 1,
      isLeft,
      (own, other) => {
        found[other] = own;
        isFree[own] = 0;
      },
    );
    const left = new Map<string, number[]>();
    ours.items.forEach((_, at) => {
      if (isFree[at] === 1) fill(left, [at], () => key(ours, ownGaps, at));
    });
    theirs.items.forEach((_, at) => {
      if (isLeft(at)) found[at] = left.get(key(theirs, otherGaps, at))?.shift() ?? -1;
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
      if (kept.line.kind === "sheet" && base.line.kind === "sheet")
        return this.removedRound(base, ours, theirs);
      return [conflict(linesOf(base), linesOf(ours), linesOf(theirs))];
    }
    if (ours.line.kind === "sheet" && theirs.line.kind === "sheet") return this.round(base, ours, theirs);
    return [this.line(base, ours, theirs)];
  }

  private line(base: Element | undefined, ours: Element, theirs: Element): Outcome {
    const [own, other] = [wholeOf(ours.line), wholeOf(theirs.line)];
    const text = mergeLine(base && wholeOf(base.line), own, other);
    if (text === undefined || ours.rows.length + theirs.rows.length > 0)
      return conflict(linesOf(base), linesOf(ours), linesOf(theirs));
    if (text === own.text) return lines(...linesOf(ours));
    if (text === other.text) return lines(...linesOf(theirs));
    this.made.push(text);
    return lines({ text, eol: theirs.line.eol });
  }

  /** Of a round that one side took away the rows that are new stay, below its heads. */
  private removedRound(
    base: Element,
    ours: Element | undefined,
    theirs: Element | undefined,
  ): readonly Outcome[] {
    const bare = alone(base.line);
    const outcomes = this.round(base, ours ?? bare, theirs ?? bare);
    const [top, ...rest] = outcomes;
    const isEmpty = rest.every(
      (each) => each.is === "lines" && each.lines.every(({ text }) => !isRowText(text)),
    );
    return top?.is === "lines" && top.lines.length === 1 && isEmpty ? [] : outcomes;
  }

  private round(base: Element | undefined, ours: Element, theirs: Element): Outcome[] {
    const merged =
      base === undefined || base.line.kind === "sheet"
        ? mergeRound(base, ours, theirs, (...rows) => {
            const [old, own, other] = rows.map((each) => each.map(alone));
            return this.list(old!, own!, other!, false);
          })
        : undefined;
    if (merged === undefined) return this.wholeRound(base, ours, theirs);
    this.made.push(...merged.made);
    return [...merged.outcomes];
  }

  /** Heads that cannot be told apart: rows can be joined below the same; below others their figures would be of something else. */
  private wholeRound(base: Element | undefined, ours: Element, theirs: Element): Outcome[] {
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
    return [conflict(linesOf(base), linesOf(ours), linesOf(theirs))];
  }
}

const linesOf = (element: Element | undefined): Line[] =>
  element === undefined ? [] : [element.line, ...element.rows].map(({ text, eol }) => ({ text, eol }));

/** Says the same, whatever its layout. */
const isSame = (a: Element, b: Element): boolean => saidOfAll(a) === saidOfAll(b);

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
  // The side that stated its time knows it; the other's may have come from a line above.
  if (
    base !== undefined &&
    ours !== undefined &&
    ours.line.time === base.line.time &&
    theirs.line.time !== base.line.time
  )
    return theirs.line.minute;
  if (own === undefined || (base !== undefined && own === base.line.minute)) return theirs.line.minute;
  return own;
}
