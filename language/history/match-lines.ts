import { fill, Queues } from "./fill.ts";
import {
  blocksOf,
  type LogBlock,
  type LogLine,
  linesBeside,
  linesOfBlock,
  type SharedStretch,
} from "./log-lines.ts";
import { contentOf, How, matchWithin } from "./match-within.ts";
import { sharedLines } from "./shared-lines.ts";
import { finish, paused, type Steps } from "./steps.ts";

/**
 * What of one text of a log, or of all its files, became what of another. Blocks that both have are told by their text alone and never
 * read; of the others each line with the comments above it is a *unit*, and units are matched by what they say.
 */

/** A file of a logbook at one time. */
export interface LogText {
  readonly path: string;
  readonly text: string;
  /** Its blocks, where they are cut already. */
  readonly blocks?: readonly LogBlock[];
}

/** A line with the comments and blank lines above it. What stands below the last line of a block is a unit of its own, without a line. */
export interface Unit {
  readonly block: LogBlock;
  /** Undefined for what stands below the last line of its block. Of lines that both sides have there may be one for many. */
  readonly line: LogLine | undefined;
  /** All of it as it is written, line ends included: the units of a block make up its text. */
  readonly text: string;
  /** Offset in the file. */
  readonly start: number;
  readonly end: number;
  /** The line in the file, from 1, on which the unit's own line stands. */
  readonly number: number;
}

/** Of a unit on both sides; `before` and `after` differ in what its name says. */
export type UnitMatch =
  /** Said again, letter for letter or but for white space and comments, which `isRemarked` tells. */
  | { readonly is: "same"; readonly before: Unit; readonly after: Unit; readonly isRemarked: boolean }
  /** The same fact with other values, or the same line put right. */
  | { readonly is: "corrected"; readonly before: Unit; readonly after: Unit }
  /** The same content at another time or place of its day, on another day, or in another definition. */
  | { readonly is: "moved"; readonly before: Unit; readonly after: Unit }
  | { readonly is: "added"; readonly before: undefined; readonly after: Unit }
  | { readonly is: "removed"; readonly before: Unit; readonly after: undefined };

/** A block that stands on both sides, letter for letter. */
export interface SameBlock {
  readonly before: LogBlock;
  readonly after: LogBlock;
  /** It stands in another file, or another order, than it did. */
  readonly isMoved: boolean;
}

export interface LogMatching {
  readonly sameBlocks: readonly SameBlock[];
  /** Of the units of all other blocks, in the order of the second text, what was removed where it stood. */
  readonly units: readonly UnitMatch[];
}

/** Matches all of two states of a logbook. Files are told by their paths; a file that is on one side alone has nothing in common with none. */
export function matchLogs(before: readonly LogText[], after: readonly LogText[]): LogMatching {
  return finish(matchSteps(before, after));
}

/** So many blocks are looked at between two pauses. */
const atOnce = 100;

/** The same in pieces. */
export function* matchSteps(before: readonly LogText[], after: readonly LogText[]): Steps<LogMatching> {
  const cut = ({ path, text, blocks }: LogText): readonly LogBlock[] => blocks ?? blocksOf(text, path);
  const [old, fresh] = [before.flatMap(cut), after.flatMap(cut)];
  yield;
  const sameBlocks = takeSameBlocks(old, fresh);
  yield;
  const [goneBlocks, newBlocks] = [new Set(old), new Set(fresh)];
  for (const pair of sameBlocks) {
    goneBlocks.delete(pair.before);
    newBlocks.delete(pair.after);
  }
  const numbers = lineCounter([...before], [...after]);
  const shared = yield* sharedLines(goneBlocks, newBlocks, atOnce);
  const [gone, made]: [Unit[], Unit[]] = [[], []];
  yield* paused(goneBlocks, atOnce, (block) => {
    for (const unit of unitsOf(block, numbers.before(block), shared.get(block))) gone.push(unit);
  });
  yield* paused(newBlocks, atOnce, (block) => {
    for (const unit of unitsOf(block, numbers.after(block), shared.get(block))) made.push(unit);
  });
  return { sameBlocks, units: yield* new Matching(gone, made).run() };
}

/**
 * The units of a block, which make up its text.
 * @param firstLine the number in the file of its first line
 * @param shared what is not read of it
 */
export function unitsOf(block: LogBlock, firstLine = 1, shared: readonly SharedStretch[] = []): Unit[] {
  const units: Unit[] = [];
  let from = 0;
  let number = firstLine;
  const add = (line: LogLine | undefined, end: number, at: number): void => {
    const text = block.text.slice(from, end);
    units.push({ block, line, text, start: block.start + from, end: block.start + end, number: at });
    from = end;
  };
  const linesIn = new Map(shared.map(({ key, lines }) => [key, lines]));
  for (const line of shared.length === 0 ? linesOfBlock(block) : linesBeside(block, shared)) {
    const end = line.start + line.text.length + line.eol.length;
    if (line.kind !== "comment" && line.kind !== "blank") add(line, end, number);
    number += line.kind === "shared" ? linesIn.get(line.content)! : 1;
  }
  if (from < block.text.length) add(undefined, block.text.length, number - 1);
  return units;
}

