import { dayOf, isoOf } from "../../book/dates.ts";
import { entryKinds, kindNumber } from "../../book/entries/registry.ts";
import { type EntryLine, linesOf as readLines } from "../../book/entry.ts";
import type { EntryKind } from "../../book/kind.ts";
import { unquote, type Value } from "../../book/reading.ts";
import type { Block } from "../../book/source.ts";
import { Piece } from "../../syntax/pieces.ts";
import type { Location, Span } from "../view.ts";
import { cutBlock, type LineCut } from "./cut.ts";
import type { ColumnId, Face, GridCell, GridColumn, GridRow } from "./grid-model.ts";
import { idOfLine, linesOfBlock, serialOf } from "./lines.ts";

/** The days as rows: a row a line, in the order in which they are written. */

export type EntriesFace = Face & { readonly is: "entries" };

const column = (id: string, title: string, doc: string, isFigure = false): GridColumn => ({
  id,
  title,
  unit: "",
  doc,
  isFigure,
  isComputed: false,
  isShown: true,
});

const before: readonly GridColumn[] = [
  column("date", "Date", "The day. Another date moves the entry to its day."),
  column("time", "Time", "When, as 08:40. Without one an entry counts at the time of the one above."),
  column("tank", "Tank", "The tank, system, gear, room, or @group."),
  column("what", "What", "What was done: change, test, feed ..."),
];
const values = column("values", "Values", "What it takes, as it is written.");
const behind: readonly GridColumn[] = [
  column("note", "Note", "A text."),
  column("comment", "Comment", "What stands behind #: nothing is read of it."),
];

/** The kind whose slots are columns; undefined for all kinds. */
export function kindOfFace({ kind }: EntriesFace): EntryKind | undefined {
  const number = kind === undefined ? undefined : kindNumber(kind);
  return number === undefined ? undefined : entryKinds[number];
}

export function entryColumns(face: EntriesFace): readonly GridColumn[] {
  const kind = kindOfFace(face);
  if (kind === undefined) return [...before, values, ...behind];
  // Of a note the text at its end is what it says.
  const slots = kind.word === "note" ? [] : kind.slots;
  return [
    ...before,
    ...slots.map(({ name, doc, filling, lead }) => ({
      ...column(slotColumn(name), lead ?? name, doc),
      isFigure: filling.is === "quantity" || filling.is === "count" || filling.is === "reading",
    })),
    { ...values, isShown: slots.length === 0 },
    ...behind,
  ];
}

export const slotColumn = (name: string): ColumnId => `slot ${name}`;
export const slotOfColumn = (id: ColumnId): string | undefined =>
  id.startsWith("slot ") ? id.slice(5) : undefined;

/** What a column of a line says and where. Offsets are in the block. */
export interface Written {
  readonly text: string;
  readonly at: Span | undefined;
  readonly fixed: string;
}

const nothing: Written = { text: "", at: undefined, fixed: "" };
const fixed = (why: string, text = ""): Written => ({ text, at: undefined, fixed: why });

/** What stands in a column of a line. @param text what the line was cut from */
export function writtenIn(text: string, line: LineCut, id: ColumnId): Written {
  const slice = (at: Span | undefined): Written =>
    at === undefined ? nothing : { text: text.slice(at.start, at.end), at, fixed: "" };
  const prose = (at: Span | undefined): Written =>
    at === undefined ? nothing : { text: unquote(text.slice(at.start, at.end)), at, fixed: "" };
  if (line.is === "text" || line.is === "comment")
    return { text: text.slice(line.first, line.end), at: { start: line.first, end: line.end }, fixed: "" };
  if (id === "note") return prose(line.note);
  if (id === "comment")
    return line.comment === undefined
      ? nothing
      : { ...slice(line.comment), text: text.slice(line.comment.start + 1, line.comment.end).trim() };
  if (line.is === "day") return id === "date" ? slice(line.date) : fixed("this row is the head of a day");
  switch (id) {
    case "time":
      return slice(line.time);
    case "tank":
      return line.is === "sheet"
        ? fixed("the heads of a sheet have no tank: its rows have")
        : slice(line.tank);
    case "what":
      if (line.is === "row") return fixed("a row of a sheet is what its heads say");
      return line.is === "sheet"
        ? { ...slice(line.what), fixed: "the rows below are read by this word" }
        : slice(line.what);
    case "values":
      return slice(line.values);
    default:
      return fixed("this column is of entries of one kind");
  }
}

