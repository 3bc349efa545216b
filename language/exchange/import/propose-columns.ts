import { type Parameter, parameterNames } from "../../book/parameters.ts";
import { toCanonical } from "../../quantity/quantity.ts";
import type { Asking } from "./asking.ts";
import { type Head, parameterNamed } from "./heads.ts";
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
import { Refused } from "./refused.ts";
import type { ColumnEvidence } from "./survey.ts";

/** Of a column of readings: parameter, unit and basis, each said by the table or asked. */

export interface Measure {
  readonly parameter: Parameter;
  /** As a mapping says it; undefined while it is open. */
  readonly unit: string | undefined;
}

/** The parameter that an answer gives to a column; what its head says where there is none. */
export function parameterFor(head: Head, at: number, asking: Asking): Parameter | "ignore" | undefined {
  const given = asking.given(`parameter:${head.text}`, `parameter:#${at + 1}`);
  if (given === undefined) return head.not === "" ? head.parameter : undefined;
  if (given === "ignore") return "ignore";
  const parameter = parameterNamed(given);
  if (parameter === undefined)
    throw new Refused(`parameter:${head.text}=${given}: a log knows ${parameterNames.join(", ")}`);
  return parameter;
}

/** @returns undefined where the answer is to leave the column out */
export function measureOf(
  head: Head,
  at: number,
  parameter: Parameter,
  evidence: ColumnEvidence,
  decimal: Decimal,
  asking: Asking,
): Measure | undefined {
  if (parameter.dimension === "pH") return { parameter, unit: "pH" };
  const about = head.text || `column ${at + 1}`;
  const said = head.unit ?? unitInCells(evidence);
  const bare = bareUnit(said, parameter);
  let unit = bare?.symbol;
  const ask = (asks: string, hint: string): string | undefined =>
    asking.ask({ id: `unit:${about}`, asks, choices: [...choicesFor(said, parameter), "ignore"], hint }, [
      `unit:#${at + 1}`,
      `unit:${parameter.name}`,
    ]);
  if (unit === undefined) {
    const what =
      said === undefined
        ? `no unit is said of “${about}” (${parameter.name})`
        : said.is === "open"
          ? `“${said.written}” of “${about}” may mean several units`
          : `“${said.unit.symbol}” of “${about}” is no unit of ${parameter.name}`;
    unit = ask(`${what}; which is it?`, rangeOf(evidence, decimal));
  } else if (isImpossible(evidence, parameter, bare!, decimal))
    unit = ask(
      `“${about}” says ${unit}, in which most of its figures cannot be ${parameter.name}; which unit is it?`,
      rangeOf(evidence, decimal),
    );
  if (unit === "ignore") return undefined;
  const bases = basesFor(parameter);
  if (bases.length === 0) return { parameter, unit };
  const own = said?.is === "unit" ? said.unit.unit.basis : undefined;
  const stated = own !== undefined && bases.includes(own) ? own : head.basis;
  if (stated !== "") asking.because(about, `counted as ${stated}, as the table says`);
  const basis =
    stated !== ""
      ? stated
      : asking.ask(
          {
            id: `basis:${about}`,
            asks: `is “${about}” counted as ${bases.map((each) => (each === "N" || each === "P" ? `${each === "N" ? "nitrogen" : "phosphorus"} (${each})` : each)).join(" or as ")}?`,
            choices: [...bases, "ignore"],
            hint: "",
          },
          [`basis:#${at + 1}`, `basis:${parameter.name}`],
        );
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
