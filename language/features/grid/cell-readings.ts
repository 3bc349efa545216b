import { findParameter } from "../../book/parameters.ts";
import { LEAST } from "../../quantity/dimension.ts";
import { ambiguousSpelling } from "../../quantity/unit-codes.ts";
import { UNITS, type Unit } from "../../quantity/units.ts";
import { above, below, figure, type Reading } from "../../science/censored.ts";
import { type Outside, outside } from "../../science/result.ts";
import { type LineSink, parseBlock } from "../../syntax/parser.ts";
import { Mark, Piece, type Pieces } from "../../syntax/pieces.ts";
import type { ColumnId, GridColumn, GridRow } from "./grid-model.ts";

/** Cells read as numbers in one unit, for who sums them up or draws them. What is censored stays so. */

export interface CellToRead {
  readonly text: string;
  /** In days, the time of day as a share; NaN where it has none. */
  readonly time: number;
  /** The symbol of the unit of a number without one. */
  readonly unit?: string;
  /** No reading of it is less: 0 of a concentration, none of a temperature. */
  readonly floor?: number;
}

/** The cells of some columns of a row. @param row with its `time` behind those columns */
export function cellsOfRow(
  row: GridRow,
  columns: readonly ColumnId[],
  known: ReadonlyMap<ColumnId, GridColumn>,
): CellToRead[] {
  // What is one text is no number of a column.
  if (row.cells.length !== columns.length + 1) return [];
  const time = timeOf(row);
  return columns.map((id, at) => {
    const parameter = findParameter(id.replace(/^(?:test|change) /, ""));
    const isReading = id.startsWith("test ") && parameter !== undefined;
    // Only of what is counted from nothing is a floor known.
    const floor = isReading && LEAST[parameter.dimension] === 0 ? { floor: 0 } : {};
    const { text, unit = known.get(id)?.unit ?? "" } = row.cells[at]!;
    return { text, time, unit, ...floor };
  });
}

/** When a row was, by its last cell, the time. */
function timeOf({ cells, day }: GridRow): number {
  const { text, implied } = cells.at(-1)!;
  const clock = /^(\d{1,2}):(\d{2})$/.exec(text || implied);
  return day + (clock === null ? 0 : Number(clock[1]) * 60 + Number(clock[2])) / 1440;
}

export interface CellsRead<Cell> {
  /** What the readings are in; undefined for plain numbers. */
  readonly unit: Unit | undefined;
  readonly read: readonly { readonly cell: Cell; readonly reading: Reading }[];
}

/**
 * Undefined where no cell holds a number; a reason where they are of units that do not go together.
 *
 * @param preferred the symbol of the unit to read them in, where theirs can be told in it; else the first that is stated
 */
export function readCells<Cell extends CellToRead>(
  cells: readonly Cell[],
  preferred?: string,
): CellsRead<Cell> | Outside | undefined {
  const read = cells.flatMap((cell) => {
    const number = numberIn(cell.text);
    return number === undefined ? [] : [{ cell, ...number, unit: number.unit ?? unitNamed(cell.unit) }];
  });
  if (read.length === 0) return undefined;
  const stated = read.map(({ unit }) => unit).find((unit) => unit !== undefined);
  // A number without a unit is in that of its column; beside those of another kind it says nothing.
  const isAlike = (unit: Unit | undefined, other: Unit | undefined): boolean =>
    unit?.dimension === other?.dimension && (unit === other || unit?.basis === other?.basis);
  if (read.some(({ unit }) => !isAlike(unit, stated))) return outside("these cells are of different units");
  const wanted = unitNamed(preferred);
  const shownIn = wanted !== undefined && isAlike(wanted, stated) ? wanted : stated;
  return {
    unit: shownIn,
    read: read.map(({ cell, unit, low, high, mark }) => {
      const shown = (value: number): number =>
        unit === undefined || shownIn === undefined || unit === shownIn
          ? value
          : (value * unit.factor + unit.offset - shownIn.offset) / shownIn.factor;
      return { cell, reading: readingOf(shown(low), shown(high), mark, cell.floor) };
    }),
  };
}

function readingOf(low: number, high: number, mark: number, floor = Number.NEGATIVE_INFINITY): Reading {
  if (mark === Mark.below || mark === Mark.atMost) return below(low, floor);
  if (mark === Mark.above || mark === Mark.atLeast) return above(low);
  return mark === Mark.range ? { low, high, is: "between" } : figure(low);
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
  // What is reckoned says which way it went: `+3`, `+2..+5`.
  parseBlock(text.replace(/(^|[<>.])\+(?=\d)/g, "$1"), sink, true);
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
