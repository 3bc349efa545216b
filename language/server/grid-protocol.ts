/** What the grid asks of the server: cells without what is empty in them, as a window of them goes over the wire at every page. */

import type { CellCompletion } from "../features/grid/cell-completion.ts";
import type { GridChart } from "../features/grid/chart.ts";
import type {
  CellRef,
  ColumnId,
  Face,
  GridCell,
  GridColumn,
  GridMark,
  GridQuery,
  NewRow,
  RowKind,
} from "../features/grid/grid-model.ts";
import type { DefinitionWord } from "../syntax/blocks.ts";
import type { FilePlace, NotificationName, Position, Range, RequestName } from "./protocol.ts";

/** In the logbook of a file. */
export interface GridAbout {
  readonly uri: string;
  readonly face: Face;
  /** The text of a file that the server does not know, of an older revision: a logbook of its own that nobody writes in. */
  readonly text?: string;
}

export type GridView = Omit<GridQuery, "from" | "count" | "isUnmarked">;

/** Client to server: a window of rows; null for a file that is not known. */
export const gridRequest: RequestName<GridAsked, GridPage | null> = { method: "standpipe/grid" };

export interface GridAsked extends GridAbout {
  readonly query: GridQuery;
  /** A row: where is it now? */
  readonly track?: string;
  /** Which row is at this place of the file? */
  readonly place?: Position;
}

export interface GridPage {
  /** The version of the document it was made of; null for one that is not open. */
  readonly version: number | null;
  readonly columns: readonly GridColumn[];
  readonly shown: readonly ColumnId[];
  readonly total: number;
  readonly from: number;
  readonly rows: readonly PageRow[];
  readonly problem: string;
  /** -1 where it is gone, or nobody asked. */
  readonly trackedAt: number;
  readonly placedAt: number;
}

export interface PageRow {
  readonly id: string;
  readonly is: RowKind;
  /** From 0; -1 for what is not written yet. */
  readonly line: number;
  readonly cells: readonly PageCell[];
}

export type PageCell = Pick<GridCell, "text"> &
  Partial<Pick<GridCell, "fixed" | "implied" | "state" | "detail" | "unit">> & {
    readonly marks?: readonly Pick<GridMark, "code" | "severity" | "message">[];
  };

/** Rows under each other as they were seen: with the first and the last by what they are called, so that others are noticed. */
export interface RowRange {
  readonly view: GridView;
  readonly from: number;
  readonly count: number;
  readonly first: string;
  readonly last: string;
  readonly columns: readonly ColumnId[];
}

export type GridChange =
  /** `was`: what the cell said to who typed; a cell that says something else by now is not written over. */
  | {
      readonly is: "cells";
      readonly cells: readonly (CellRef & { readonly text: string; readonly was?: string })[];
    }
  | { readonly is: "paste"; readonly over: RowRange; readonly cells: readonly (readonly string[])[] }
  | { readonly is: "clear"; readonly over: RowRange }
  | { readonly is: "down"; readonly over: RowRange }
  | { readonly is: "series"; readonly over: RowRange; readonly seeds: number }
  | { readonly is: "delete"; readonly over: RowRange }
  | ({ readonly is: "replace"; readonly by: string } & GridFind)
  | { readonly is: "insert"; readonly behind?: string; readonly rows: readonly NewRow[] };

/** Client to server: the edits that a change of cells comes to; null for a file that is not known. Nothing is written by the server. */
export const gridChangeRequest: RequestName<GridChangeParams, GridWritten | null> = {
  method: "standpipe/gridChange",
};

export interface GridChangeParams extends GridAbout {
  readonly change: GridChange;
  /** By what it is told how much is done, where that takes long. */
  readonly ticket?: number;
}

/** Server to client: how much of a change is done, from 0 to 1. */
export const gridProgressNotification: NotificationName<{ readonly ticket: number; readonly share: number }> =
  { method: "standpipe/gridProgress" };

export type GridWritten =
  | {
      readonly is: "edits";
      readonly cells: number;
      /** Of what was to be replaced, what cannot be edited. */
      readonly left: number;
      readonly files: readonly {
        readonly uri: string;
        /** The version they were made for; null for a document that is not open. */
        readonly version: number | null;
        readonly isNew: boolean;
        readonly edits: readonly { readonly range: Range; readonly newText: string }[];
      }[];
    }
  | { readonly is: "refused"; readonly message: string; readonly at?: CellRef };

/** Client to server: cells for a table elsewhere, and what they come to. */
export const gridCopyRequest: RequestName<GridAbout & { readonly over: RowRange }, string | null> = {
  method: "standpipe/gridCopy",
};
export const gridSummaryRequest: RequestName<GridAbout & { readonly over: RowRange }, readonly Summed[]> = {
  method: "standpipe/gridSummary",
};

/** Client to server: columns of figures, to be drawn; `moved` where the rows are not those any more. */
export const gridChartRequest: RequestName<
  GridAbout & { readonly over: ChartOver },
  GridCharted | "moved" | null
> = {
  method: "standpipe/gridChart",
};

/** Some rows as they were seen, or those that are called so. */
export type ChartOver =
  | RowRange
  | { readonly rows: readonly string[]; readonly columns: readonly ColumnId[] };

export interface GridCharted extends GridChart {
  /** What the rows are called: of very many the last ones. */
  readonly rows: readonly string[];
  /** How many were left out before them. */
  readonly skipped: number;
}

/** `mean`, `7.2 mg/L`. */
export interface Summed {
  readonly name: string;
  readonly text: string;
}

/** Client to server: cells that hold a text, over all rows. */
export const gridFindRequest: RequestName<GridAbout & GridFind, GridFound | null> = {
  method: "standpipe/gridFind",
};

export interface GridFind {
  readonly view: GridView;
  readonly text: string;
  readonly isCaseSensitive: boolean;
}

export interface GridFound {
  /** By match its row and the place of its column among those shown, in the order of rows. */
  readonly places: readonly (readonly [row: number, column: number])[];
}

/** Client to server: what may be typed in a cell, or in one of a row that is not written yet. */
export const gridCompletionRequest: RequestName<
  GridAbout & {
    readonly column: ColumnId;
    readonly typed: string;
    readonly caret: number;
    readonly of: { readonly row: string } | { readonly fresh: NewRow };
  },
  readonly CellCompletion[]
> = { method: "standpipe/gridCompletion" };

/** Client to server: where a cell stands in the text, or its row; null where nothing is written. */
export const gridPlaceRequest: RequestName<GridAbout & { readonly cell: CellRef }, FilePlace | null> = {
  method: "standpipe/gridPlace",
};

/** Client to server: what the faces may be of. */
export const gridChoicesRequest: RequestName<Omit<GridAbout, "face">, GridChoices | null> = {
  method: "standpipe/gridChoices",
};

export interface GridChoices {
  readonly kinds: readonly { readonly word: string; readonly title: string }[];
  readonly places: readonly { readonly name: string; readonly title: string }[];
  readonly definitions: readonly { readonly word: string; readonly title: string }[];
  /** What the file defines first; null where it defines nothing. */
  readonly first: DefinitionWord | null;
  /** It defines and has no day. */
  readonly isDefining: boolean;
  /** As days of the log have it; NaN does not go over the wire: null where there is none. */
  readonly firstDay: number | null;
  readonly lastDay: number | null;
  readonly today: number;
}
