import { blocksOf, type LogBlock } from "../log-lines.ts";
import { sideOf, twinsOf } from "./block-pairs.ts";
import { holds } from "./holds.ts";
import { endingOf, endsOf, inOneEnding, markOf, splitLines } from "./layout.ts";
import { mergeBlock } from "./merge-block.ts";
import { onceADay } from "./one-day.ts";
import { lines, type Outcome } from "./outcome.ts";
import { type Strand, weave } from "./weave.ts";
import { type MergedLog, type MergeOptions, Writer } from "./writer.ts";

export type { MergedLog, MergeOptions } from "./writer.ts";

/**
 * Merging two versions of a log that were made of one. Entries that either side added stand in the result, each once where both added the same;
 * what one side corrected or removed and the other left alone is corrected or removed. Only where both changed the same fact, or one
 * removed what the other corrected, do both versions stay, between the marks that git uses.
 */

/** What comes of a log of which there are two versions; undefined where the result would not hold what it should. @param base empty where both added the file */
export function mergeLogs(
  base: string,
  ours: string,
  theirs: string,
  options: MergeOptions = {},
): MergedLog | undefined {
  if (ours === theirs || theirs === base) return { text: ours, conflicts: 0 };
  if (ours === base) return { text: theirs, conflicts: 0 };
  const mark = choose(markOf(base), markOf(ours), markOf(theirs));
  const ending = endingOf(base, ours, theirs);
  const texts = [base, ours, theirs].map((text) => text.slice(markOf(text).length));
  const [old, own, other] = texts.map((text) => blocksOf(text));
  const made: string[] = [];
  const outcomes = mergeBlocks(old!, own!, other!, made);
  const written = new Writer(options, ending).write(outcomes);
  const isEnded = choose(endsOf(base), endsOf(ours), endsOf(theirs));
  let text = inOneEnding(mark + written.text, ending);
  if (written.conflicts === 0 && !isEnded) text = text.replace(/(?:\r\n|\n|\r)$/, "");
  const result = { text, conflicts: written.conflicts };
  return holds(result.text, texts, made) ? result : undefined;
}

const choose = <T>(base: T, ours: T, theirs: T): T => (ours === base ? theirs : ours);

function mergeBlocks(
  base: readonly LogBlock[],
  ours: readonly LogBlock[],
  theirs: readonly LogBlock[],
  made: string[],
): Outcome[] {
  const own = sideOf(base, ours);
  const other = sideOf(base, theirs);
  const twins = twinsOf(own, other);
  const strands = onceADay(inOrderOfDays(weave(base, own, other, twins), ours, theirs), base, made);
  const told: Told[] = [];
  for (const strand of strands) {
    const outcomes = blockOutcomes(strand, made);
    if (outcomes.length > 0) told.push({ strand, outcomes });
  }
  const [first, second] = [new Neighbours(ours), new Neighbours(theirs)];
  return told.flatMap(({ strand, outcomes }, at) => [
    ...outcomes,
    ...gapAfter(strand, outcomes, told[at + 1]?.strand, first, second),
  ]);
}

interface Told {
  readonly strand: Strand<LogBlock>;
  readonly outcomes: readonly Outcome[];
}

const whole = (text: string): Outcome => lines(...splitLines(text));

function blockOutcomes({ base, ours, theirs }: Strand<LogBlock>, made: string[]): readonly Outcome[] {
  if (ours !== undefined && theirs !== undefined) {
    if (ours.text === theirs.text || theirs.text === base?.text) return [whole(ours.text)];
    if (ours.text === base?.text) return [whole(theirs.text)];
    return mergedBlock(base, ours, theirs, made);
  }
  const kept = (ours ?? theirs)!;
  if (base === undefined) return [whole(kept.text)];
  if (kept.text === base.text) return [];
  return removedBlock(base, ours, theirs, made);
}

function mergedBlock(
  base: LogBlock | undefined,
  ours: LogBlock | undefined,
  theirs: LogBlock | undefined,
  made: string[],
): readonly Outcome[] {
  const merged = mergeBlock(base, ours, theirs);
  made.push(...merged.made);
  return merged.outcomes;
}

