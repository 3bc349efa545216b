import type { Book } from "../../book/book.ts";
import { findParameter, type Parameter } from "../../book/parameters.ts";
import { type Item, unitText, type Value } from "../../book/reading.ts";
import type { SheetColumn } from "../../book/sheet.ts";
import type { Filling, Signature } from "../../book/slots.ts";
import { CANONICAL, keepsUnit } from "../../quantity/dimension.ts";
import { noUnit } from "../../quantity/unit-codes.ts";
import { Mark, Piece } from "../../syntax/pieces.ts";
import type { ValueItem } from "./log-items.ts";

/** What the slots of an entry or a property hold, as plain data. */

type Units = Book["units"];

const marks: Readonly<Record<number, ValueItem["mark"]>> = {
  [Mark.below]: "below",
  [Mark.above]: "above",
  [Mark.range]: "range",
  [Mark.atMost]: "at most",
  [Mark.atLeast]: "at least",
  [Mark.about]: "about",
};

/** @param text the text that offsets of the values are in */
export function valueItems(
  items: readonly Item[],
  { slots, list }: Signature,
  text: string,
  units: Units,
): ValueItem[] {
  const subject = slots.find(({ column }) => column === "subject")?.name ?? "";
  // Loops, as of a log of ten years there are a million values.
  const made: ValueItem[] = [];
  for (let at = 0; at < items.length; at++) {
    const item = items[at]!;
    for (const { name, filling, each } of slots) {
      const value = item[name];
      // What belongs to the whole line stands in each of its items.
      if (value === undefined || (at > 0 && each !== true)) continue;
      const parameter = filling.is === "reading" ? findParameter(item.parameter?.text ?? "") : undefined;
      const of = parameter?.name ?? (name === subject ? undefined : item[subject]?.text);
      const one: Made = { slot: name, written: "" };
      if (of !== undefined && !isNaming(filling)) one.of = of;
      if (list === true) one.item = at;
      say(one, value, text);
      mean(one, value, filling, parameter, units);
      made.push(one);
    }
  }
  return made;
}

/** Filled in field by field. */
type Made = { -readonly [Key in keyof ValueItem]: ValueItem[Key] };

/** Whether a slot holds no figure, and so nothing that is a figure of its subject. */
const isNaming = ({ is }: Filling): boolean =>
  is !== "quantity" && is !== "reading" && is !== "count" && is !== "lengths";

/** The cells of a row of a sheet, each a reading or a count; what was not measured is left out. */
export function cellItems(
  cells: readonly Value[],
  columns: readonly SheetColumn[],
  text: string,
  units: Units,
): ValueItem[] {
  return cells.flatMap((cell, at): ValueItem[] => {
    const column = columns[at];
    if (column === undefined || cell.kind === Piece.dash || cell.kind === Piece.text) return [];
    const { parameter, word, waits } = column;
    const isBare = cell.unit === noUnit;
    const read = isBare ? { ...cell, unit: column.unit } : cell;
    const made: Made = {
      slot: parameter === undefined ? "count" : "reading",
      of: parameter?.name ?? word,
      item: at,
      written: "",
    };
    say(made, cell, text);
    const unit = unitText(read);
    if (unit !== "") made.unit = unit;
    if (!(isBare && waits)) mean(made, read, { is: "reading" }, parameter, units);
    return [made];
  });
}

/** What is written, and its figures. */
function say(made: Made, value: Value, text: string): void {
  const { kind, start, end, value: first, second, third } = value;
  made.written = text.slice(start, end);
  if (kind === Piece.sexed) {
    made.value = first + second + third;
    made.males = first;
    made.females = second;
    made.unsexed = third;
    return;
  }
  if (kind === Piece.lengths) made.lengths = [first, second, third];
  else if (kind !== Piece.quantity) {
    made.word = value.text;
    return;
  } else {
    made.value = first;
    if (value.mark === Mark.range) made.high = second;
  }
  const unit = unitText(value);
  if (unit !== "") made.unit = unit;
  const mark = kind === Piece.quantity ? marks[value.mark] : undefined;
  if (mark !== undefined) made.mark = mark;
}

/** The same in the unit that is settled for it. */
function mean(
  made: Made,
  { kind, value, second, unit, mark }: Value,
  filling: Filling,
  parameter: Parameter | undefined,
  units: Units,
): void {
  if (kind !== Piece.quantity) return;
  const settle = (of: (figure: number) => number, symbol: string, basis?: string): void => {
    const low = of(value);
    if (Number.isNaN(low)) return;
    made.meant = {
      value: low,
      ...(mark === Mark.range ? { high: of(second) } : {}),
      unit: symbol,
      ...(basis === undefined ? {} : { basis }),
    };
  };
  if (parameter !== undefined) {
    settle((figure) => units.reading(parameter, figure, unit), parameter.unit.symbol, parameter.basis);
    return;
  }
  if (filling.is !== "quantity") return;
  const settled = units.unitAmong(unit, filling.of);
  if (settled === undefined || keepsUnit(settled.dimension)) return;
  settle((figure) => figure * settled.factor + settled.offset, CANONICAL[settled.dimension]);
}
