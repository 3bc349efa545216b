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
  return items.flatMap((item, at) =>
    slots.flatMap(({ name, filling, each }): ValueItem[] => {
      const value = item[name];
      // What belongs to the whole line stands in each of its items.
      if (value === undefined || (at > 0 && each !== true)) return [];
      const parameter = filling.is === "reading" ? findParameter(item.parameter?.text ?? "") : undefined;
      const of = parameter?.name ?? (name === subject ? undefined : item[subject]?.text);
      return [
        {
          slot: name,
          ...(of === undefined || isNaming(filling) ? {} : { of }),
          ...(list === true ? { item: at } : {}),
          ...said(value, text),
          ...meant(value, filling, parameter, units),
        },
      ];
    }),
  );
}

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
    const unit = unitText(read);
    return [
      {
        slot: parameter === undefined ? "count" : "reading",
        of: parameter?.name ?? word,
        item: at,
        ...said(cell, text),
        ...(unit === "" ? {} : { unit }),
        ...(isBare && waits ? {} : meant(read, { is: "reading" }, parameter, units)),
      },
    ];
  });
}

function said(value: Value, text: string): Omit<ValueItem, "slot"> {
  const { kind, start, end, value: first, second, third } = value;
  const written = text.slice(start, end);
  if (kind === Piece.sexed)
    return { written, value: first + second + third, males: first, females: second, unsexed: third };
  if (kind === Piece.lengths) return { written, lengths: [first, second, third], ...unitOf(value) };
  if (kind !== Piece.quantity) return { written, word: value.text };
  const mark = marks[value.mark];
  return {
    written,
    value: first,
    ...(value.mark === Mark.range ? { high: second } : {}),
    ...unitOf(value),
    ...(mark === undefined ? {} : { mark }),
  };
}

function unitOf(value: Value): Pick<ValueItem, "unit"> {
  const unit = unitText(value);
  return unit === "" ? {} : { unit };
}

function meant(
  { kind, value, second, unit, mark }: Value,
  filling: Filling,
  parameter: Parameter | undefined,
  units: Units,
): Pick<ValueItem, "meant"> {
  if (kind !== Piece.quantity) return {};
  const both = (of: (figure: number) => number): { value: number; high?: number } | undefined => {
    const low = of(value);
    if (Number.isNaN(low)) return undefined;
    return mark === Mark.range ? { value: low, high: of(second) } : { value: low };
  };
  if (parameter !== undefined) {
    const figures = both((figure) => units.reading(parameter, figure, unit));
    if (figures === undefined) return {};
    const { basis } = parameter;
    return { meant: { ...figures, unit: parameter.unit.symbol, ...(basis === undefined ? {} : { basis }) } };
  }
  if (filling.is !== "quantity") return {};
  const settled = units.unitAmong(unit, filling.of);
  if (settled === undefined || keepsUnit(settled.dimension)) return {};
  const figures = both((figure) => figure * settled.factor + settled.offset);
  return figures === undefined ? {} : { meant: { ...figures, unit: CANONICAL[settled.dimension] } };
}
