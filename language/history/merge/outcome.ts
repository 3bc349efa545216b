/** What a merge makes of a stretch: lines as they go into the file, or two versions that only a person can choose between. */
export type Outcome =
  | { readonly is: "lines"; readonly lines: readonly Line[] }
  | { readonly is: "conflict"; readonly ours: readonly Line[]; readonly theirs: readonly Line[] };

export interface Line {
  readonly text: string;
  /** Empty at the end of a text. */
  readonly eol: string;
}

export const lines = (...all: readonly Line[]): Outcome => ({ is: "lines", lines: all });
export const conflict = (ours: readonly Line[], theirs: readonly Line[]): Outcome => ({
  is: "conflict",
  ours,
  theirs,
});
