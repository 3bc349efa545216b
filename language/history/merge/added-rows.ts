import type { LogLine } from "../log-lines.ts";
import type { Round } from "./columns.ts";

/** Rows of one tank, and rounds, that both sides added: they are one where they share a reading. */

/** Pairs them, those first that share most. @param isOwn and isOther whether one may be paired, by its index */
export function pairAdded(
  ours: readonly Round[],
  theirs: readonly Round[],
  isOwn: (at: number) => boolean,
  isOther: (at: number) => boolean,
  pair: (own: number, other: number) => void,
): void {
  const roundsOf = (rounds: readonly Round[], isLeft: (at: number) => boolean) =>
    rounds.flatMap((round, at) => {
      const isIt = round.line.kind === "row" || round.line.kind === "sheet";
      return isIt && isLeft(at) ? [{ at, line: round.line, cells: cellsOf(round) }] : [];
    });
  const own = roundsOf(ours, isOwn);
  const likes = roundsOf(theirs, isOther).flatMap((other) =>
    own
      .filter(({ line }) => mayBeOne(line, other.line))
      .map((each) => ({
        own: each.at,
        other: other.at,
        shared: [...other.cells].filter((cell) => each.cells.has(cell)).length,
        isSame: each.line.content === other.line.content,
      })),
  );
  likes.sort((a, b) => b.shared - a.shared || Number(b.isSame) - Number(a.isSame));
  for (const { own: at, other, shared } of likes)
    if (shared > 0 && isOwn(at) && isOther(other)) pair(at, other);
}

function mayBeOne(a: LogLine, b: LogLine): boolean {
  return a.kind === b.kind && a.time === b.time && a.station === b.station;
}

/** What was measured. */
function cellsOf({ line, rows }: Round): ReadonlySet<string> {
  return new Set((line.kind === "row" ? [line] : rows).flatMap(readingsOf));
}

/** Tank, head and figure of each cell of a row that holds one. */
export function readingsOf(row: LogLine | undefined): string[] {
  const filled = row?.facts.filter(({ value }) => value !== "-") ?? [];
  return filled.map(({ about, value }) => `${row!.station} ${about} ${value}`);
}
