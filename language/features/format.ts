import { type Block, Source } from "../book/source.ts";
import { Piece } from "../syntax/pieces.ts";
import { spaces } from "../syntax/spaces.ts";
import { widthOf } from "./columns.ts";
import { type LaidLine, laidLines, problemsOf, withoutLineEnd } from "./layout.ts";
import { type LinePlan, plansFor } from "./layout-plan.ts";
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
  const withIt = plansFor(block, lines);
  const without = plansFor(
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
  const edits = editsOf(block.text, lines, plansFor(block, lines));
  const made = applySpaces(block.text, edits);
  return isOnlySpace(block.text, edits) && saysTheSame(block, lines, made) ? edits : [];
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

const space = new RegExp(`^[${spaces}]*$`);

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
