import type { Mend } from "../book/problem.ts";
import type { Block } from "../book/source.ts";
import type { Place, Station } from "../book/stations.ts";
import type { Why } from "../room/why.ts";
import type { Severity } from "./code.ts";
import type { Code } from "./codes.ts";

export type { Severity } from "./code.ts";

/** Something to see to, or to know, at a place in the log. */
export interface Finding {
  readonly code: Code;
  readonly severity: Severity;
  readonly block: Block;
  /** Offsets in the block's text. */
  readonly start: number;
  readonly end: number;
  readonly message: string;
  /** What would mend it, the surest first. */
  readonly fixes: readonly Fix[];
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  /** What it follows from. */
  readonly why: Why | undefined;
  /** What it is about, where its place does not say: of a group's duty the tank. */
  readonly about?: Station;
}

/** A way to mend a finding, as edits. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly FixEdit[];
  /** The one to take without asking. */
  readonly isSure: boolean;
}

export interface FixEdit {
  readonly block: Block;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** The fixes that replace the place of a finding, or a part of it. */
export function fixesOf(block: Block, start: number, end: number, mends: readonly Mend[]): Fix[] {
  return mends.map((mend) => ({
    title: mend.title,
    edits: [
      { block, start: mend.start ?? start, end: mend.end ?? end, text: mend.text },
      ...(mend.also === undefined ? [] : [{ block, ...mend.also }]),
    ],
    isSure: mends.length === 1,
  }));
}
