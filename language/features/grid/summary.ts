import { findParameter } from "../../book/parameters.ts";
import { LEAST } from "../../quantity/dimension.ts";
import { ambiguousSpelling } from "../../quantity/unit-codes.ts";
import { UNITS, type Unit } from "../../quantity/units.ts";
import { above, below, figure, type Reading } from "../../science/censored.ts";
import { type Figure, isOutside, type Outside, outside } from "../../science/result.ts";
import { theilSen } from "../../science/trend.ts";
import { type LineSink, parseBlock } from "../../syntax/parser.ts";
import { Mark, Piece, type Pieces } from "../../syntax/pieces.ts";
import type { View } from "../view.ts";
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

export interface SummaryCell {
  readonly text: string;
  /** In days, the time of day as a share; NaN where it has none. */
  readonly time: number;
  /** The symbol of the unit of a number without one. */
  readonly unit?: string;
  /** No reading of it is less: 0 of a concentration, none of a temperature. */
  readonly floor?: number;
}

/** What a selection comes to: some columns of some rows. */
export function gridSummary(
  view: View,
  face: Face,
  rows: readonly string[],
  columns: readonly ColumnId[],
): GridSummary | Outside | undefined {
  const known = new Map(gridColumns(view, face).map((column) => [column.id, column]));
  const cells = gridRowsById(view, face, rows, [...columns, "time"]).flatMap((row): SummaryCell[] => {
    // What is one text is no number of a column.
    if (row.cells.length !== columns.length + 1) return [];
    const { text, implied } = row.cells.at(-1)!;
    const clock = /^(\d{1,2}):(\d{2})$/.exec(text || implied);
    const minute = clock === null ? 0 : Number(clock[1]) * 60 + Number(clock[2]);
    return columns.map((id, at) => {
      const parameter = findParameter(id.replace(/^(?:test|change) /, ""));
      const isReading = id.startsWith("test ") && parameter !== undefined;
      // Only of what is counted from nothing is a floor known.
      const floor = isReading && LEAST[parameter.dimension] === 0 ? { floor: 0 } : {};
      return {
        text: row.cells[at]!.text,
        time: row.day + minute / 1440,
        unit: known.get(id)?.unit ?? "",
        ...floor,
      };
    });
  });
  return summaryOf(cells);
}

/** More pairs are not worth the wait. A choice of this tool. */
const mostForSlope = 1000;

/** Undefined where no cell holds a number; a reason where they are of units that do not go together. */
export function summaryOf(cells: readonly SummaryCell[]): GridSummary | Outside | undefined {
  const read = cells.flatMap((cell) => {
    const number = numberIn(cell.text);
    return number === undefined ? [] : [{ cell, ...number, unit: number.unit ?? unitNamed(cell.unit) }];
  });
  const [first] = read;
  if (first === undefined) return undefined;
  const stated = read.map(({ unit }) => unit).find((unit) => unit !== undefined);
  // A number without a unit is in that of its column; beside those of another kind it says nothing.
  const isMixed = read.some(
    ({ unit }) => unit?.dimension !== stated?.dimension || (unit !== stated && unit?.basis !== stated?.basis),
  );
  if (isMixed) return outside("these cells are of different units");
  const readings = read.map(({ cell, unit, low, high, mark }): Reading => {
    const shown = (value: number): number =>
      unit === undefined || stated === undefined || unit === stated
        ? value
        : (value * unit.factor + unit.offset - stated.offset) / stated.factor;
    const floor = cell.floor ?? Number.NEGATIVE_INFINITY;
    if (mark === Mark.below || mark === Mark.atMost) return below(shown(low), floor);
    if (mark === Mark.above || mark === Mark.atLeast) return above(shown(low));
    if (mark === Mark.range) return { low: shown(low), high: shown(high), is: "between" };
    return figure(shown(low));
  });
  const [lows, highs] = [readings.map(({ low }) => low), readings.map(({ high }) => high)];
  const sum: Ends = { low: total(lows), high: total(highs) };
  const count = readings.length;
  return {
    cells: cells.length,
    numbers: count,
    open: readings.filter(({ is }) => is !== "figure").length,
    unit: stated?.symbol ?? "",
    least: { low: least(lows), high: least(highs) },
    most: { low: -least(lows.map((low) => -low)), high: -least(highs.map((high) => -high)) },
    mean: { low: sum.low / count, high: sum.high / count },
    median: { low: median(lows), high: median(highs) },
    sum,
    slope: slopeOf(
      read.map(({ cell }) => cell.time),
      readings,
    ),
  };
}

const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
const least = (values: readonly number[]): number =>
  values.reduce((low, value) => Math.min(low, value), Number.POSITIVE_INFINITY);

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

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

interface Read {
  readonly low: number;
  readonly high: number;
  readonly mark: number;
  readonly unit: Unit | undefined;
}

/** The number that a text is, with its unit; undefined for any other text. */
function numberIn(text: string): Read | undefined {
  const sink = new NumberSink();
  if (!/\d/.test(text) || /[\r\n]/.test(text)) return undefined;
  parseBlock(text, sink, true);
  return sink.found;
}

class NumberSink implements LineSink {
  found: Read | undefined;

  head(): void {}

  line(pieces: Pieces): void {
    if (pieces.count !== 1) return;
    const [kind] = pieces.kind;
    const [value, second, third] = [pieces.value[0]!, pieces.second[0]!, pieces.third[0]!];
    if (kind === Piece.sexed) {
      const animals = value + second + third;
      this.found = { low: animals, high: animals, mark: Mark.exact, unit: undefined };
    } else if (kind === Piece.quantity) {
      const code = pieces.unit[0]!;
      // A spelling that may be several units is none that can be reckoned with.
      if (ambiguousSpelling(code) !== undefined) return;
      this.found = { low: value, high: second, mark: pieces.mark[0]!, unit: UNITS[code] };
    }
  }

  broken(): void {}
}

function unitNamed(symbol: string | undefined): Unit | undefined {
  return symbol === undefined || symbol === "" ? undefined : UNITS.find((unit) => unit.symbol === symbol);
}
