import { linesOf as readLines } from "../../book/entry.ts";
import { type Item, quote } from "../../book/reading.ts";
import { nounOf } from "../../book/slot-words.ts";
import type { Slot } from "../../book/slots.ts";
import { Source } from "../../book/source.ts";
import type { Span } from "../view.ts";
import { cutText, type LineCut } from "./cut.ts";
import { isDate, slotIn, slotOfColumn, writtenIn } from "./entries.ts";
import { type ColumnId, type Refusal, refused } from "./grid-model.ts";
import { afterSpaces, beforeSpaces, cutOut, inColumn, put, replaced } from "./line-text.ts";
import { partsOf } from "./parts.ts";

/**
 * One line of a day, edited by its cells: what is not edited stays to the byte. What comes out is read again before it is given away: the cell
 * says what was typed, the others what they said.
 */
export interface LineState {
  /** The line, without its end. */
  readonly text: string;
  /** What is read before it: the head of its day, of a row the heads of its sheet. Ends with a line end, or is empty. */
  readonly above: string;
  /** It stands where no day is: a line is what it is there, text. */
  readonly isText?: boolean;
}

const dayAbove = "2026-01-01\n";

/** @param heads the heads of the sheet that it is a row of */
export function lineState(text: string, is: "day" | "entry" | "row", heads = ""): LineState {
  return { text, above: is === "day" ? "" : is === "row" ? `${dayAbove}${heads}\n` : dayAbove };
}

/** The line cut into its cells; offsets are in the line. */
export function cutState({ text, above }: LineState): LineCut {
  const whole = above + text;
  const starts = above === "" ? [0] : [0, ...(above === dayAbove ? [] : [dayAbove.length]), above.length];
  return moved(cutText(whole, starts, true).at(-1)!, -above.length);
}

/** The same line elsewhere. */
export function moved(line: LineCut, by: number): LineCut {
  const made: Record<string, unknown> = { ...line };
  for (const key of ["date", "time", "tank", "what", "values", "note", "comment"] as const)
    if (line[key] !== undefined) made[key] = shifted(line[key], by);
  if (line.pieces !== undefined)
    made.pieces = line.pieces.map((piece) => ({ ...piece, ...shifted(piece, by) }));
  return { ...(made as unknown as LineCut), ...shifted(line, by), first: line.first + by };
}

const shifted = ({ start, end }: Span, by: number): Span => ({ start: start + by, end: end + by });

/** What cannot be seen and turns the order of what can: no word, name or number holds it. */
export const hidden = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

/** The line with another text in one of its cells. A line end within a text becomes a space. */
export function changeLine(state: LineState, column: ColumnId, typed: string): LineState | Refusal {
  const line = cutState(state);
  if (state.isText === true || line.is === "text" || line.is === "comment")
    return column === "text" ? changeText(state, line, typed) : refusedText(state, line, typed);
  const slot = slotOf(state, line, column);
  const isProse = column === "note" || column === "comment" || slot?.filling.is === "text";
  const plain = isProse ? typed.replace(/\r\n|[\r\n]/g, " ").trim() : typed.trim();
  const isList = slot?.each === true && (entryOf(state)?.items.length ?? 0) > 1;
  const wanted = isList ? partsOf(plain, ",").join(", ") : plain;
  const said = saidIn(state, line, column);
  if (said.fixed !== "") return said.text === wanted ? state : refused(said.fixed);
  if (said.text === wanted && (said.at === undefined) === (wanted === "")) return state;
  if (!isProse && (/[\r\n]/.test(wanted) || hidden.test(wanted.replaceAll("\t", " "))))
    return refused(`no line ends or hidden signs can stand here: ${allowed(state, line, column)}`);
  const made = laid(state, line, column, wanted);
  if (made === undefined) return refused(allowed(state, line, column));
  const after = { ...state, text: made };
  return isRight(state, line, after, column, wanted) ? after : refused(allowed(state, line, column));
}

/** Over a line that is one text no cells are written: it would be lost. */
function refusedText(state: LineState, line: LineCut, typed: string): LineState | Refusal {
  return state.text.slice(line.first).trim() === typed.trim()
    ? state
    : refused("this line is one text: edit it as such");
}

function changeText(state: LineState, line: LineCut, typed: string): LineState | Refusal {
  const wanted = typed.trim();
  if (/[\r\n]/.test(wanted)) return refused("a line is one line: insert rows for more");
  if (wanted === "") return refused("an empty line is no row: delete the row");
  return { ...state, text: state.text.slice(0, line.first) + wanted + state.text.slice(line.end) };
}

