import type {
  ToldCause,
  ToldConsequence,
  ToldDay,
  ToldFollows,
  ToldGroup,
  ToldLine,
  ToldReview,
} from "../history/review/told.ts";
import type { FilePlace, RequestName } from "./protocol.ts";

/** What client and server say to each other of versions of a log. Names and types only, as in `protocol.ts`. */

/** A file as it is in a version, where that is another than the file as it is now; null where the version has none. */
export interface VersionText {
  /** Of the file in the work tree, or where it would be. */
  readonly uri: string;
  readonly text: string | null;
}

export interface ReviewParams {
  /** A file of the logbook. */
  readonly uri: string;
  readonly before: readonly VersionText[];
  /** None for the files as they are. */
  readonly after: readonly VersionText[];
  /** What the two are called, for the page. */
  readonly from: string;
  readonly to: string;
  /** Every entry and every small difference. */
  readonly all: boolean;
}

/** Client to server: what changed between two versions of a logbook, and what follows; null for a file of no logbook. */
export const reviewRequest: RequestName<ReviewParams, ReviewAnswer | null> = { method: "standpipe/review" };

export interface ReviewAnswer extends Omit<ToldReview, "follows" | "groups"> {
  readonly follows: readonly (Omit<ToldFollows, "items"> & { readonly items: readonly FollowItem[] })[];
  readonly groups: readonly (Omit<ToldGroup, "days"> & {
    readonly days: readonly ChangeDayItem[];
    /** Lines of it that are not among them: a view has an end. */
    readonly left: number;
  })[];
  /** The same as Markdown. */
  readonly page: string;
}

export type FollowItem = Omit<ToldConsequence, "at" | "causes"> & {
  readonly at: FilePlace | null;
  readonly causes: readonly CauseItem[];
};
export type CauseItem = Omit<ToldCause, "before" | "after"> & Pick<ChangeItem, "before" | "after">;
export type ChangeDayItem = Omit<ToldDay, "lines"> & { readonly lines: readonly ChangeItem[] };
export type ChangeItem = Omit<ToldLine, "before" | "after"> & {
  /** The line in the version before, and now; null where it is not there, or where it stands for many. */
  readonly before: FilePlace | null;
  readonly after: FilePlace | null;
};

export interface LineHistoryParams {
  /** The file of the line, in any version. */
  readonly uri: string;
  /** From 0, in the first text. */
  readonly line: number;
  /** The file as it is, and then in each version before, the latest first; null where it was not there. */
  readonly texts: readonly (string | null)[];
  /** Only changes of this value; empty for all. */
  readonly value: string;
}

/** Client to server: what became of a line from version to version of its file; null for a line that says nothing. */
export const lineHistoryRequest: RequestName<LineHistoryParams, LineHistory | null> = {
  method: "standpipe/lineHistory",
};

export interface LineHistory {
  readonly steps: readonly LineStep[];
  /** Which of the texts has it first, and where; null where the oldest has it already. */
  readonly first: { readonly at: number; readonly line: number } | null;
}

export interface LineStep {
  /** Which of the texts made it so. */
  readonly at: number;
  readonly is: ToldLine["is"];
  readonly text: string;
  /** The line, from 0, in that text; and in the one before, null where it was not there. */
  readonly line: number;
  readonly lineBefore: number | null;
}

export interface NameHistoryParams {
  /** A file of the logbook. */
  readonly uri: string;
  /** Of a tank, a system, a gear, anything that is defined. */
  readonly name: string;
  /** For each time something was changed the files that are others, as they were and as they are then; null for as they are now. */
  readonly steps: readonly {
    readonly before: readonly VersionText[];
    readonly after: readonly VersionText[] | null;
  }[];
}

/** Client to server: what was changed of a name at each of some times; null for a file of no logbook. */
export const nameHistoryRequest: RequestName<NameHistoryParams, readonly (readonly NameStep[])[] | null> = {
  method: "standpipe/nameHistory",
};

export interface NameStep extends Pick<LineStep, "is" | "text"> {
  /** `1 March`; `tank dam` of a definition. */
  readonly of: string;
  /** Where it stood and stands, its line from 0; null where it does not. */
  readonly before: { readonly uri: string; readonly line: number } | null;
  readonly after: { readonly uri: string; readonly line: number } | null;
}

export interface LineOriginParams {
  readonly uri: string;
  /** From 0, in the file as it is after. */
  readonly line: number;
  /** The files that are others, as they were and as they are then; null for as they are now. */
  readonly before: readonly VersionText[];
  readonly after: readonly VersionText[] | null;
  /** Only a change of this value; empty for any. */
  readonly value: string;
}

/** Client to server: from which line of any file a line came that is new in its own; null where it came from none. */
export const lineOriginRequest: RequestName<LineOriginParams, LineOrigin | null> = {
  method: "standpipe/lineOrigin",
};

export interface LineOrigin {
  readonly uri: string;
  readonly line: number;
  /** What was changed of it on the way; null where that is nothing that was asked for. */
  readonly change: Pick<LineStep, "is" | "text"> | null;
}
