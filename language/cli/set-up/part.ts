/** What `standpipe git` sets up, in parts that each can be looked at, put in and taken out again. */

export type PartName = "attributes" | "merge" | "diff" | "hook";

/** `missing`; `set` as it would be set now; `old` for what an earlier run set and would be set otherwise now; `foreign` for what is not ours. */
export type PartState = "missing" | "set" | "old" | "foreign";

export interface Part {
  readonly name: PartName;
  /** The file, or the section of the settings. */
  readonly where: string;
  readonly state: PartState;
  /** What is, or would be, put in. */
  readonly lines: readonly string[];
  /** Why it cannot be put in; what to do instead. */
  readonly refused?: string;
  /** Of what is refused the line that does it: to be copied, and so never wrapped. */
  readonly byHand?: string;
  put(): void;
  /** Takes it out; undefined if that could be done, else why not. */
  take(): string | undefined;
}

export const begin = "# standpipe git: begin";
export const end = "# standpipe git: end";

/** The stretch between our marks, the marks included; undefined where there is none. */
export function marked(text: string): string | undefined {
  const from = text.indexOf(begin);
  const to = from < 0 ? -1 : text.indexOf(end, from);
  return to < 0 ? undefined : text.slice(from, to + end.length);
}