function saidIn(state: LineState, line: LineCut, column: ColumnId): ReturnType<typeof writtenIn> {
  const slot = slotOfColumn(column);
  return slot === undefined ? writtenIn(state.text, line, column) : slotSaid(state, slot);
}

/** The entry of a line with its slots; offsets are in what is above it and it. */
export function entryOf({ text, above }: LineState) {
  const [block] = new Source("", above + text).blocks;
  const found = block === undefined ? undefined : readLines(block).at(-1);
  return found?.is === "entry" ? found : undefined;
}

function slotSaid(state: LineState, slot: string): ReturnType<typeof writtenIn> {
  const { text, above } = state;
  const said = slotIn(above + text, entryOf(state), slot);
  return said.at === undefined ? said : { ...said, at: shifted(said.at, -above.length) };
}

function slotOf(state: LineState, line: LineCut, column: ColumnId): Slot | undefined {
  const name = slotOfColumn(column);
  if (name === undefined || line.is !== "entry") return undefined;
  return entryOf(state)?.kind?.slots.find((slot) => slot.name === name);
}

/** The line as it would be; undefined where the column cannot be written in it, or not be left empty. */
function laid(state: LineState, line: LineCut, column: ColumnId, wanted: string): string | undefined {
  const { text } = state;
  const { time, tank, what, values, note, comment } = line;
  const isGone = wanted === "";
  /** Where what stands at the end of the line begins after this. */
  const behind = (...spans: (Span | undefined)[]): number =>
    Math.max(...spans.map((span) => span?.end ?? line.first));
  switch (column) {
    case "date":
      return line.date === undefined || !isDate(wanted) ? undefined : replaced(text, line.date, wanted);
    case "time":
      if (time === undefined) return put(text, line.first, `${wanted} `);
      return isGone ? cutOut(text, time.start, afterSpaces(text, time.end)) : replaced(text, time, wanted);
    case "tank":
      return tank === undefined || isGone
        ? undefined
        : inColumn(text, tank, wanted, (what ?? values ?? note ?? comment)?.start, line.is === "row" ? 2 : 1);
    case "what":
      if (isGone) return undefined;
      return what === undefined ? put(text, tank!.end, ` ${wanted}`) : replaced(text, what, wanted);
    case "values": {
      if (values === undefined) {
        if (what === undefined && line.is !== "row") return undefined;
        return put(text, behind(tank, what), `${line.is === "row" ? "  " : " "}${wanted}`);
      }
      if (!isGone) return beforeComment(text, values, wanted, note, comment);
      return cutOut(text, beforeSpaces(text, values.start), values.end);
    }
    case "note": {
      if (note === undefined) {
        const at = behind(line.date, tank, what, values);
        return put(text, at, ` ${quote(wanted)}`);
      }
      if (isGone) return cutOut(text, beforeSpaces(text, note.start), note.end);
      return beforeComment(text, note, quote(wanted), undefined, comment);
    }
    case "comment": {
      if (comment === undefined) return `${text.trimEnd()}  # ${wanted}`;
      if (isGone) return text.slice(0, beforeSpaces(text, comment.start));
      const lead = /^#\s*/.exec(text.slice(comment.start))![0];
      return text.slice(0, comment.start) + (lead.trim() === lead && lead !== "#" ? "# " : lead) + wanted;
    }
    default:
      return withSlot(state, line, column, wanted);
  }
}

/** A slot of an entry: where it stands, else behind the last of those that come before it. */
function withSlot(state: LineState, line: LineCut, column: ColumnId, wanted: string): string | undefined {
  const slot = slotOf(state, line, column);
  if (slot === undefined || line.what === undefined) return undefined;
  const { text } = state;
  const items = entryOf(state)!.items;
  if (slot.each === true && items.length > 1) return withEach(state, items, slot, wanted);
  const { at } = slotSaid(state, slot.name);
  const written = slotText(slot, wanted, at === undefined ? "" : text.slice(at.start, at.end));
  if (at !== undefined) {
    if (wanted !== "") return replaced(text, at, written);
    const from = beforeSpaces(text, at.start);
    const lead = slot.lead === undefined ? -1 : text.lastIndexOf(slot.lead, from);
    const begins = lead >= 0 && lead + slot.lead!.length === from ? lead : at.start;
    return cutOut(text, beforeSpaces(text, begins), at.end);
  }
  const slots = entryOf(state)!.kind!.slots;
  let place = line.what.end;
  for (const before of slots.slice(0, slots.indexOf(slot))) {
    const end = slotSaid(state, before.name).at?.end;
    if (end !== undefined) place = Math.max(place, end);
  }
  return put(text, place, ` ${slot.lead === undefined ? "" : `${slot.lead} `}${written}`);
}

