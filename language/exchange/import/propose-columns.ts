import type { Parameter } from "../../book/parameters.ts";
import { toCanonical } from "../../quantity/quantity.ts";
import type { Asking, Question } from "./asking.ts";
import type { Head } from "./heads.ts";
import {
  basesFor,
  fitsParameter,
  type ImportUnit,
  importUnit,
  type Said,
  unitSaid,
  unitsFor,
} from "./import-units.ts";
import { type Decimal, readNumber } from "./number.ts";
import type { ColumnEvidence } from "./survey.ts";

/** Of a column of readings: parameter, unit and basis, each said by the table or asked. */

export interface Measure {
  readonly parameter: Parameter;
  /** As a mapping says it; undefined while it is open. */
  readonly unit: string | undefined;
}

/** @returns undefined where the answer is to leave the column out */
export function measureOf(
  head: Head,
  at: number,
  parameter: Parameter,
  evidence: ColumnEvidence,
  decimal: Decimal,
  asking: Asking,
  about = head.text || `column ${at + 1}`,
  place: Pick<Question, "column" | "word"> = { column: at + 1 },
): Measure | undefined {
  if (parameter.dimension === "pH") return { parameter, unit: "pH" };
  const said = head.unit ?? unitInCells(evidence);
  const bare = bareUnit(said, parameter);
  const range = rangeOf(evidence, decimal);
  const isWrong = bare !== undefined && isImpossible(evidence, parameter, bare, decimal);
  const what =
    bare !== undefined
      ? isWrong
        ? `“${about}” says ${bare.symbol}, in which most of its figures cannot be ${parameter.name}; which unit is it?`
        : `“${about}” says ${bare.symbol}; or is it another unit?`
      : said === undefined
        ? `no unit is said of “${about}” (${parameter.name}); which is it?`
        : said.is === "open"
          ? `“${said.written}” of “${about}” may mean several units; which is it?`
          : `“${said.unit.symbol}” of “${about}” is no unit of ${parameter.name}; which is it?`;
  const own = isWrong ? undefined : bare?.symbol;
  const choices = choicesFor(said, parameter);
  const unit = asking.decide(
    {
      id: `unit:${about}`,
      asks: what,
      choices: [...(own === undefined || choices.includes(own) ? [] : [own]), ...choices, "ignore"],
      hint: range,
      ...place,
    },
    own,
    [`unit:#${at + 1}`, `unit:${parameter.name}`],
  );
  if (unit === "ignore") return undefined;
  const bases = basesFor(parameter);
  if (bases.length === 0) return { parameter, unit };
  const written = said?.is === "unit" ? said.unit.unit.basis : undefined;
  const stated = written !== undefined && bases.includes(written) ? written : head.basis;
  const basis = asking.decide(
    {
      id: `basis:${about}`,
      asks: `is “${about}” counted as ${bases.map((each) => (each === "N" || each === "P" ? `${each === "N" ? "nitrogen" : "phosphorus"} (${each})` : each)).join(" or as ")}?`,
      choices: [...bases, "ignore"],
      hint: "",
      ...place,
    },
    stated === "" ? undefined : stated,
    [`basis:#${at + 1}`, `basis:${parameter.name}`],
  );
  if (stated !== "" && basis === stated)
    asking.because(head.text || about, `counted as ${stated}, as the table says`);
  if (basis === "ignore") return undefined;
  return { parameter, unit: unit === undefined || basis === undefined ? undefined : `${unit} ${basis}` };
}

/** A unit said in the head, without its basis, if the parameter can have it. */
function bareUnit(said: Said | undefined, parameter: Parameter): ImportUnit | undefined {
  if (said?.is !== "unit") return undefined;
  const { unit } = said;
  if (unit.unit.dimension !== parameter.dimension) return undefined;
  const bases = basesFor(parameter);
  if (bases.length === 0) return fitsParameter(unit, parameter) ? unit : undefined;
  const { basis } = unit.unit;
  if (basis === undefined) return unit;
  return bases.includes(basis) ? importUnit(unit.symbol.replace(` ${basis}`, "")) : undefined;
}

function choicesFor(said: Said | undefined, parameter: Parameter): readonly string[] {
  const all = unitsFor(parameter);
  if (said?.is !== "open") return all;
  const fitting = said.choices.filter(
    (symbol) =>
      importUnit(symbol)?.unit.dimension === parameter.dimension &&
      // Of hardness and alkalinity only the units of the one that is meant.
      (parameter.dimension !== "hardness" || all.includes(symbol)),
  );
  return fitting.length > 0 ? fitting : all;
}

/** `18 mg/L` in each cell. */
function unitInCells({ marks, numbers }: ColumnEvidence): Said | undefined {
  const [only, more] = [...marks];
  return only === undefined || more !== undefined || only[1] < numbers * 0.9 ? undefined : unitSaid(only[0]);
}

function figures(evidence: ColumnEvidence, decimal: Decimal): number[] {
  return [...evidence.distinct.keys()].flatMap((cell) => readNumber(cell, decimal)?.value ?? []);
}

function isImpossible(
  evidence: ColumnEvidence,
  parameter: Parameter,
  { unit, places }: ImportUnit,
  decimal: Decimal,
): boolean {
  const all = figures(evidence, decimal);
  const [low, high] = parameter.possible.map((bound) => toCanonical(bound, parameter.unit.id)) as [
    number,
    number,
  ];
  const wrong = all.filter((value) => {
    const canonical = toCanonical(value * 10 ** places, unit.id);
    return canonical < low || canonical > high;
  });
  return all.length > 0 && wrong.length > all.length / 2;
}

function rangeOf(evidence: ColumnEvidence, decimal: Decimal): string {
  const all = figures(evidence, decimal);
  return all.length === 0 ? "" : `its figures go from ${Math.min(...all)} to ${Math.max(...all)}`;
}
