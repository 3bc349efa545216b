import { type Block, Source } from "../book/source.ts";
import { Piece } from "../syntax/pieces.ts";
import { padTo, widthOf } from "./columns.ts";
import { type LaidLine, laidLines, problemsOf, withoutLineEnd } from "./layout.ts";
import type { Span } from "./view.ts";

/**
 * Laying a log out, as FORMAT.md section 7 says: white space only, and within one block only.
 *
 * What a line is laid out to depends on the pieces of its block and never on the white space that is there, but for two things that a layout
 * leaves as it finds: whether two pieces stand apart at all, and how far behind its line a comment stands. So laying out twice is laying out once.
 */

/** A stretch of white space and what takes its place. */
export interface SpaceEdit extends Span {
  readonly text: string;
}

/** Lays a text out: all of it, or the lines that a stretch touches. Edits are in order and do not overlap. */
export function formatText(text: string, within?: Span): SpaceEdit[] {
  return formatSource(new Source("", text), within);
}

/** The same for a file that is already read. */
export function formatSource(source: Source, within?: Span): SpaceEdit[] {
  const edits: SpaceEdit[] = [];
  for (const block of source.blocks) {
    if (within !== undefined && (block.start > within.end || block.start + block.text.length < within.start))
      continue;
    for (const edit of formatBlock(block)) {
      const line = { start: block.start + edit.line.start, end: block.start + edit.line.end };
      if (within !== undefined && (line.start > within.end || line.end < within.start)) continue;
      edits.push({ start: block.start + edit.start, end: block.start + edit.end, text: edit.text });
    }
  }
  return edits;
}

/**
 * Lays out what was written when a line is ended: the line above the one that `offset` is in, the whole of its block if the line needs wider columns
 * than the others have, and the indentation of the new line.
 */
export function formatNewLine(source: Source, offset: number): SpaceEdit[] {
  const { text } = source;
  const fresh = lineStart(text, offset);
  if (fresh === 0) return [];
  const aboveEnd = withoutLineEnd(text, 0, fresh);
  const block = source.blockAt(lineStart(text, aboveEnd));
  if (block === undefined) return [];
  const lines = linesOfBlock(block);
  const line = lines.find((each) => block.start + each.end === aboveEnd);
  if (line === undefined) return [];
  const edits = formatBlock(block);
  const touched = needsRoom(block, lines, line)
    ? edits.filter((edit) => edit.line.is !== "blank")
    : edits.filter((edit) => edit.line.start === line.start && line.is !== "blank");
  const made = touched.map((edit) => ({
    start: block.start + edit.start,
    end: block.start + edit.end,
    text: edit.text,
  }));
  const indent = indentBelow[line.is];
  const end = fresh + /[\r\n]|$/.exec(text.slice(fresh))!.index;
  const there = text.slice(fresh, end);
  if (indent !== undefined && space.test(there) && there !== indent) {
    made.push({ start: fresh, end, text: indent });
    made.sort((a, b) => a.start - b.start);
  }
  return made;
}

/** Whether the other lines of a block are laid out otherwise for the sake of one of them. */
function needsRoom(block: Block, lines: readonly LaidLine[], line: LaidLine): boolean {
  const columns = columnsFor(block);
  const withIt = columns(block, lines);
  const without = columns(
    block,
    lines.filter((each) => each !== line),
  );
  return [...without].some(([each, plan]) => {
    const other = withIt.get(each);
    return other !== undefined && plan.gaps.some((gap, at) => gap !== other.gaps[at]);
  });
}

/** How a line that follows is indented, by what is above it; nothing is said of what follows a broken line. */
const indentBelow: Partial<Record<LaidLine["is"], string>> = {
  head: "  ",
  entry: "  ",
  property: "  ",
  sheet: "    ",
  row: "    ",
};

/** The text after its edits. Edits are in order. */
export function applySpaces(text: string, edits: readonly SpaceEdit[]): string {
  let at = 0;
  let made = "";
  for (const edit of edits) {
    made += text.slice(at, edit.start) + edit.text;
    at = edit.end;
  }
  return made + text.slice(at);
}

/** A block's text laid out, for text that is made and not yet in a file. Ends as it ended. */
export function laidOut(text: string): string {
  return applySpaces(text, formatText(text));
}

interface LineEdit extends SpaceEdit {
  readonly line: LaidLine;
}

function linesOfBlock(block: Block): LaidLine[] {
  return laidLines(block.text, block.kind === "day", problemsOf(block));
}

/** The edits of one block, offsets in it. None for a block without a head that can be read: its lines are kept as they are. */
function formatBlock(block: Block): LineEdit[] {
  if (block.kind === "broken" || block.kind === "prelude") return [];
  if (block.kind === "day" && Number.isNaN(block.day)) return [];
  const lines = linesOfBlock(block);
  const edits = editsOf(block.text, lines, columnsFor(block)(block, lines));
  const made = applySpaces(block.text, edits);
  return isOnlySpace(block.text, edits) && saysTheSame(block, lines, made) ? edits : [];
}

const columnsFor = (block: Block) => (block.kind === "day" ? dayColumns : definitionColumns);

/** Where the pieces of a line go: the indentation, and the white space before each further piece. */
interface LinePlan {
  readonly indent: string;
  /** Before the piece with this index; undefined where one space is meant. */
  readonly gaps: readonly (string | undefined)[];
}