/** One side removed what the other went on with: of a day the new entries stay below their head, of a definition there is nothing without the rest. */
function removedBlock(
  base: LogBlock,
  ours: LogBlock | undefined,
  theirs: LogBlock | undefined,
  made: string[],
): readonly Outcome[] {
  const kept = (ours ?? theirs)!;
  const isSaid = (text: string): boolean => text.trim() !== "";
  if (kept.kind === "day") {
    const head = { ...kept, text: headAlone(kept.text) };
    const outcomes = mergedBlock(base, ours ?? head, theirs ?? head, made);
    const [top, ...rest] = outcomes;
    const isEmpty = rest.every((each) => each.is === "lines" && !each.lines.some(({ text }) => isSaid(text)));
    return top?.is === "lines" && isEmpty ? [] : outcomes;
  }
  const changed = mergeBlock(base, ours, theirs).outcomes;
  if (changed.every((each) => each.is === "lines" && !each.lines.some(({ text }) => isSaid(text)))) return [];
  const [old, own, other] = [base, ours, theirs].map((block) => splitLines(block?.text ?? ""));
  return [{ is: "conflict", base: old!, ours: own!, theirs: other!, isBlock: true }];
}

/** The head of a block, with the blank lines that part it from the next. */
function headAlone(text: string): string {
  const all = splitLines(text);
  let from = all.length;
  while (from > 1 && all[from - 1]!.text.trim() === "") from--;
  return [all[0]!, ...all.slice(from)].map((line) => line.text + line.eol).join("");
}

/** Days stand in the order in which both sides have them: rising, or falling where the latest is on top. */
function inOrderOfDays(
  strands: readonly Strand<LogBlock>[],
  ours: readonly LogBlock[],
  theirs: readonly LogBlock[],
): readonly Strand<LogBlock>[] {
  const sign = [1, -1].find((way) => isSorted(ours, way) && isSorted(theirs, way));
  if (sign === undefined) return strands;
  const dayOfStrand = ({ base, ours: own, theirs: other }: Strand<LogBlock>): number => {
    const block = own === undefined || (base !== undefined && own.day === base.day) ? (other ?? own) : own;
    return block!.day;
  };
  const found: Strand<LogBlock>[] = [];
  let run: Strand<LogBlock>[] = [];
  const close = (): void => {
    found.push(...run.sort((a, b) => sign * (dayOfStrand(a) - dayOfStrand(b))));
    run = [];
  };
  for (const strand of strands) {
    if (Number.isNaN(dayOfStrand(strand))) {
      close();
      found.push(strand);
    } else run.push(strand);
  }
  close();
  return found;
}

function isSorted(blocks: readonly LogBlock[], sign: number): boolean {
  let before = Number.NaN;
  for (const { day } of blocks) {
    if (sign * (day - before) < 0) return false;
    if (!Number.isNaN(day)) before = day;
  }
  return true;
}

/** Which block stands above which in a text. */
class Neighbours {
  private readonly above = new Map<LogBlock, LogBlock>();

  constructor(blocks: readonly LogBlock[]) {
    for (let at = 1; at < blocks.length; at++) this.above.set(blocks[at]!, blocks[at - 1]!);
  }

  are(block: LogBlock | undefined, next: LogBlock | undefined): boolean {
    return block !== undefined && next !== undefined && this.above.get(next) === block;
  }

  /** Whether a blank line stands above a block. */
  isParted(block: LogBlock | undefined): boolean {
    const above = block === undefined ? undefined : this.above.get(block);
    return above !== undefined && /(?:\r\n|\n|\r)[^\S\r\n]*(?:\r\n|\n|\r)$/.test(above.text);
  }
}

/** A blank line between two blocks that are neighbours only now, where blank lines part the blocks. */
function gapAfter(
  { ours: own, theirs: other }: Strand<LogBlock>,
  outcomes: readonly Outcome[],
  next: Strand<LogBlock> | undefined,
  ours: Neighbours,
  theirs: Neighbours,
): Outcome[] {
  if (next === undefined) return [];
  const last = outcomes.at(-1);
  if (last?.is !== "lines" || last.lines.at(-1)?.text.trim() === "") return [];
  if (ours.are(own, next.ours) || theirs.are(other, next.theirs)) return [];
  return ours.isParted(next.ours) || theirs.isParted(next.theirs) ? [lines({ text: "", eol: "\n" })] : [];
}
