/** What the import of a table asks of the server. The bytes of the table come from the client, which alone can read it. */

import type { Decision, Reason } from "../exchange/import/asking.ts";
import type { Counts } from "../exchange/import/import-table.ts";
import type { PreviewRow } from "../exchange/import/preview.ts";
import type { NotificationName, Range, RequestName } from "./protocol.ts";

/** So large may a table be in the editor, which holds it in memory twice; the terminal takes any. */
export const mostTableBytes = 100 * 1024 * 1024;

/**
 * Client to server: a step of an import. Null for a file of no logbook, and for a table that the server does not have: of another import, or
 * from before it was started again.
 */
export const importRequest: RequestName<ImportParams, ImportAnswer | null> = { method: "standpipe/import" };

/** In the logbook of a file; `id` is the client's own for this import. */
export type ImportParams = { readonly uri: string; readonly id: number } & (
  | {
      /** The next part of the table; part 0 begins anew. */
      readonly step: "take";
      readonly part: number;
      readonly name: string;
      /** Of the whole table. */
      readonly bytes: number;
      readonly base64: string;
    }
  | {
      readonly step: "propose";
      readonly answers: Readonly<Record<string, string>>;
      /** Mappings that lie beside the log: which of them are for this table? */
      readonly maps: readonly { readonly name: string; readonly text: string }[];
      /** The text of a mapping to begin with, in place of answers. */
      readonly by?: string;
    }
  | {
      /** What `write` would come to, without its edits. */
      readonly step: "count";
      readonly mapping: string;
    }
  | {
      readonly step: "write";
      /** As text. */
      readonly mapping: string;
    }
  /** The table is done with. */
  | { readonly step: "leave" }
);

export type ImportAnswer =
  /** `folder` ends with a slash; empty for a log that is not stored. */
  | { readonly is: "taken"; readonly folder: string }
  | { readonly is: "refused"; readonly why: string }
  | ImportProposal
  | ImportCounts
  | ImportWriting
  | { readonly is: "left" }
  /** The log was edited while the table was read. */
  | { readonly is: "outdated" };

export interface ImportProposal {
  readonly is: "proposal";
  readonly rows: number;
  /** Of its letters; empty for plain UTF-8. */
  readonly said: string;
  readonly columns: readonly {
    readonly at: number;
    readonly head: string;
    readonly as: string;
    readonly why: string;
    /** What stands in it. */
    readonly samples: readonly string[];
  }[];
  readonly reasons: readonly Reason[];
  /** Empty where the mapping is not one that is made of answers: it was written by hand. */
  readonly decisions: readonly (Decision & { readonly samples: readonly string[] })[];
  /** The answers that lead here: of `by` those it stands for. */
  readonly answers: Readonly<Record<string, string>>;
  /** As text; null while a question is open. */
  readonly mapping: string | null;
  /** Names of the mappings that are for it. */
  readonly fits: readonly string[];
  /** The first rows; `open` while a question is. */
  readonly preview: readonly PreviewRow[];
}

export interface ImportCounts {
  readonly is: "counts";
  readonly rows: Counts;
  readonly files: readonly { readonly uri: string; readonly isNew: boolean; readonly lines: number }[];
  /** The first of the rows that are rejected. */
  readonly rejects: readonly { readonly line: number; readonly why: string }[];
}

export interface ImportWriting {
  readonly is: "writing";
  readonly rows: Counts;
  /** Empty where nothing is new. `lines` counts entries. */
  readonly files: readonly {
    readonly uri: string;
    /** The version of an open document that the edits are for. */
    readonly version: number | null;
    readonly isNew: boolean;
    readonly edits: readonly { readonly range: Range; readonly newText: string }[];
    readonly lines: number;
  }[];
  /** Of the rows that were not taken. */
  readonly rejects: string | null;
}

/** Server to client: how far the reading of a table is. */
export const importProgress: NotificationName<{ readonly id: number; readonly percent: number }> = {
  method: "standpipe/importProgress",
};
