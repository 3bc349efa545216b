import { didYouMean } from "../quantity/nearest.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, nearestUnits, UNITS } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import { Kind } from "./entries/registry.ts";
import { Col, type FactBuilder } from "./facts.ts";
import {
  fitCount,
  fitReading,
  isDecimalComma,
  isJoined,
  joinUnit,
  measures,
  type Report,
  reportDecimalComma,
} from "./fit.ts";
import { nameOf } from "./interner.ts";
import { findParameter, type Parameter } from "./parameters.ts";
import type { Problem } from "./problem.ts";

/** A column of a sheet: readings of a parameter, or counts of a species. */
export interface SheetColumn {
  readonly parameter: Parameter | undefined;
  /** The name of the species where there is no parameter. */
  readonly species: number;
  readonly word: string;
  /** The code of the column's unit. */
  readonly unit: number;
  /** Its head is wrong: cells without a unit of their own wait until it is mended. */
  readonly waits: boolean;
}

/** The columns that the pieces from `begin` on head. Problems are added to `problems`. */
export function readSheetHead(pieces: Pieces, begin: number, problems: Problem[]): SheetColumn[] {
  const columns: SheetColumn[] = [];
  const problem = (code: string, at: number, message: string, words: readonly string[] = []): void => {
    problems.push({
      code,
      start: pieces.start[at]!,
      end: pieces.end[at]!,
      message,
      counts: false,
      mends: words.map((word) => ({ title: `Write “${word}”`, text: word })),
    });
  };
  for (let at = begin; at < pieces.count; at++) {
    if (pieces.kind[at] !== Piece.word) {
      if (pieces.kind[at] === Piece.text && at === pieces.count - 1) continue;
      const example =
        "the head of a column is a parameter or a species, with its unit in brackets: temperature (F)";
      problem("sheet/head", at, example);
      continue;
    }
    const word = pieces.word[at]!;
    const parameter = findParameter(word);
    const hasUnit = at + 1 < pieces.count && pieces.kind[at + 1] === Piece.columnUnit;
    if (hasUnit) at++;
    const unit = hasUnit ? pieces.unit[at]! : noUnit;
    columns.push({
      parameter,
      species: parameter === undefined ? nameOf(word) : -1,
      word,
      unit,
      waits: false,
    });
    if (!hasUnit) continue;
    if (unit === noUnit) {
      const near = nearestUnits(pieces.word[at]!, parameter?.dimension).map((each) => each.symbol);
      const brackets = near.map((symbol) => `(${symbol})`);
      problem("unit/unknown", at, `“${pieces.word[at]}” is no unit that I know${didYouMean(near)}`, brackets);
    } else if (parameter === undefined) {
      problem("unit/wrong-kind", at, `${word} is a species here, and a number of animals has no unit`);
    } else if (!mayMeasure(unit, parameter)) {
      const { symbol } = parameter.unit;
      const message = `${parameter.name} is not measured in ${pieces.word[at]}; expected “${symbol}”`;
      problem("unit/wrong-kind", at, message, [`(${symbol})`]);
    } else continue;
    columns[columns.length - 1] = { ...columns.at(-1)!, unit: noUnit, waits: true };
  }
  if (columns.length === 0)
    problem("sheet/head", begin - 1, "a sheet needs heads: sheet temperature pH nitrate");
  return columns;
}

/** Whether a code can be a unit of the parameter. */
function mayMeasure(code: number, parameter: Parameter): boolean {
  if (code > noUnit) return measures(parameter, UNITS[code]!);
  return (AMBIGUOUS.get(ambiguousSpelling(code) ?? "") ?? []).some((unit) => measures(parameter, unit));
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
  const { count } = pieces;
  let column = 0;
  let isFirst = true;
  for (let cell = at + 1; cell < count; cell++) {
    const kind = pieces.kind[cell];
    const start = pieces.start[cell]!;
    const end = pieces.end[cell]!;
    let fits = true;
    const report: Report = (code, from, to, message, mends = [], counts = false) => {
      fits &&= counts;
      builder.problems.push({ code, start: from, end: to, message, counts, mends });
    };
    if (kind === Piece.text && cell === count - 1) return;
    if (kind === Piece.openText) {
      report("syntax/text", start, end, "the text is not closed: a quote is missing at its end", [
        { title: "Close the text", text: '"', start: end, end },
      ]);
      return;
    }
    const head = columns[column++];
    if (head === undefined) {
      report(
        "sheet/columns",
        start,
        end,
        `this row has more cells than the sheet has heads (${columns.length})`,
      );
      return;
    }
    if (kind === Piece.dash) continue;
    const isCount = head.parameter === undefined;
    if (kind !== Piece.quantity && !(kind === Piece.sexed && isCount)) {
      const what = isCount ? "a number of animals" : "a number, <5";
      report("sheet/cell", start, end, `under ${head.word} stands ${what}, or - for not measured`);
      continue;
    }
    if (isDecimalComma(pieces, cell + 1, at + 1, count)) {
      reportDecimalComma(pieces, cell + 1, report);
      cell += 2;
      continue;
    }
    joinUnit(pieces, cell, count, report);
    if (isCount) fitCount(pieces, cell, "number of animals", report);
    else fitReading(pieces, cell, { is: "reading" }, head.parameter!, report);
    const written = pieces.unit[cell]!;
    const value = pieces.value[cell]!;
    const sexed = kind === Piece.sexed;
    const animals = sexed ? value + pieces.second[cell]! + pieces.third[cell]! : value;
    const mark = sexed ? Mark.exact : pieces.mark[cell]!;
    const high = mark === Mark.range ? pieces.second[cell]! : Number.NaN;
    if (isJoined(pieces, cell, count)) cell++;
    if (!fits || (written === noUnit && head.waits)) continue;
    const row = builder.add(isCount ? Kind.count : Kind.test, minute, target, start, end);
    if (!isFirst) builder.setFurther(row);
    isFirst = false;
    builder.setName(row, Col.subject, head.parameter === undefined ? head.species : head.parameter.id);
    builder.setAmount(row, animals, high, isCount ? noUnit : written === noUnit ? head.unit : written, mark);
  }
}
