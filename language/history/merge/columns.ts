import type { LogLine } from "../log-lines.ts";
import { type Side, weave } from "./weave.ts";

/** The columns of a round of which there are two versions made of one. A column is what its head says, its unit included. */

/** The heads of a round with the lines below, up to its last row. */
export interface Round {
  readonly line: LogLine;
  readonly rows: readonly LogLine[];
}

/** The heads of a round; undefined where two are alike, or a cell stands under none. */
export function headsOf({ line, rows }: Round): readonly string[] | undefined {
  const heads = line.parts.filter(({ about }) => about === "column").map(({ value }) => value);
  const isUnder = rows.every(({ facts }) => facts.every(({ about }, at) => about === heads[at]));
  return heads.length > 0 && isUnder && new Set(heads).size === heads.length ? heads : undefined;
}

export interface Columns {
  /** What ours has, with what only theirs has where it stands there, then what neither has any more. */
  readonly all: readonly string[];
  /** Those of all that a side took away. */
  readonly taken: ReadonlySet<string>;
}

/** @param base empty for a round that both added */
export function columnsOf(
  base: readonly string[],
  ours: readonly string[],
  theirs: readonly string[],
): Columns {
  const twins = Int32Array.from(theirs, (head) => (base.includes(head) ? -1 : ours.indexOf(head)));
  const strands = weave(base, sideOf(base, ours), sideOf(base, theirs), twins);
  const known = strands.map((strand) => (strand.ours ?? strand.theirs)!);
  const all = [...known, ...base.filter((head) => !known.includes(head))];
  const taken = new Set(base.filter((head) => !ours.includes(head) || !theirs.includes(head)));
  return { all, taken };
}

function sideOf(base: readonly string[], items: readonly string[]): Side<string> {
  const origin = Int32Array.from(items, (head) => base.indexOf(head));
  return { items, origin, isMoved: () => false, tail: items.length };
}

/** Of `nitrate (mg/L N)` the name and the unit; the unit empty where the head states none. */
export function nameAndUnit(head: string): readonly [name: string, unit: string] {
  const at = head.indexOf("(");
  return at < 0
    ? [head, ""]
    : [
        head.slice(0, at).trim(),
        head
          .slice(at + 1)
          .replace(/\)$/, "")
          .trim(),
      ];
}
