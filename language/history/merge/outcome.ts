/** What a merge makes of a stretch: lines as they go into the file, or two versions that only a person can choose between. */
export type Outcome = { readonly is: "lines"; readonly lines: readonly Line[] } | Conflict;

/** Two versions, and what both were made of. */
export interface Conflict {
  readonly is: "conflict";
  readonly base: readonly Line[];
  readonly ours: readonly Line[];
  readonly theirs: readonly Line[];
  /** Of a block as a whole: lines of another would be read as lines of it. */
  readonly isBlock?: true;
}

export interface Line {
  readonly text: string;
  /** Empty at the end of a text. */
  readonly eol: string;
}

export const lines = (...all: readonly Line[]): Outcome => ({ is: "lines", lines: all });
export const conflict = (base: readonly Line[], ours: readonly Line[], theirs: readonly Line[]): Outcome => ({
  is: "conflict",
  base,
  ours,
  theirs,
});
