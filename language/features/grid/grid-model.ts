import type { Severity } from "../../checks/finding.ts";
import type { DefinitionWord } from "../../syntax/blocks.ts";
import type { Edit, Location, Span } from "../view.ts";

/**
 * A logbook as cells: plain data, so that it goes over a wire. The text is the model; a cell is a stretch of it, and what cannot be
 * shown as cells is a row of one text. Nothing here is kept beside the text.
 */

export type Face =
  /** A row a line of the days: of one file, or of all. Of one kind of entry its slots are columns too, and only its entries are rows. */
  | { readonly is: "entries"; readonly path?: string; readonly kind?: string }
  /** What was read and counted in one tank or system: a row a round, in order of time. */
  | { readonly is: "rounds"; readonly of: "tank"; readonly name: string }
  /** What was read and counted on one day: a row a tank, those in service that were not tested too. @see book/dates.ts */
  | { readonly is: "rounds"; readonly of: "day"; readonly day: number }
  /** A row a definition of one sort, its properties as columns. */
  | { readonly is: "definitions"; readonly of: DefinitionWord };

/** `date` `time` `tank` `what` `values` `note` `comment`; of a kind `slot amount`; of a definition `name` `title` `members` and its properties. */
export type ColumnId = string;

export interface GridColumn {
  readonly id: ColumnId;
  readonly title: string;
  /** Of a parameter the room's unit, what a number without one means; else empty. */
  readonly unit: string;
  readonly doc: string;
  /** Figures stand at the right. */
  readonly isFigure: boolean;
  /** Reckoned from the log and never written: no cell of it may be edited. */
  readonly isComputed: boolean;
  /** Shown where nobody chose. What is costly to reckon is not. */
  readonly isShown: boolean;
}

/**
 * `entry`, `sheet` (its heads), `row` (of a sheet) and `day` (its date and text) have cells; a `comment` alone on its line, and `text`, a line
 * that cannot be shown as cells, have one cell, `text`. `round` and `definition` are of the other faces.
 */
export type RowKind = "entry" | "sheet" | "row" | "day" | "comment" | "text" | "round" | "definition";

export interface GridRow {
  /** The same across edits of other lines. */
  readonly id: string;
  readonly is: RowKind;
  /** The whole line, without its line end; of a round its first line. Undefined for a tank that nothing is written of yet. */
  readonly at: Location | undefined;
  /** As a number of days; NaN where there is none. */
  readonly day: number;
  /** One a column that was asked for, in its order; of a `comment` or `text` row one for all. */
  readonly cells: readonly GridCell[];
}

export interface GridCell {
  /** As it is written, a text without its quotes; of what is reckoned in the room's unit. Empty where there is nothing. */
  readonly text: string;
  /** Where it stands, quotes included; undefined for what is not written. */
  readonly at: Location | undefined;
  /** Why it cannot be edited, to be said to who tries; empty where it can. */
  readonly fixed: string;
  /** What counts though it is not written: the time of the entry above. Shown faintly where the text is empty. */
  readonly implied: string;
  /** How a reading stands to the limit of its tank; empty where there is none. */
  readonly state: "" | "within" | "above" | "below" | "unsure";
  /** In words what stands behind a figure that is reckoned, or what the limit is. */
  readonly detail: string;
  /** What a number without a unit is in here, where that is not the unit of the column: that of the head of its sheet. */
  readonly unit?: string;
  readonly marks: readonly GridMark[];
}

/** A finding at a cell. Its fixes are those at its place. */
export interface GridMark extends Location {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
}

/** What is to be seen of a face. */
export interface GridQuery {
  readonly from: number;
  readonly count: number;
  /** The columns to fill; those shown where nobody chose. */
  readonly columns?: readonly ColumnId[];
  /** By these columns, the first first. The log is not re-ordered. */
  readonly sort?: readonly { readonly column: ColumnId; readonly isDown?: boolean }[];
  /** By column what is wanted of it (`features/grid/filter.ts`): `> 20`, `r1..r4`, `<5`, `"flow"`; all must hold. */
  readonly filter?: Readonly<Record<ColumnId, string>>;
  /**
   * Rows do not jump or go while they are typed in: what a sort and a filter found stays, with what is new beside it, until another is asked
   * for, or the same with another number.
   */
  readonly turn?: number;
  /** Without the findings, where somebody else tells them. */
  readonly isUnmarked?: boolean;
}

export interface GridWindow {
  /** All that the face has; the cells are of those that were asked for. */
  readonly columns: readonly GridColumn[];
  /** The columns of the cells, in their order. */
  readonly shown: readonly ColumnId[];
  /** Rows in all, after the filter. */
  readonly total: number;
  readonly from: number;
  readonly rows: readonly GridRow[];
  /** What of the filter could not be read, in words; empty where all could. */
  readonly problem: string;
}

/** A cell by what it is called. A round or definition row says by its id what it is of. */
export interface CellRef {
  readonly row: string;
  readonly column: ColumnId;
}

export interface CellChange extends CellRef {
  readonly text: string;
}

/** Edits of the text, one undoable step: of each file in order, none over another. Files that are made first stand in `newFiles`. */
export interface GridEdits {
  readonly is: "edits";
  readonly edits: readonly Edit[];
  readonly newFiles: readonly string[];
}

/** Nothing is changed. */
export interface Refusal {
  readonly is: "refused";
  /** In the keeper's words: why, and what may stand there. */
  readonly message: string;
  /** The cell that it is about. */
  readonly at?: CellRef;
}

export type GridResult = GridEdits | Refusal;

/** New row of the entries: by column what it says. Without a date it is of the day of the row it stands behind. */
export type NewRow = Readonly<Record<ColumnId, string>>;

/** A replacement in one text. */
export interface TextEdit extends Span {
  readonly text: string;
}

export const refused = (message: string, at?: CellRef): Refusal => ({
  is: "refused",
  message,
  ...(at === undefined ? {} : { at }),
});
