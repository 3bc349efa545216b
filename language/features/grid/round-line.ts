import { findParameter } from "../../book/parameters.ts";
import type { Item } from "../../book/reading.ts";
import { Piece } from "../../syntax/pieces.ts";
import { cutState, entryOf, hidden, type LineState } from "./edit-line.ts";
import { writtenIn } from "./entries.ts";
import { type ColumnId, type Refusal, refused } from "./grid-model.ts";
import { inColumn } from "./line-text.ts";

/** A reading or a count in its line: in a test or a count, in the row of a sheet. */

export interface RoundColumn {
  readonly isTest: boolean;
  readonly name: string;
}

/** `test nitrate`, `count praecox`; undefined for what is written elsewhere. */
export function roundColumnOf(id: ColumnId): RoundColumn | undefined {
  const [is, name, more] = id.split(" ");
  if ((is !== "test" && is !== "count") || name === undefined || more !== undefined) return undefined;
  return { isTest: is === "test", name };
}

export const allowedValue = ({ isTest }: RoundColumn): string =>
  isTest
    ? "a reading is a number: 18, <5, 3..4, with a unit if it is another"
    : "a count is a whole number: 14, ~20, 3.5.2";

/** Why a text is no value of a line at all; undefined where it may be one. */
export function notInLine(wanted: string, column: RoundColumn): Refusal | undefined {
  return /[\r\n",#]/.test(wanted) || hidden.test(wanted.replaceAll("\t", " "))
    ? refused(allowedValue(column))
    : undefined;
}

/** The line with another value in a list of readings or counts; `gone` where nothing is left of it. */
export function inEntry(state: LineState, column: RoundColumn, wanted: string): LineState | "gone" | Refusal {
  const entry = entryOf(state);
  const line = cutState(state);
  if (entry === undefined || line.what === undefined) return refused("this line cannot be read");
  const shift = state.above.length;
  const { text } = state;
  const at = entry.items.findIndex((item) => nameIn(item, column) === column.name);
  const span = (item: Item) => {
    const values = Object.values(item).filter((value) => value !== undefined);
    return {
      start: Math.min(...values.map(({ start }) => start)) - shift,
      end: Math.max(...values.map(({ end }) => end)) - shift,
    };
  };
  let made: string;
  if (at < 0) {
    if (wanted === "") return state;
    const added = `${column.name} ${wanted}`;
    const place = line.values?.end ?? line.what.end;
    made = `${text.slice(0, place)}${line.values === undefined ? " " : ", "}${added}${text.slice(place)}`;
  } else if (wanted === "") {
    if (entry.items.length === 1) {
      if (line.note === undefined && line.comment === undefined) return "gone";
      return refused("this is all that its line reads: delete the row, with its text and remark");
    }
    const own = span(entry.items[at]!);
    if (at > 0) {
      const before = span(entry.items[at - 1]!).end;
      made = text.slice(0, before) + text.slice(own.end);
    } else made = text.slice(0, own.start) + text.slice(span(entry.items[1]!).start);
  } else {
    const value = valueIn(entry.items[at]!, column);
    if (value === undefined) return refused(allowedValue(column));
    made = text.slice(0, value.start - shift) + wanted + text.slice(value.end - shift);
  }
  const after = { ...state, text: made };
  return saysEntry(state, after, column, wanted) ? after : refused(allowedValue(column));
}

function nameIn(item: Item, { isTest }: RoundColumn): string | undefined {
  const subject = isTest ? item.parameter : item.species;
  if (subject === undefined || item.lot !== undefined) return undefined;
  return isTest ? (findParameter(subject.text)?.name ?? subject.text) : subject.text;
}

const valueIn = (item: Item, { isTest }: RoundColumn) => (isTest ? item.reading : item.animals);

function saysEntry(before: LineState, after: LineState, column: RoundColumn, wanted: string): boolean {
  const said = (state: LineState): string[] =>
    (entryOf(state)?.items ?? []).map((item) =>
      Object.entries(item)
        .map(([slot, value]) => `${slot} ${(state.above + state.text).slice(value!.start, value!.end)}`)
        .join(" "),
    );
  const entry = entryOf(after);
  const own = entry?.items.filter((item) => nameIn(item, column) === column.name) ?? [];
  const value = own.length === 1 ? valueIn(own[0]!, column) : undefined;
  const isSaid =
    wanted === ""
      ? own.length === 0
      : value !== undefined && (after.above + after.text).slice(value.start, value.end) === wanted;
  const isOther = (state: LineState): string[] => {
    const items = entryOf(state)?.items ?? [];
    return said(state).filter((_, at) => nameIn(items[at]!, column) !== column.name);
  };
  return isSaid && isOther(before).join() === isOther(after).join() && sameAround(before, after);
}

function sameAround(before: LineState, after: LineState): boolean {
  const [was, now] = [cutState(before), cutState(after)];
  return (
    was.is === now.is &&
    ["time", "tank", "what", "note", "comment"].every(
      (id) => writtenIn(before.text, was, id).text === writtenIn(after.text, now, id).text,
    )
  );
}

/** The row of a sheet with another cell. What is emptied is not measured. */
export function inRow(
  state: LineState,
  at: number,
  column: RoundColumn,
  wanted: string,
): LineState | Refusal {
  const line = cutState(state);
  const { pieces = [], tank, values, note, comment } = line;
  if (line.is !== "row" || tank === undefined) return refused("this line cannot be read");
  const { text } = state;
  const written = wanted === "" ? "-" : wanted;
  const own = pieces[at];
  let made: string;
  if (own === undefined) {
    if (wanted === "") return state;
    const cells = [...Array.from({ length: at - pieces.length }, () => "-"), written];
    const place = values?.end ?? tank.end;
    made = `${text.slice(0, place)}  ${cells.join("  ")}${text.slice(place)}`;
  } else {
    const next = pieces[at + 1]?.start ?? note?.start ?? comment?.start;
    made = inColumn(text, own, written, next, 2);
  }
  const after = { ...state, text: made };
  const now = cutState(after);
  const cell = now.pieces?.[at];
  const isSaid =
    cell !== undefined &&
    now.pieces!.length === Math.max(pieces.length, at + 1) &&
    made.slice(cell.start, cell.end) === written &&
    (wanted === "-" || wanted === "" || cell.kind !== Piece.dash);
  const others = (from: LineState, cut: typeof line): string =>
    (cut.pieces ?? [])
      .filter((_, index) => index !== at && index < pieces.length)
      .map(({ start, end }) => from.text.slice(start, end))
      .join(" ");
  return isSaid && others(state, line) === others(after, now) && sameAround(state, after)
    ? after
    : refused(allowedValue(column));
}

/** The heads of a sheet with one more. */
export function withHead(state: LineState, { name }: RoundColumn): LineState | Refusal {
  const line = cutState(state);
  if (line.is !== "sheet" || line.what === undefined)
    return refused("the heads of this sheet cannot be read");
  const place = line.values?.end ?? line.what.end;
  const after = { ...state, text: `${state.text.slice(0, place)}  ${name}${state.text.slice(place)}` };
  const now = cutState(after);
  return now.is === "sheet" && now.columns!.length === line.columns!.length + 1 && sameAround(state, after)
    ? after
    : refused(`“${name}” cannot head a column`);
}
