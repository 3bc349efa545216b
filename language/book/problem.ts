/** Something a line says that cannot be read as an entry or a property; found from the text of its block alone. */
export interface Problem {
  /** A code of `checks/codes.ts`. */
  readonly code: string;
  /** Offsets in the block's text. */
  readonly start: number;
  readonly end: number;
  /** The finding in the keeper's words. */
  readonly message: string;
  /** The line counts all the same. */
  readonly counts: boolean;
  /** Replacements of `start..end` that would mend it, the likeliest first. */
  readonly mends: readonly Mend[];
}

export interface Mend {
  readonly title: string;
  readonly text: string;
  /** Where the text goes, if not over the whole of the problem. */
  readonly start?: number;
  readonly end?: number;
  /** A second replacement that goes with it. */
  readonly also?: { readonly text: string; readonly start: number; readonly end: number };
}
