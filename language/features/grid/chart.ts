import { parameters } from "../../book/parameters.ts";
import { isOutside } from "../../science/result.ts";
import type { View } from "../view.ts";
import { type CellToRead, cellsOfRow, readCells } from "./cell-readings.ts";
import type { ColumnId, Face, GridCell, GridColumn, GridRow } from "./grid-model.ts";
import { gridColumns, gridRowsById } from "./query.ts";
import { limitOf } from "./round-figures.ts";

/** Columns of figures drawn: over time, or side by side where a face is of one day or of definitions. What is unbounded is null. */

export interface GridChart {
  /** What stands side by side; null over time. */
  readonly names: readonly string[] | null;
  readonly today: number;
  readonly columns: readonly ChartedColumn[];
  /** The columns that are no figures, and why; by their titles. */
  readonly left: readonly { readonly title: string; readonly why: string }[];
}

export interface ChartedColumn {
  readonly id: ColumnId;
  readonly title: string;
  readonly unit: string;
  /** The one limit of all its points; null where there is none, or each has its own. */
  readonly limit: ChartedLimit | null;
  readonly points: readonly ChartedPoint[];
}

export interface ChartedLimit {
  readonly low: number | null;
  readonly high: number | null;
  /** `at most 25 mg/L`. */
  readonly text: string;
}

export interface ChartedPoint {
  readonly row: string;
  /** In days; among names its number, from 0. */
  readonly at: number;
  /** The least and the most that it is, the same twice for a plain figure. */
  readonly low: number | null;
  readonly high: number | null;
  /** As it is written, with its unit. */
  readonly text: string;
  readonly state: GridCell["state"];
  /** What stands behind a figure that is reckoned. */
  readonly detail: string;
  /** Where it is not that of all. */
  readonly limit: ChartedLimit | null;
}

/** More charts are not told apart. A choice of this tool. */
export const mostCharted = 8;

export function gridChart(
  view: View,
  face: Face,
  ids: readonly string[],
  columns: readonly ColumnId[],
): GridChart {
  const known = new Map(gridColumns(view, face).map((column) => [column.id, column]));
  const named = namedBy(face);
  const rows = gridRowsById(view, face, ids, [...columns, ...(named === undefined ? [] : [named]), "time"]);
  const names = named === undefined ? null : rows.map(({ cells }) => cells.at(-2)?.text ?? "");
  const charted: ChartedColumn[] = [];
  const left: { title: string; why: string }[] = [];
  columns.forEach((id, at) => {
    const column = known.get(id);
    if (column === undefined) return;
    const made = columnOf(view, face, column, rows, at);
    if (typeof made === "string") left.push({ title: column.title, why: made });
    else if (charted.length < mostCharted) charted.push(made);
    else left.push({ title: column.title, why: `no more than ${mostCharted} are drawn` });
  });
  return { names, today: view.checked.logbook.today(view.worldDay), columns: charted, left };
}

/** By what the rows of a face are told apart; undefined where it is when they were. */
function namedBy(face: Face): ColumnId | undefined {
  if (face.is === "definitions") return face.of === "room" ? "title" : "name";
  return face.is === "rounds" && face.of === "day" ? "tank" : undefined;
}

interface CellOfRow extends CellToRead {
  readonly row: GridRow;
  readonly at: number;
  readonly cell: GridCell;
}

function columnOf(
  view: View,
  face: Face,
  column: GridColumn,
  rows: readonly GridRow[],
  place: number,
): ChartedColumn | string {
  const isNamed = namedBy(face) !== undefined;
  const known = new Map([[column.id, column]]);
  const cells = rows.flatMap((row, index): CellOfRow[] => {
    const cell = row.cells[place];
    const time = row.cells.at(-1);
    if (row.cells.length <= place + 1 || cell === undefined || time === undefined) return [];
    const [read] = cellsOfRow({ ...row, cells: [cell, time] }, [column.id], known);
    const at = isNamed ? index : read!.time;
    return Number.isNaN(at) ? [] : [{ ...read!, row, at, cell }];
  });
  const found = readCells(cells, column.unit);
  if (found === undefined) return "there are no numbers in it";
  if (isOutside(found)) return found.outside;
  const unit = found.unit?.symbol ?? "";
  // A limit is told in the unit of the room.
  const hasLimits = unit === column.unit;
  const points = found.read.map(
    ({ cell: { row, at, cell }, reading }): ChartedPoint => ({
      row: row.id,
      at,
      low: bound(reading.low),
      high: bound(reading.high),
      text: withUnit(cell.text, cell.unit ?? unit),
      state: cell.state,
      detail: column.isComputed ? cell.detail : "",
      limit: hasLimits ? limitAt(view, row, column.id) : null,
    }),
  );
  const [first] = points;
  const isOneLimit = points.every((point) => JSON.stringify(point.limit) === JSON.stringify(first?.limit));
  return {
    id: column.id,
    title: column.title,
    unit,
    limit: isOneLimit ? (first?.limit ?? null) : null,
    points: isOneLimit ? points.map((point) => ({ ...point, limit: null })) : points,
  };
}

const bound = (value: number): number | null => (Number.isFinite(value) ? value : null);

const withUnit = (text: string, unit: string): string =>
  unit === "" || /\p{L}|%/u.test(text) ? text : `${text} ${unit}`;

/** The limit at the place of a round. */
function limitAt(view: View, { id, is }: GridRow, column: ColumnId): ChartedLimit | null {
  const parameter = parameters.find(({ name }) => column === `test ${name}`);
  const station = is === "round" ? id.split(" ")[1] : undefined;
  if (parameter === undefined || station === undefined) return null;
  const limit = limitOf(view, station, parameter);
  if (limit === undefined) return null;
  const { units } = view.checked.book;
  const shown = (end: number): number | null =>
    Number.isFinite(end) ? units.fromReading(parameter, end) : null;
  return { low: shown(limit.low), high: shown(limit.high), text: limit.text };
}
