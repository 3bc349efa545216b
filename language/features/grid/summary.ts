import type { Reading } from "../../science/censored.ts";
import { median } from "../../science/median.ts";
import { type Figure, isOutside, type Outside, outside } from "../../science/result.ts";
import { theilSen } from "../../science/trend.ts";
import type { View } from "../view.ts";
import { type CellToRead, cellsOfRow, readCells } from "./cell-readings.ts";
import type { ColumnId, Face } from "./grid-model.ts";
import { gridColumns, gridRowsById } from "./query.ts";

/**
 * What some cells come to. Of readings that are censored only their ends are known: mean and median are then told by the least and the most
 * they can be, and nothing is put in for a `<5`.
 */
export interface GridSummary {
  readonly cells: number;
  /** How many of them hold a number. */
  readonly numbers: number;
  /** How many of those are censored or ranges. */
  readonly open: number;
  /** What all are measured in; empty for plain numbers. */
  readonly unit: string;
  readonly least: Ends;
  readonly most: Ends;
  readonly mean: Ends;
  readonly median: Ends;
  readonly sum: Ends;
  /** Theil-Sen (`science/trend.ts`), in a day; or why there is none. */
  readonly slope: { readonly perDay: number; readonly low: Figure; readonly high: Figure } | Outside;
}

/** The least and the most that something is; the same twice where it is known. May be infinite. */
export interface Ends {
  readonly low: number;
  readonly high: number;
}

/** What a selection comes to: some columns of some rows. */
export function gridSummary(
  view: View,
  face: Face,
  rows: readonly string[],
  columns: readonly ColumnId[],
): GridSummary | Outside | undefined {
  const known = new Map(gridColumns(view, face).map((column) => [column.id, column]));
  const cells = gridRowsById(view, face, rows, [...columns, "time"]).flatMap((row) =>
    cellsOfRow(row, columns, known),
  );
  return summaryOf(cells);
}

/** More pairs are not worth the wait. A choice of this tool. */
const mostForSlope = 1000;

/** Undefined where no cell holds a number; a reason where they are of units that do not go together. */
export function summaryOf(cells: readonly CellToRead[]): GridSummary | Outside | undefined {
  const found = readCells(cells);
  if (found === undefined || isOutside(found)) return found;
  const { unit } = found;
  const readings = found.read.map(({ reading }) => reading);
  const [lows, highs] = [readings.map(({ low }) => low), readings.map(({ high }) => high)];
  const sum: Ends = { low: total(lows), high: total(highs) };
  const count = readings.length;
  return {
    cells: cells.length,
    numbers: count,
    open: readings.filter(({ is }) => is !== "figure").length,
    unit: unit?.symbol ?? "",
    least: { low: least(lows), high: least(highs) },
    most: { low: -least(lows.map((low) => -low)), high: -least(highs.map((high) => -high)) },
    mean: { low: sum.low / count, high: sum.high / count },
    median: { low: median(lows), high: median(highs) },
    sum,
    slope: slopeOf(
      found.read.map(({ cell }) => cell.time),
      readings,
    ),
  };
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const least = (values: readonly number[]): number =>
  values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY);

function slopeOf(times: readonly number[], readings: readonly Reading[]): GridSummary["slope"] {
  const dated = readings.flatMap((reading, at) =>
    Number.isNaN(times[at]!) ? [] : [{ reading, time: times[at]! }],
  );
  if (dated.length > mostForSlope) return outside(`a slope is told of ${mostForSlope} readings at most`);
  const slope = theilSen(
    dated.map(({ time }) => time),
    dated.map(({ reading }) => reading),
  );
  if (isOutside(slope)) return slope;
  const { interval, perDay } = slope;
  return isOutside(interval)
    ? { perDay, low: interval, high: interval }
    : { perDay, low: interval.low, high: interval.high };
}