/** The entry of a line with its slots; undefined for what is none. */
export function entryIn(block: Block, line: LineCut): EntryLine | undefined {
  const found = readLines(block).find(({ start }) => start === line.first);
  return found?.is === "entry" ? found : undefined;
}

/** What fills a slot of an entry. */
export function slotIn(text: string, entry: EntryLine | undefined, name: string): Written {
  const kind = entry?.kind;
  const slot = kind?.slots.find((each) => each.name === name);
  if (entry === undefined || slot === undefined) return fixed("this entry is of another kind");
  const { items } = entry;
  const shown = (value: Value): string =>
    value.kind === Piece.text || value.kind === Piece.openText || value.kind === Piece.destination
      ? value.text
      : text.slice(value.start, value.end);
  if (slot.each === true && items.length > 1) {
    const values = items.flatMap((item) => item[name] ?? []);
    const words = values.map(shown).join(", ");
    // Each value is edited in its own place, where there is one for each.
    const isEach = values.length === items.length && !values.some((value) => /[,"\\]/.test(shown(value)));
    return isEach
      ? { text: words, at: { start: values[0]!.start, end: values.at(-1)!.end }, fixed: "" }
      : fixed(`this entry lists ${items.length}, and not each has one: edit them in its values`, words);
  }
  const value = items[0]?.[name];
  if (value === undefined) return nothing;
  if (slot.filling.is === "words" && /^\s*,/.test(text.slice(value.end, entry.end)))
    return fixed("several words stand here: edit them in its values", shown(value));
  return { text: shown(value), at: { start: value.start, end: value.end }, fixed: "" };
}

export const lineId = (block: Block, at: number): string =>
  `line ${serialOf(block)} ${idOfLine(linesOfBlock(block), at)}`;

/** A line as a row. @param at its place among the lines of its block that are rows */
export function entryRow(
  block: Block,
  at: number,
  columns: readonly ColumnId[],
  impliedMinute: number,
): GridRow {
  const { text } = block;
  const line = cutBlock(block)[at]!;
  const place = (span: Span): Location => ({
    path: block.file.path,
    start: block.start + span.start,
    end: block.start + span.end,
  });
  const cell = ({ text: words, at: span, fixed: why }: Written, implied = ""): GridCell => ({
    text: words,
    at: span === undefined ? undefined : place(span),
    fixed: why,
    implied,
    state: "",
    detail: "",
    marks: [],
  });
  const base = { id: lineId(block, at), is: line.is, at: place(line), day: block.day };
  if (line.is === "text" || line.is === "comment")
    return { ...base, cells: [cell(writtenIn(text, line, "text"))] };
  const entry = columns.some((id) => slotOfColumn(id) !== undefined) ? entryIn(block, line) : undefined;
  return {
    ...base,
    cells: columns.map((id) => {
      if (id === "date" && line.is !== "day") return cell(dateOf(block, line), "");
      const slot = slotOfColumn(id);
      if (slot !== undefined) return cell(slotIn(text, entry, slot));
      const implied = id === "time" && line.is !== "day" ? clock(impliedMinute) : "";
      return cell(writtenIn(text, line, id), implied);
    }),
  };
}

/** The date of a line: written in the head of its day. */
export function dateOf(block: Block, line: LineCut): Written {
  const text = Number.isNaN(block.day) ? "" : isoOf(block.day);
  if (line.is !== "row") return { text, at: undefined, fixed: "" };
  return fixed("a row of a sheet belongs to the day of its heads", text);
}

/** The time at which the lines of a block count, by line; NaN for what is no entry. */
export function minutesOf(lines: readonly LineCut[]): Float64Array {
  let minute = 0;
  return Float64Array.from(lines, (line) => {
    if (!Number.isNaN(line.minute)) minute = line.minute;
    return line.is === "entry" || line.is === "row" ? minute : Number.NaN;
  });
}

export function clock(minute: number): string {
  if (!(minute > 0)) return "";
  const [hours, minutes] = [Math.floor(minute / 60), minute % 60];
  return `${String(hours).padStart(2, "0")}:${String(minutes).padStart(2, "0")}`;
}

export const isDate = (text: string): boolean =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(dayOf(text));
