/** A line of a log, with what it is about. */

/** One thing that a line says: of `test nitrate 18 mg/L, pH 7.2` there are two. */
export interface LineFact {
  /** What it is about: `nitrate`, `every change`; of a row the head of its column; empty where the line alone says it. */
  readonly about: string;
  /** What is said of it, white space evened out; empty where being named is all. */
  readonly value: string;
  /** Offsets in the block. */
  readonly start: number;
  readonly end: number;
}

export type LogLineKind =
  | "head"
  | "entry"
  /** The head of a round. */
  | "sheet"
  | "row"
  | "property"
  | "comment"
  | "blank"
  /** What nothing can be read from. */
  | "unread"
  /** Lines that another text of the log has too, letter for letter, and that were not read. */
  | "shared";

export interface LogLine {
  readonly kind: LogLineKind;
  /** Offset in the block. */
  readonly start: number;
  /** Without its line end. */
  readonly text: string;
  /** LF, CRLF, CR, or nothing at the end of a text. */
  readonly eol: string;
  /** Minutes after midnight at which it counts; 0 where no time stands above. */
  readonly minute: number;
  /** The time as it is written on the line; empty where there is none. */
  readonly time: string;
  /** The target of an entry or row, `@rack` for a group; else empty. */
  readonly station: string;
  /** The word of an entry's kind, `test` and `count` of a row alike `row`; of a property its first word. */
  readonly word: string;
  readonly facts: readonly LineFact[];
  /** What of it is no such thing: `time`, `station`, `word`, `note` for the text at the end, and `column` for each head of a round. */
  readonly parts: readonly LineFact[];
  /** The text in quotes at the end, with its quotes. */
  readonly note: string;
  /** The comment at its end, with its mark. */
  readonly comment: string;
  /** All it says but its time and comment, white space evened out: two lines with the same content say the same. */
  readonly content: string;
}