/** Each item of a list with its own value; of more or fewer nobody can tell whose they are. */
function withEach(
  { text, above }: LineState,
  items: readonly Item[],
  slot: Slot,
  wanted: string,
): string | undefined {
  const parts = partsOf(wanted, ",");
  if (parts.length !== items.length || parts.includes("")) return undefined;
  let made = text;
  for (let at = items.length - 1; at >= 0; at--) {
    const value = items[at]![slot.name];
    if (value === undefined) return undefined;
    const span = shifted(value, -above.length);
    const written = slotText(slot, parts[at]!, text.slice(span.start, span.end));
    made = replaced(made, span, written);
  }
  return made;
}

const word = /^[\p{L}_][\p{L}\p{N}_-]*$/u;

function slotText({ filling, lead }: Slot, wanted: string, was: string): string {
  if (filling.is === "destination") return `${/^(?:->|→)\s*/.exec(was)?.[0] ?? "-> "}${wanted}`;
  if (filling.is !== "text") return wanted;
  // A name stands bare as it stood; what was in quotes stays in them.
  const isBare = lead !== undefined && word.test(wanted) && !was.startsWith('"');
  return isBare ? wanted : quote(wanted);
}

/** A comment keeps its column where there is room. */
function beforeComment(
  text: string,
  span: Span,
  by: string,
  note: Span | undefined,
  comment: Span | undefined,
): string {
  return note === undefined && comment !== undefined
    ? inColumn(text, span, by, comment.start, 2)
    : replaced(text, span, by);
}

/** Whether the cell says what was typed, and the others what they said. */
function isRight(
  before: LineState,
  was: LineCut,
  after: LineState,
  column: ColumnId,
  wanted: string,
): boolean {
  const now = cutState(after);
  if (now.is === "text") return column === "values" && was.is === "entry" && isOneEntry(after, was, wanted);
  if (now.is !== was.is) return false;
  if (saidIn(after, now, column).text !== wanted) return false;
  const slot = slotOfColumn(column);
  const others = ["date", "time", "tank", "what", "values", "note", "comment"].filter(
    // Another kind may take the text at the end for something of its own, and a slot is part of the values.
    (id) =>
      id !== column &&
      !(column === "what" && (id === "values" || id === "note")) &&
      !(slot !== undefined && id === "values"),
  );
  if (!others.every((id) => writtenIn(before.text, was, id).text === writtenIn(after.text, now, id).text))
    return false;
  if (slot === undefined) return was.is !== "sheet" || now.columns!.length > 0;
  const [old, fresh] = [entryOf(before), entryOf(after)];
  return (old?.kind?.slots ?? []).every(
    ({ name }) =>
      name === slot ||
      slotIn(before.above + before.text, old, name).text ===
        slotIn(after.above + after.text, fresh, name).text,
  );
}

/** What the grammar does not take is kept as it was typed, and a finding says so; it must not be another line's or a comment. */
function isOneEntry(after: LineState, was: LineCut, wanted: string): boolean {
  return was.what !== undefined && !/["#]/.test(wanted) && after.text.includes(wanted);
}

function allowed(state: LineState, line: LineCut, column: ColumnId): string {
  switch (column) {
    case "date":
      return "a date is written 2026-03-01";
    case "time":
      return "a time of day is written 08:40";
    case "tank":
      return "an entry begins with one tank, system, gear, room or @group";
    case "what":
      return "one word says what was done: change, test, feed ...";
    case "values":
      return line.is === "row"
        ? "cells of a sheet: numbers, <5, or - for not measured; a text stands in the note, a remark in the comment"
        : line.is === "sheet"
          ? "heads of a sheet: parameters and species, with a unit in brackets"
          : "what the entry takes; a text at its end stands in the note, what follows # in the comment";
    case "note":
    case "comment":
      return "one line of text";
    default: {
      const slot = slotOf(state, line, column);
      return slot === undefined ? "this entry is of another kind" : `here stands ${nounOf(slot.filling)}`;
    }
  }
}
