/**
 * What client and server say to each other beyond the language server protocol, in one place for both sides.
 *
 * This file is names and types only. Files are named by their URIs as strings, positions and ranges are those of the protocol, days are ISO 8601.
 * A client that knows nothing of it still has a server that looks at the documents it opens.
 */

import type { BoardCard } from "../features/board/board-card.ts";
import type { CardChoice } from "../features/card-at.ts";
import type { Card, WhyCard } from "../features/cards.ts";
import type { CasebookCard } from "../features/case-cards.ts";
import type { Location } from "../features/view.ts";
import type { CalculationItem, WorkedOut } from "../features/work-out.ts";

/** A request and what it takes and gives. The two type parameters live in the checker only. */
export interface RequestName<Params, Result> {
  readonly method: string;
  readonly types?: (params: Params) => Result;
}

export interface NotificationName<Params> {
  readonly method: string;
  readonly types?: (params: Params) => void;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export interface At {
  readonly uri: string;
  readonly position: Position;
}

/** What the client may say as `initializationOptions`. */
export interface ClientOptions {
  /** The client answers `filesRequest` and `readRequest`. Without it the documents that are open are all there is. */
  readonly givesFiles?: boolean;
  readonly today?: Today;
  /** Where the page of a finding's code is to be read, with `{code}` in it; findings link to it. */
  readonly pageAddress?: string;
  /** The client has these commands, to be named in lenses and hovers. */
  readonly commands?: readonly ClientCommand[];
}

/** Commands of the client that the server's answers may name. */
export type ClientCommand =
  | "standpipe.card.show"
  | "standpipe.duties.show"
  | "standpipe.places.show"
  | "editor.action.triggerSuggest";

/** The day outside. */
export interface Today {
  readonly day: string;
  /** Somebody asked for this day: it goes before what a room says of itself. */
  readonly isPinned: boolean;
}

/** Server to client: all `.tank` files of the workspace. */
export const filesRequest: RequestName<null, readonly string[]> = { method: "standpipe/files" };

/** Server to client: the text of files as they are stored; null for one that cannot be read. */
export const readRequest: RequestName<{ readonly uris: readonly string[] }, readonly (string | null)[]> = {
  method: "standpipe/read",
};

/** Client to server: another day has begun, or is asked for. */
export const todayNotification: NotificationName<Today> = { method: "standpipe/today" };

/** Client to server: folders were moved or deleted; the list of files is to be asked for again. */
export const filesChangedNotification: NotificationName<null> = { method: "standpipe/filesChanged" };

/** Server to client, some time after a change: status, duties and cards may be other ones now. */
export const changedNotification: NotificationName<null> = { method: "standpipe/changed" };

/** Client to server: how the logbook of a file stands; null for a file that is not known. */
export const statusRequest: RequestName<{ readonly uri: string }, Status | null> = {
  method: "standpipe/status",
};

export interface Status {
  /** The room's title; empty if it has none. */
  readonly title: string;
  readonly today: string;
  /** Duties and doses due today; those that were due before are in `late`. */
  readonly due: number;
  readonly late: number;
  readonly findings: {
    readonly error: number;
    readonly warning: number;
    readonly information: number;
    readonly hint: number;
  };
}

/** Client to server: what is due today or late in the logbook of a file, in the order of hands. */
export const dutiesRequest: RequestName<{ readonly uri: string }, readonly DutyItem[]> = {
  method: "standpipe/duties",
};

export interface DutyItem {
  /** `dam change 30 %`. */
  readonly what: string;
  /** `3 days late`. */
  readonly when: string;
  readonly late: number;
  /** `healthy`, `quarantine`; and what to do before the first of its stage, empty where nothing is. */
  readonly stage: string;
  readonly before: string;
  /** Where it is stated. */
  readonly uri: string;
  readonly range: Range;
  /** The line that does it, as a snippet, to be given back to `dayRequest`. */
  readonly entry: string;
}

/** Client to server: the edit that begins today, or writes what is due into it. */
export const dayRequest: RequestName<DayParams, DayEdit | null> = { method: "standpipe/day" };

export interface DayParams {
  readonly uri: string;
  /**
   * `start`: only the head of today. `sheet`: a round of the tests that are due. `round`: the printed round sheet, to be typed in.
   * `entry`: a line, as `dutiesRequest` gave it.
   */
  readonly write: "start" | "sheet" | "round" | "entry";
  readonly entry?: string;
}

export interface DayEdit {
  /** The file that today belongs in. */
  readonly uri: string;
  /** The file is not there yet. */
  readonly isNew: boolean;
  /** To be made first, all at once. */
  readonly edits: readonly { readonly range: Range; readonly newText: string }[];
  /** Where the snippet goes, after the edits. */
  readonly position: Position;
  /** May be empty. */
  readonly snippet: string;
}

/** Client to server: the board of the logbook of a file; null for a file that is not known. */
export const boardRequest: RequestName<{ readonly uri: string }, Placed<BoardCard> | null> = {
  method: "standpipe/board",
};

/** Client to server: the edits that write lines into today, in the logbook of a file; null for a file that is not known. */
export const logLinesRequest: RequestName<LogLinesParams, LogLines | null> = { method: "standpipe/logLines" };

export interface LogLinesParams {
  readonly uri: string;
  /** Whole lines without indentation: `dam change 30 %`. */
  readonly lines: readonly string[];
  /** Not yet today's: takes such lines out again, those that stand last. */
  readonly takeBack?: boolean;
  /** Of lines taken back: as `LogLines` has it; the day goes with them where nothing else stands under it. */
  readonly begun?: string;
}

export type LogLines =
  | (Omit<DayEdit, "position" | "snippet"> & {
      /** The lines as they were written: those of all tanks of a group are one line of the group. */
      readonly written: readonly string[];
      /** The day was begun for them: what was put before its head, perhaps nothing. */
      readonly begun?: string;
    })
  | {
      /** Why a line cannot be written, or taken back; nothing of it is. */
      readonly refused: readonly { readonly line: number; readonly message: string }[];
    };

/** Client to server: what is to be seen at a place at a glance, a tank, a day or a case; null where there is none. */
export const cardRequest: RequestName<At, Placed<Card> | null> = { method: "standpipe/card" };

/** Client to server: the card of a tank or system, of a day, or of a case, in the logbook of a file; null where there is none. */
export const cardOfRequest: RequestName<CardOfParams, Placed<Card> | null> = { method: "standpipe/cardOf" };

export interface CardOfParams {
  readonly uri: string;
  /** The name of a tank or system. */
  readonly tank?: string;
  /** A whole number of days since 1970-01-01, as cards have it. */
  readonly day?: number;
  /** The name of a case, and which time of one that came back; without it the latest. */
  readonly case?: string;
  readonly episode?: number;
}

/** Client to server: all cases of the logbook of a file, for the casebook; null for a file that is not known. */
export const casebookRequest: RequestName<{ readonly uri: string }, Placed<CasebookCard> | null> = {
  method: "standpipe/casebook",
};

/** Client to server: the tanks and systems of the logbook of a file, to choose one from. */
export const cardChoicesRequest: RequestName<{ readonly uri: string }, readonly CardChoice[]> = {
  method: "standpipe/cardChoices",
};

/** Client to server: why the figure at a place is what it is, as a tree; null where there is none. */
export const whyRequest: RequestName<At, Placed<WhyCard> | null> = { method: "standpipe/why" };

/** A place in a file as the protocol has it. */
export interface FilePlace {
  readonly uri: string;
  readonly range: Range;
}

/** The same with offsets turned into lines: every `Location` in it is a `FilePlace`. */
export type Placed<T> = T extends Location
  ? FilePlace
  : T extends readonly (infer Item)[]
    ? readonly Placed<Item>[]
    : T extends object
      ? { readonly [Key in keyof T]: Placed<T[Key]> }
      : T;

/** Client to server: the page of a finding's code in Markdown; null for a code there is not. */
export const pageRequest: RequestName<{ readonly code: string }, string | null> = {
  method: "standpipe/page",
};

/** Client to server: all codes with their titles, for a pick. */
export const codesRequest: RequestName<null, readonly { readonly code: string; readonly title: string }[]> = {
  method: "standpipe/codes",
};

/** Client to server: every calculation, in groups, for a pick. */
export const calculationsRequest: RequestName<null, readonly CalculationItem[]> = {
  method: "standpipe/calculations",
};

/** Client to server: works a calculation out; null for one that there is not. */
export const workRequest: RequestName<WorkParams, WorkedOut | null> = { method: "standpipe/work" };

export interface WorkParams {
  readonly calculation: string;
  /** What was typed for inputs, by their names; an empty text takes back what was typed. */
  readonly given: Readonly<Record<string, string>>;
  /** The log to fill the rest from, and where in it; without them nothing is filled. */
  readonly uri?: string;
  readonly position?: Position;
  /** The tank or system to fill from, before the one at the position. */
  readonly tank?: string;
}

/** Client to server: the page of a calculation in Markdown; null for one that there is not. */
export const calculationPageRequest: RequestName<{ readonly name: string }, string | null> = {
  method: "standpipe/calculationPage",
};

/** Client to server: the cases of the logbook of a file, open ones first; with a position which of them is named there. */
export const sheetCasesRequest: RequestName<
  { readonly uri: string; readonly position?: Position },
  readonly SheetCase[]
> = { method: "standpipe/sheetCases" };

export interface SheetCase {
  readonly name: string;
  readonly since: string;
  /** Null while it is open. */
  readonly closed: string | null;
  readonly tanks: readonly string[];
  readonly samples: number;
  readonly isHere: boolean;
}

/** Client to server: the laboratory sheet of a case; null for one that there is not. */
export const laboratorySheetRequest: RequestName<
  { readonly uri: string; readonly case: string; readonly form: "markdown" | "html" },
  string | null
> = { method: "standpipe/laboratorySheet" };

/**
 * Client to server: the next part of a logbook that is being exported; part 0 begins anew, one below 0 gives up. Null for a file of no
 * logbook, or where the log was edited meanwhile.
 */
export const exportRequest: RequestName<ExportParams, ExportPart | null> = { method: "standpipe/export" };

export type ExportForm = "csv" | "json" | "ndjson" | "parquet";

export interface ExportParams {
  readonly uri: string;
  readonly form: ExportForm;
  /** Of CSV and Parquet. */
  readonly table?: string;
  readonly part: number;
}

export interface ExportPart {
  /** Of Parquet its bytes, in base64. */
  readonly text: string;
  readonly filesDone: number;
  readonly files: number;
  readonly isLast: boolean;
  /** How many lines of the log, or rows of the table, were told up to here. */
  readonly told: number;
  /** Files of the log that cannot be read, by name: what stands in them is missing. */
  readonly unread: readonly string[];
}
