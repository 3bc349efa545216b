export type Severity = "error" | "warning" | "information" | "hint";

/** What a code of a finding says about itself: a row of the table and a page of the manual. */
export interface CodePage {
  readonly code: string;
  /** What the finding has if nothing else is said. An error means that the line does not count. */
  readonly severity: Severity;
  /** The version it came with. Codes are never used again or renamed; a removed one stays with `removed`. */
  readonly since: string;
  readonly removed?: string;
  readonly title: string;
  /** What it says and why it matters to the animals or the log. */
  readonly says: string;
  readonly whatToDo: string;
  /** A log that raises it, with the place marked, and one that just does not; run as tests. */
  readonly raises: string;
  readonly fine: string;
  /** What it rests on, if that is published; “common practice” if it is not. */
  readonly source?: string;
}

export function page<const P extends CodePage>(code: P): P {
  return code;
}
