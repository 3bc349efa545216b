import type { Block } from "../book/source.ts";
import { Piece } from "../syntax/pieces.ts";
import { padTo, widthOf } from "./columns.ts";
import type { LaidLine } from "./layout.ts";

/** Which pieces of a block stand under each other (FORMAT.md, section 7): a plan for each line that is laid out. */

/** Where the pieces of a line go: the indentation, and the white space before each further piece. */
export interface LinePlan {
  readonly indent: string;
  /** Before the piece with this index; undefined where one space is meant. */
  readonly gaps: readonly (string | undefined)[];
}

/** The plans of the lines of a block; a line without one stays as it is. */
export function plansFor(block: Block, lines: readonly LaidLine[]): Map<LaidLine, LinePlan> {
  return block.kind === "day" ? dayColumns(block, lines) : definitionColumns(block, lines);
}

/** A target is at least as wide as the word `sheet`, and as a time. */
const leastTarget = 5;

function dayColumns(block: Block, lines: readonly LaidLine[]): Map<LaidLine, LinePlan> {
  const { text } = block;
  const plans = new Map<LaidLine, LinePlan>();
  const entries = lines.filter((line) => line.is === "entry");
  const width = Math.max(leastTarget, ...entries.map((line) => widthOf(target(text, line).text)));
  const timeWidth = Math.max(0, ...entries.map((line) => widthOf(target(text, line).time)));
  let sheet: LaidLine | undefined;
  let rows: LaidLine[] = [];
  const closeSheet = (): void => {
    if (sheet !== undefined) sheetColumns(text, sheet, rows, plans);
    sheet = undefined;
    rows = [];
  };
  for (const line of lines) {
    if (line.is === "head") plans.set(line, { indent: "", gaps: [] });
    else if (line.is === "sheet") {
      closeSheet();
      sheet = line;
    } else if (line.is === "row") {
      // The rows of a sheet whose heads are broken have no columns to go to.
      if (sheet !== undefined) rows.push(line);
    } else if (line.is === "entry") {
      closeSheet();
      const { time, text: name, at } = target(text, line);
      const gaps: (string | undefined)[] = [];
      if (time !== "") gaps[at] = padTo(time, timeWidth + 1).slice(time.length);
      gaps[at + 1] = padTo(name, width + 1).slice(name.length);
      plans.set(line, { indent: "  ", gaps });
    } else if (line.role === "sheet" || line.role === "entry") closeSheet();
  }
  closeSheet();
  return plans;
}

/** The target of an entry, a sheet or a row as it is written, with its time, and the index of its piece. */
function target(text: string, line: LaidLine): { time: string; text: string; at: number } {
  const [first, second] = line.pieces;
  const isTimed = first?.kind === Piece.time && second !== undefined;
  const piece = isTimed ? second : first!;
  return {
    time: isTimed ? text.slice(first.start, first.end) : "",
    text: text.slice(piece.start, piece.end),
    at: isTimed ? 1 : 0,
  };
}

/** A cell of a grid: the pieces it is made of, and its width. */
interface Cell {
  readonly first: number;
  readonly width: number;
}

function sheetColumns(
  text: string,
  sheet: LaidLine,
  rows: readonly LaidLine[],
  plans: Map<LaidLine, LinePlan>,
): void {
  const grid = [sheet, ...rows].map((line) => ({ line, ...cellsOf(text, line) }));
  const widths: number[] = [];
  for (const { cells } of grid)
    cells.forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, cell.width);
    });
  for (const { line, cells, note } of grid) {
    const gaps: (string | undefined)[] = [];
    const indent = line === sheet ? "  " : "    ";
    cells.forEach((cell, column) => {
      if (column > 0) gaps[cell.first] = " ".repeat(widths[column - 1]! - cells[column - 1]!.width + 2);
    });
    if (note >= 0) {
      const last = cells.at(-1)!;
      const skipped = widths.slice(cells.length).reduce((sum, width) => sum + width + 2, 0);
      gaps[note] = " ".repeat(widths[cells.length - 1]! - last.width + 2 + skipped);
    }
    plans.set(line, { indent, gaps });
  }
}

/** The cells of a line of a sheet. The first is its target, with its indentation below the word `sheet`; a text at the end is none. */
function cellsOf(text: string, line: LaidLine): { cells: Cell[]; note: number } {
  const { pieces } = line;
  const { time, text: name, at } = target(text, line);
  const timeWidth = time === "" ? 0 : widthOf(time) + 1;
  const cells: Cell[] = [{ first: at, width: (line.is === "row" ? 2 : 0) + timeWidth + widthOf(name) }];
  let note = -1;
  for (let index = at + 1; index < pieces.length; index++) {
    const piece = pieces[index]!;
    const written = widthOf(text.slice(piece.start, piece.end));
    const before = cells.at(-1)!;
    if (piece.kind === Piece.text && index === pieces.length - 1) note = index;
    else if (piece.kind === Piece.columnUnit && index > at + 1) {
      const apart = text.slice(pieces[index - 1]!.end, piece.start) === "" ? 0 : 1;
      cells[cells.length - 1] = { ...before, width: before.width + apart + written };
    } else cells.push({ first: index, width: written });
  }
  return { cells, note };
}

/** The values of the properties of one definition begin in one column, two spaces behind the longest word. */
function definitionColumns(block: Block, lines: readonly LaidLine[]): Map<LaidLine, LinePlan> {
  const { text } = block;
  const plans = new Map<LaidLine, LinePlan>();
  const properties = lines
    .filter((line) => line.is === "property")
    .map((line) => ({ line, ...keyOf(text, line) }));
  const width = Math.max(0, ...properties.map((each) => (each.hasValue ? each.width : 0)));
  for (const line of lines) if (line.is === "head") plans.set(line, { indent: "", gaps: [] });
  for (const { line, last, width: own, hasValue } of properties) {
    const gaps: (string | undefined)[] = [];
    if (hasValue) gaps[last + 1] = " ".repeat(width - own + 2);
    plans.set(line, { indent: "  ", gaps });
  }
  return plans;
}

/** The word of a property, `at least` and `at most` with both their words. */
function keyOf(text: string, line: LaidLine): { last: number; width: number; hasValue: boolean } {
  const [first, second] = line.pieces;
  const isPair = first?.word === "at" && (second?.word === "least" || second?.word === "most");
  const last = isPair ? 1 : 0;
  const width = widthOf(text.slice(first!.start, first!.end)) + (isPair ? 1 + second!.word.length : 0);
  const next = line.pieces[last + 1];
  // A property that ends at once and is followed by another, as in `kind; portion`, has no value to align.
  return { last, width, hasValue: next !== undefined && next.kind !== Piece.semicolon };
}
