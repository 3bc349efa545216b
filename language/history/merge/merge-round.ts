import type { LogLine } from "../log-lines.ts";
import { type Columns, columnsOf, headsOf, nameAndUnit, type Round } from "./columns.ts";
import { mergeParts } from "./merge-line.ts";
import { lines, type Outcome } from "./outcome.ts";
import { filledColumns, laidHead, readRound, Table } from "./table.ts";

/**
 * A round of which there are two versions, cell by cell. A cell is of its tank and of its head: under a head of another unit it is another
 * reading. So the merged round has the columns of both, and of those that a side took away what the other side wrote into them since.
 */

export interface MergedRound {
  readonly outcomes: readonly Outcome[];
  /** Its lines as they were put together. */
  readonly made: readonly string[];
}

/** Merges rows that stand under the same heads. */
type MergeRows = (
  base: readonly LogLine[],
  ours: readonly LogLine[],
  theirs: readonly LogLine[],
) => readonly Outcome[];

/** Undefined where the heads contradict each other, or cannot be told apart. @param base undefined for a round that both added */
export function mergeRound(
  base: Round | undefined,
  ours: Round,
  theirs: Round,
  mergeRows: MergeRows,
): MergedRound | undefined {
  const rounds = [base ?? { line: ours.line, rows: [] }, ours, theirs];
  const heads = rounds.map(headsOf);
  if (heads.some((each) => each === undefined)) return undefined;
  const [old, own, other] = heads as (readonly string[])[];
  const columns = columnsOf(base === undefined ? [] : old!, own!, other!);
  const write = (wanted: readonly string[], moved: ReadonlyMap<string, string>): MergedRound | undefined => {
    const head = headOf(base?.line, ours, theirs, wanted);
    if (head === undefined) return undefined;
    const table = new Table(wanted, moved, head);
    const seen = rounds.map((round, at) => table.see(round, heads[at]!));
    if (seen.some((each) => each === undefined)) return undefined;
    const [a, b, c] = seen as LogLine[][];
    const outcomes = mergeRows(base === undefined ? [] : a!, b!, c!);
    const made = [head, ...(seen as LogLine[][]).flat().map(({ text }) => text)];
    return { outcomes: [lines({ text: head, eol: ours.line.eol || theirs.line.eol }), ...outcomes], made };
  };
  const all = write(columns.all, new Map());
  if (all === undefined || columns.taken.size === 0) return all;
  const { kept, moved } = withoutTaken(columns, all);
  return (
    (moved.size > 0
      ? write(
          kept.filter((head) => !moved.has(head)),
          moved,
        )
      : undefined) ??
    write(kept, new Map()) ??
    all
  );
}

/** Of the columns that a side took away those that hold something still, and which of them go under a head of the same name, as their unit can be told. */
function withoutTaken(
  { all, taken }: Columns,
  { outcomes }: MergedRound,
): { readonly kept: readonly string[]; readonly moved: ReadonlyMap<string, string> } {
  const written = outcomes.flatMap((each) =>
    each.is === "lines" ? each.lines : [...each.ours, ...each.theirs],
  );
  const filled = filledColumns(written[0]!.text, written.slice(1));
  const kept = all.filter((head) => !taken.has(head) || filled.has(head));
  const moved = new Map<string, string>();
  for (const head of kept) {
    const [name, unit] = nameAndUnit(head);
    const goal = kept.find((each) => !taken.has(each) && nameAndUnit(each)[0] === name);
    if (taken.has(head) && unit !== "" && goal !== undefined) moved.set(head, goal);
  }
  return { kept: kept.length > 0 ? kept : all, moved };
}

/** The heads as they are written: those of a version that has them all, else laid out anew. */
function headOf(
  base: LogLine | undefined,
  ours: Round,
  theirs: Round,
  columns: readonly string[],
): string | undefined {
  const isOf = (round: Round): boolean => headsOf(round)!.join("\0") === columns.join("\0");
  if (!isOf(ours) && isOf(theirs)) return mergeParts(base, theirs.line, ours.line);
  if (isOf(ours)) return mergeParts(base, ours.line, theirs.line);
  const laid = readRound([laidHead(ours.line, columns, [ours, theirs])])[0];
  return laid?.kind === "sheet" ? mergeParts(base, laid, theirs.line) : undefined;
}