/** Blocks alike in path and text first, then those that stand in another file. */
function takeSameBlocks(old: readonly LogBlock[], fresh: readonly LogBlock[]): SameBlock[] {
  const found: SameBlock[] = [];
  const files = new Map<string, Queues<LogBlock>>();
  const queuesOf = (path: string): Queues<LogBlock> => {
    const known = files.get(path) ?? new Queues<LogBlock>();
    files.set(path, known);
    return known;
  };
  for (const block of old) queuesOf(block.path).add(block.text, block);
  const take = (blocks: Iterable<LogBlock>, from: (block: LogBlock) => Queues<LogBlock>): LogBlock[] => {
    const missed: LogBlock[] = [];
    for (const after of blocks) {
      const before = from(after).take(after.text);
      if (before === undefined) missed.push(after);
      else found.push({ before, after, isMoved: before.path !== after.path });
    }
    return missed;
  };
  const missed = take(fresh, ({ path }) => queuesOf(path));
  const anywhere = new Queues<LogBlock>();
  for (const queues of files.values()) for (const block of queues.left()) anywhere.add(block.text, block);
  take(missed, () => anywhere);
  return found;
}

/** Tells the number of the line at which a block begins; each file is counted through once, and only if one of its blocks is asked for. */
function lineCounter(before: readonly LogText[], after: readonly LogText[]) {
  const counter = (files: readonly LogText[]) => {
    const texts = new Map(files.map(({ path, text }) => [path, text]));
    const reached = new Map<string, { offset: number; number: number }>();
    return ({ path, start }: LogBlock): number => {
      const text = texts.get(path) ?? "";
      let { offset, number } = reached.get(path) ?? { offset: 0, number: 1 };
      for (; offset < start; offset++) {
        const code = text.charCodeAt(offset);
        if (code === 0x0a || (code === 0x0d && text.charCodeAt(offset + 1) !== 0x0a)) number++;
      }
      reached.set(path, { offset, number });
      return number;
    };
  };
  return { before: counter(before), after: counter(after) };
}

class Matching {
  private readonly gone: readonly Unit[];
  private readonly made: readonly Unit[];
  /** By index in `made`. */
  private readonly origin: Int32Array;
  private readonly goal: Int32Array;
  private readonly isMoved = new Set<number>();
  private readonly isCorrected = new Set<number>();

  constructor(gone: readonly Unit[], made: readonly Unit[]) {
    this.gone = gone;
    this.made = made;
    this.origin = new Int32Array(made.length).fill(-1);
    this.goal = new Int32Array(gone.length).fill(-1);
  }

  *run(): Steps<UnitMatch[]> {
    const before = byBlock(this.gone);
    yield;
    yield* paused(byBlock(this.made), atOnce, ([name, after]) => {
      const old = before.get(name);
      if (old !== undefined) this.within(old, after);
    });
    this.acrossDays();
    yield;
    return this.told();
  }

  /** Units of one day or definition. */
  private within(old: readonly number[], after: readonly number[]): void {
    const { origin, how } = matchWithin(
      old.map((at) => this.gone[at]!.line),
      after.map((at) => this.made[at]!.line),
    );
    after.forEach((at, index) => {
      const from = origin[index]!;
      if (from < 0) return;
      this.pair(old[from]!, at);
      if (how[index] === How.moved) this.isMoved.add(at);
      if (how[index] === How.corrected) this.isCorrected.add(at);
    });
  }

  /** The same content on another day, the nearest first. */
  private acrossDays(): void {
    const left = new Map<string, number[]>();
    const isMovable = ({ line }: Unit): boolean => line !== undefined && line.kind !== "head";
    this.gone.forEach((unit, at) => {
      if (this.goal[at]! < 0 && isMovable(unit)) fill(left, [at], () => contentOf(unit.line));
    });
    this.made.forEach((unit, at) => {
      if (this.origin[at]! >= 0 || !isMovable(unit)) return;
      const queue = left.get(contentOf(unit.line));
      if (queue === undefined || queue.length === 0) return;
      const from = nearestDay(queue, this.gone, unit.block.day);
      queue.splice(queue.indexOf(from), 1);
      this.pair(from, at);
      this.isMoved.add(at);
    });
  }

  private pair(from: number, to: number): void {
    this.goal[from] = to;
    this.origin[to] = from;
  }

  private told(): UnitMatch[] {
    const told: UnitMatch[] = [];
    const removed = new Map<string, Unit[]>();
    this.gone.forEach((unit, at) => {
      if (this.goal[at]! < 0) fill(removed, [unit], ({ block }) => block.name);
    });
    const tellRemoved = (units: readonly Unit[]): void => {
      for (const before of units) told.push({ is: "removed", before, after: undefined });
    };
    this.made.forEach((after, at) => {
      const from = this.origin[at]!;
      if (from < 0) told.push({ is: "added", before: undefined, after });
      else {
        const before = this.gone[from]!;
        if (this.isMoved.has(at)) told.push({ is: "moved", before, after });
        else if (this.isCorrected.has(at)) told.push({ is: "corrected", before, after });
        else told.push({ is: "same", before, after, isRemarked: before.text !== after.text });
      }
      // What was removed from a block is told behind what is left of it.
      const next = this.made[at + 1];
      if (next?.block.name === after.block.name) return;
      tellRemoved(removed.get(after.block.name) ?? []);
      removed.delete(after.block.name);
    });
    for (const units of removed.values()) tellRemoved(units);
    return told;
  }
}

function byBlock(units: readonly Unit[]): Map<string, number[]> {
  const found = new Map<string, number[]>();
  units.forEach((unit, at) => {
    fill(found, [at], () => `${unit.block.kind} ${unit.block.name}`);
  });
  return found;
}

function nearestDay(queue: readonly number[], gone: readonly Unit[], day: number): number {
  let best = queue[0]!;
  for (const at of queue) {
    const distance = Math.abs(gone[at]!.block.day - day);
    if (distance < Math.abs(gone[best]!.block.day - day)) best = at;
  }
  return best;
}