function editsOf(
  text: string,
  lines: readonly LaidLine[],
  plans: ReadonlyMap<LaidLine, LinePlan>,
): LineEdit[] {
  const edits: LineEdit[] = [];
  const ends = new Map<LaidLine, number>();
  const put = (line: LaidLine, start: number, end: number, space: string): void => {
    const was = text.slice(start, end);
    if (was === space) return;
    // What stays at the front of the gap is no part of the edit.
    let same = 0;
    while (same < was.length && same < space.length && was[same] === space[same]) same++;
    edits.push({ line, start: start + same, end, text: space.slice(same) });
  };
  const comments = commentColumns(text, lines, plans, ends);
  for (const line of lines) {
    if (line.is === "blank") put(line, line.start, line.end, "");
    const plan = plans.get(line);
    if (plan === undefined) continue;
    let at = line.start;
    line.pieces.forEach((piece, index) => {
      if (index > 0) put(line, at, piece.start, gapBefore(text, line, index, plan));
      else if (line.is !== "head") put(line, at, piece.start, plan.indent);
      at = piece.end;
    });
    const column = comments.get(line);
    if (line.comment < 0 || column === undefined) put(line, at, line.end, "");
    else put(line, at, line.comment, " ".repeat(column - ends.get(line)!));
  }
  return edits;
}

function gapBefore(text: string, line: LaidLine, index: number, plan: LinePlan): string {
  const planned = plan.gaps[index];
  if (planned !== undefined) return planned;
  const { kind, start } = line.pieces[index]!;
  const before = line.pieces[index - 1]!;
  if (kind === Piece.comma || kind === Piece.semicolon) return "";
  const opensUp =
    before.kind === Piece.comma ||
    before.kind === Piece.semicolon ||
    before.kind === Piece.equals ||
    kind === Piece.equals;
  return opensUp || text.slice(before.end, start) !== "" ? " " : "";
}

/** Where the pieces of a line end when it is laid out, in columns. */
function endColumn(text: string, line: LaidLine, plan: LinePlan): number {
  return line.pieces.reduce((column, piece, index) => {
    const gap = index > 0 ? gapBefore(text, line, index, plan) : line.is === "head" ? "" : plan.indent;
    return column + widthOf(gap) + widthOf(text.slice(piece.start, piece.end));
  }, 0);
}

/**
 * The columns of the comments behind lines. A comment keeps its distance, at least two; those of neighbouring lines that share a column go on sharing
 * it, and move on together where one of the lines needs the room.
 */
function commentColumns(
  text: string,
  lines: readonly LaidLine[],
  plans: ReadonlyMap<LaidLine, LinePlan>,
  ends: Map<LaidLine, number>,
): Map<LaidLine, number> {
  const columns = new Map<LaidLine, number>();
  for (let at = 0; at < lines.length; ) {
    const first = columnOfComment(text, lines[at]!, plans);
    let last = at + 1;
    if (first !== undefined)
      while (last < lines.length && columnOfComment(text, lines[last]!, plans) === first) last++;
    const shared = lines.slice(at, last);
    if (first !== undefined) {
      for (const line of shared) ends.set(line, endColumn(text, line, plans.get(line)!));
      const needed = Math.max(...shared.map((line) => ends.get(line)! + 2));
      const [only] = shared;
      const kept =
        shared.length > 1
          ? first
          : ends.get(only!)! + widthOf(text.slice(only!.pieces.at(-1)!.end, only!.comment));
      for (const line of shared) columns.set(line, Math.max(kept, needed));
    }
    at = last;
  }
  return columns;
}

/** The column of the comment behind a line as it stands; undefined where there is none that is laid out. */
function columnOfComment(
  text: string,
  line: LaidLine,
  plans: ReadonlyMap<LaidLine, LinePlan>,
): number | undefined {
  return line.comment < 0 || !plans.has(line) ? undefined : widthOf(text.slice(line.start, line.comment));
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

const space = /^[ \t\f\v\u00a0\ufeff\u3000]*$/;

/** That what goes and what comes is white space. */
function isOnlySpace(text: string, edits: readonly SpaceEdit[]): boolean {
  return edits.every((edit) => space.test(text.slice(edit.start, edit.end)) && /^ *$/.test(edit.text));
}

/** That the block reads as before: the same lines, each the same pieces and the same sort of line. */
function saysTheSame(block: Block, before: readonly LaidLine[], made: string): boolean {
  const [read, ...more] = new Source("", made).blocks;
  if (read === undefined || more.length > 0 || read.kind !== block.kind) return false;
  const after = linesOfBlock(read);
  return (
    after.length === before.length &&
    after.every((line, at) => {
      const was = before[at]!;
      return (
        line.is === was.is &&
        line.role === was.role &&
        line.pieces.length === was.pieces.length &&
        line.pieces.every(
          (piece, index) =>
            made.slice(piece.start, piece.end) ===
            block.text.slice(was.pieces[index]!.start, was.pieces[index]!.end),
        ) &&
        made.slice(line.comment < 0 ? line.end : line.comment, line.end) ===
          block.text.slice(was.comment < 0 ? was.end : was.comment, was.end)
      );
    })
  );
}

/** The offset at which the line of an offset begins. */
function lineStart(text: string, offset: number): number {
  let at = offset;
  while (at > 0 && text[at - 1] !== "\n" && text[at - 1] !== "\r") at--;
  return at;
}
