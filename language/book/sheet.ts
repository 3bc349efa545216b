import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, UNITS } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import { Kind } from "./entries/registry.ts";
import { Col, type FactBuilder } from "./facts.ts";
import { nameOf } from "./interner.ts";
import { didYouMean, nearest } from "./nearest.ts";
import { findParameter, type Parameter, parameterNames } from "./parameters.ts";
import type { Problem } from "./problem.ts";

/** A column of a sheet: readings of a parameter, or counts of a species. */
export interface SheetColumn {
  readonly parameter: Parameter | undefined;
  /** The name of the species where there is no parameter. */
  readonly species: number;
  readonly word: string;
  /** The code of the column's unit. */
  readonly unit: number;
}

/** The columns that the pieces from `begin` on head. Problems are added to `problems`. */
export function readSheetHead(pieces: Pieces, begin: number, problems: Problem[]): SheetColumn[] {
  const columns: SheetColumn[] = [];
  const problem = (code: string, at: number, message: string): void => {
    problems.push({
      code,
      start: pieces.start[at]!,
      end: pieces.end[at]!,
      message,
      counts: false,
      mends: [],
    });
  };
  for (let at = begin; at < pieces.count; at++) {
    if (pieces.kind[at] !== Piece.word) {
      if (pieces.kind[at] === Piece.text && at === pieces.count - 1) continue;
      problem(
        "sheet/head",
        at,
        "the head of a column is a parameter or a species, with its unit in brackets: temperature (F)",
      );
      continue;
    }
    const word = pieces.word[at]!;
    const parameter = findParameter(word);
    let unit: number = noUnit;
    if (at + 1 < pieces.count && pieces.kind[at + 1] === Piece.columnUnit) {
      at++;
      unit = pieces.unit[at]!;
      if (unit === noUnit) problem("unit/unknown", at, `“${pieces.word[at]}” is no unit that I know`);
      else if (parameter !== undefined && !fits(unit, parameter)) {
        problem(
          "unit/wrong-kind",
          at,
          `${parameter.name} is not measured in ${pieces.word[at]}; its unit is ${parameter.unit.symbol}`,
        );
        unit = noUnit;
      }
    }
    columns.push({ parameter, species: parameter === undefined ? nameOf(word) : -1, word, unit });
  }
  if (columns.length === 0) {
    problem("sheet/head", begin - 1, "a sheet needs heads: sheet temperature pH nitrate");
  }
  return columns;
}

/** Adds the facts of one row: `at` is the piece of its target, the cells follow it. */
export function readSheetRow(
  pieces: Pieces,
  at: number,
  target: number,
  minute: number,
  columns: readonly SheetColumn[],
  builder: FactBuilder,
): void {
  let column = 0;
  for (let cell = at + 1; cell < pieces.count; cell++) {
    const kind = pieces.kind[cell];
    const start = pieces.start[cell]!;
    const end = pieces.end[cell]!;
    const problem = (code: string, message: string): void => {
      builder.problems.push({ code, start, end, message, counts: false, mends: [] });
    };
    if (kind === Piece.text && cell === pieces.count - 1) return;
    if (kind === Piece.openText) {
      problem("syntax/text", "the text is not closed: a quote is missing at its end");
      return;
    }
    const head = columns[column++];
    if (head === undefined) {
      problem("sheet/columns", `this row has more cells than the sheet has heads (${columns.length})`);
      return;
    }
    if (kind === Piece.dash) continue;
    if (kind !== Piece.quantity && kind !== Piece.sexed) {
      problem("sheet/cell", `a cell is a number, <5, or - for not measured; under ${head.word}`);
      continue;
    }
    const unit = pieces.unit[cell] === noUnit ? head.unit : pieces.unit[cell]!;
    if (head.parameter !== undefined && unit !== noUnit && !fits(unit, head.parameter)) {
      problem(
        "unit/wrong-kind",
        `${head.parameter.name} is not measured in this unit; its unit is ${head.parameter.unit.symbol}`,
      );
      continue;
    }
    const isCount = head.parameter === undefined;
    if (
      isCount &&
      kind === Piece.quantity &&
      (!Number.isInteger(pieces.value[cell]) || pieces.value[cell]! < 0)
    ) {
      problem("value/count", "a number of animals is whole and not below zero");
      continue;
    }
    const row = builder.add(isCount ? Kind.count : Kind.test, minute, target, start, end);
    builder.setName(row, Col.subject, head.parameter === undefined ? head.species : head.parameter.id);
    const sexed = kind === Piece.sexed;
    const value = sexed
      ? pieces.value[cell]! + pieces.second[cell]! + pieces.third[cell]!
      : pieces.value[cell]!;
    const mark = sexed ? Mark.exact : pieces.mark[cell]!;
    builder.setAmount(
      row,
      value,
      mark === Mark.range ? pieces.second[cell]! : Number.NaN,
      isCount ? noUnit : unit,
      mark,
    );
  }
}

/** Whether a unit code can be a unit of the parameter. */
function fits(unit: number, parameter: Parameter): boolean {
  if (unit > noUnit) return UNITS[unit]?.dimension === parameter.dimension;
  return (AMBIGUOUS.get(ambiguousSpelling(unit) ?? "") ?? []).some(
    (each) => each.dimension === parameter.dimension,
  );
}

/** "did you mean" for a head that is neither a parameter nor one of the species. */
export function headsNear(word: string, species: Iterable<string>): string {
  return didYouMean(nearest(word, [...parameterNames, ...species]));
}
