/**
 * A logbook as plain data: items in the order of its files and lines. Each item says what it is, and carries as `written` what stands in
 * the log, so that the log can be made of it again but for white space; `values` say what that means, and are not read on the way back.
 */
export type LogItem =
  | LogHead
  | FileItem
  | DefinitionItem
  | PropertyItem
  | DayItem
  | EntryItem
  | SheetItem
  | RowItem
  | TextItem;

/** The first item. */
export interface LogHead {
  readonly is: "log";
  /** The version of this form; it only grows. */
  readonly standpipe: 1;
  readonly title: string;
}

/** What follows stands in this file, up to the next. */
export interface FileItem {
  readonly is: "file";
  /** From the logbook's folder, with `/` between folders. */
  readonly path: string;
}

interface Line {
  /** In its file, from 1. */
  readonly line: number;
  /** Behind the line, from `#` on. */
  readonly comment?: string;
}

export interface DefinitionItem extends Line {
  readonly is: "definition";
  /** `tank`, `species`, `room`. */
  readonly word: string;
  /** Empty for a room, and where it is missing. */
  readonly name: string;
  readonly title: string;
  readonly written: string;
}

/** One line below a definition: one property, or several between semicolons. */
export interface PropertyItem extends Line {
  readonly is: "property";
  /** The definition's word and name. */
  readonly of: string;
  readonly written: string;
  /** The words of its properties. */
  readonly words: readonly string[];
  readonly values: readonly ValueItem[];
}

export interface DayItem extends Line {
  readonly is: "day";
  /** ISO 8601; what stands there where it is no date. */
  readonly date: string;
  readonly written: string;
}

interface Told extends Line {
  readonly date: string;
  /** As written, `08:30`; absent where none is. */
  readonly time?: string;
  /** The target, as it is written: `r4`, `@rack`. */
  readonly at: string;
  /** The tanks that it means: those of a group, or of a system. */
  readonly tanks: readonly string[];
  readonly values: readonly ValueItem[];
  readonly note?: string;
}

export interface EntryItem extends Told {
  readonly is: "entry";
  /** The word of its kind. */
  readonly entry: string;
  /** What stands between its kind and its note. */
  readonly written: string;
  /** False if a fault keeps it out of the book. */
  readonly counts: boolean;
}

/** The head of a sheet: what its rows below have in their columns. */
export interface SheetItem extends Line {
  readonly is: "sheet";
  readonly date: string;
  readonly time?: string;
  readonly written: string;
}

export interface RowItem extends Told {
  readonly is: "row";
  readonly written: string;
}

/** A comment on a line of its own, or a line that could not be read: as it stands, white space before it included. */
export interface TextItem {
  readonly is: "comment" | "unread";
  readonly line: number;
  readonly text: string;
}

/** One thing that an entry or a property says. */
export interface ValueItem {
  /** What it is of the entry: `amount`, `source`, `reading`. */
  readonly slot: string;
  /** What the figure is of: of a reading its parameter, of a dose its remedy, of a count its species. */
  readonly of?: string;
  /** From 0; in an entry that lists several. */
  readonly item?: number;
  readonly written: string;
  /** A name, a word, or the inside of a text. */
  readonly word?: string;
  /** As written; of a range the lower end, of a sexed count the sum. */
  readonly value?: number;
  /** The upper end of a range. */
  readonly high?: number;
  /** As written; absent where none stands. */
  readonly unit?: string;
  readonly mark?: "below" | "above" | "range" | "at most" | "at least" | "about";
  readonly males?: number;
  readonly females?: number;
  readonly unsexed?: number;
  /** Three lengths. */
  readonly lengths?: readonly [number, number, number];
  /** The same in the one unit that such a figure is counted in here; absent where its unit is not settled. */
  readonly meant?: {
    readonly value: number;
    readonly high?: number;
    readonly unit: string;
    /** What a concentration counts: `N`, `NO3`. */
    readonly basis?: string;
  };
}
