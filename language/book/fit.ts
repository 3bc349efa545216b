import { type Dimension, LEAST } from "../quantity/dimension.ts";
import { either } from "../quantity/nearest.ts";
import { rebase } from "../quantity/quantity.ts";
import { ambiguousSpelling, noUnit } from "../quantity/unit-codes.ts";
import { AMBIGUOUS, looseUnit, UNITS, type Unit } from "../quantity/units.ts";
import { Mark, Piece, type Pieces } from "../syntax/pieces.ts";
import type { Parameter } from "./parameters.ts";
import type { Mend } from "./problem.ts";
import { numberForm, sourceForm } from "./slot-words.ts";
import type { Filling } from "./slots.ts";

/** Whether a number fits where it stands: its unit, its shape, its size. The same for arguments, properties and cells of a sheet. */

/** Takes a problem; `counts` says that the line counts all the same. */
export type Report = (
  code: string,
  start: number,
  end: number,
  message: string,
  mends?: readonly Mend[],
  counts?: boolean,
) => void;

type Quantity = Filling & { is: "quantity" };
type Reading = Filling & { is: "reading" };

/** Reports what is wrong with an amount. @param isDuty a duty may say bounds where an entry says what was */
export function fitQuantity(
  pieces: Pieces,
  at: number,
  filling: Quantity,
  isDuty: boolean,
  report: Report,
): void {
  if (!fitUnit(pieces, at, filling.of, filling.noun, undefined, report, filling.offers)) return;
  const mark = pieces.mark[at]!;
  const { shape = "range" } = filling;
  const isBound = mark !== Mark.exact && mark !== Mark.about && mark !== Mark.range;
  const start = pieces.start[at]!;
  const end = pieces.end[at]!;
  const [low, high] = filling.within ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const isPlain = pieces.unit[at] === noUnit;
  if (isBound && shape !== "bound" && !isDuty) {
    reportBound(pieces, at, shape, report);
  } else if (mark === Mark.range && shape === "one") {
    report("value/form", start, end, `one figure is needed here, not the range ${sourceForm(pieces, at)}`);
  } else if (mark === Mark.range && !(pieces.second[at]! >= pieces.value[at]!)) {
    reportOrder(pieces, at, report);
  } else if (isPlain && (pieces.value[at]! < low || pieces.value[at]! > high || pieces.second[at]! > high)) {
    report("value/impossible", start, end, `${numberForm(pieces, at)} cannot be: expected a ${filling.noun}`);
  } else if (pieces.value[at]! < 0 && filling.of.every((dimension) => LEAST[dimension] === 0)) {
    report("value/negative", start, end, `${sourceForm(pieces, at)} cannot be: it is less than nothing`, [
      replaceBy(sourceForm(pieces, at).replace("-", "")),
    ]);
  }
}

/** Reports a bound where it must be said how much it is. */
function reportBound(pieces: Pieces, at: number, shape: "one" | "range", report: Report): void {
  const plain = sourceForm(pieces, at).replace(/^[<>=]+ ?/, "");
  const forms =
    shape === "one" ? `or about so much (~${plain})` : `about so much (~${plain}) or a range (25..35)`;
  report(
    "value/form",
    pieces.start[at]!,
    pieces.end[at]!,
    `a bound does not say how much it is: write a number, ${forms}`,
    [replaceBy(plain)],
  );
}

/** Reports what is wrong with a reading, or with what is stated like one. */
export function fitReading(
  pieces: Pieces,
  at: number,
  filling: Reading,
  parameter: Parameter,
  report: Report,
): void {
  if (!fitUnit(pieces, at, [parameter.dimension], parameter.name, parameter, report)) return;
  const mark = pieces.mark[at]!;
  const start = pieces.start[at]!;
  const end = pieces.end[at]!;
  if (mark === Mark.range && !(pieces.second[at]! >= pieces.value[at]!)) {
    reportOrder(pieces, at, report);
  } else if (filling.shape === "limit" && (mark === Mark.exact || mark === Mark.about)) {
    const form = sourceForm(pieces, at).replace("~", "");
    report("definition/limit", start, end, "a limit is a range or a bound: 23..27 C, <= 25 mg/L, >= 5 mg/L", [
      replaceBy(`<= ${form}`),
      replaceBy(`>= ${form}`),
    ]);
  } else if (filling.shape === "range" && mark !== Mark.exact && mark !== Mark.about && mark !== Mark.range) {
    reportBound(pieces, at, "range", report);
  }
}

/** Reports what is wrong with a number of animals. */
export function fitCount(pieces: Pieces, at: number, noun: string, report: Report): void {
  const mark = pieces.mark[at]!;
  const unit = pieces.unit[at]!;
  const start = pieces.start[at]!;
  const end = pieces.end[at]!;
  if (pieces.kind[at] === Piece.sexed) return;
  if (unit !== noUnit && UNITS[unit]?.dimension !== "count") {
    report("unit/wrong-kind", start, end, `a ${noun} has no unit`, [replaceBy(numberForm(pieces, at))]);
  } else if (mark === Mark.below || mark === Mark.above || mark === Mark.atMost || mark === Mark.atLeast) {
    report("value/count", start, end, `a ${noun} is a number, about one (~20) or a range (12..14)`, [
      replaceBy(`~${pieces.value[at]}`),
    ]);
  } else if (mark === Mark.range && pieces.second[at]! < pieces.value[at]!) {
    reportOrder(pieces, at, report);
  } else if (!isCount(pieces.value[at]!) || (mark === Mark.range && !isCount(pieces.second[at]!))) {
    const low = pieces.value[at]!;
    report(
      "value/count",
      start,
      end,
      low < 0 ? `a ${noun} is not below zero` : `a ${noun} is whole, not ${numberForm(pieces, at)}`,
    );
  }
}

const isCount = (value: number): boolean => Number.isInteger(value) && value >= 0;

function reportOrder(pieces: Pieces, at: number, report: Report): void {
  const form = sourceForm(pieces, at);
  const turned = form.replace(
    `${pieces.value[at]}..${pieces.second[at]}`,
    `${pieces.second[at]}..${pieces.value[at]}`,
  );
  report("value/range", pieces.start[at]!, pieces.end[at]!, "a range goes from its lower end to its upper", [
    replaceBy(turned),
  ]);
}

/** Reports a unit that does not fit, or that is missing. */
function fitUnit(
  pieces: Pieces,
  at: number,
  wanted: readonly Dimension[],
  noun: string,
  parameter: Parameter | undefined,
  report: Report,
  offered?: readonly string[],
): boolean {
  const unit = pieces.unit[at]!;
  const start = pieces.start[at]!;
  const end = pieces.end[at]!;
  if (pieces.kind[at] === Piece.sexed) {
    report("entry/argument", start, end, `${noun} is one number, not ${sourceForm(pieces, at)}`);
    return false;
  }
  if (unit === noUnit) {
    if ((wanted.length < 2 && offered === undefined) || wanted.includes("count")) return true;
    const number = numberForm(pieces, at);
    const units =
      offered ?? wanted.map((dimension) => exampleUnit[dimension]).filter((symbol) => symbol !== undefined);
    report(
      "unit/missing",
      start,
      end,
      `${number} of what? Give a unit: ${either(units.map((symbol) => `${number} ${symbol}`))}`,
      units.map((symbol) => replaceBy(`${number} ${symbol}`)),
    );
    return false;
  }
  const candidates = unit > noUnit ? [UNITS[unit]!] : (AMBIGUOUS.get(ambiguousSpelling(unit)!) ?? []);
  if (candidates.some((candidate) => accepts(wanted, candidate, parameter))) return true;
  const offers = offered ?? offersFor(wanted, candidates[0], parameter);
  const written = ambiguousSpelling(unit) ?? candidates[0]!.symbol;
  report(
    "unit/wrong-kind",
    start,
    end,
    `${noun} is not measured in ${written === "" ? "pieces" : written}; expected ${either(offers)}`,
    offers.map((symbol) => replaceBy(`${numberForm(pieces, at)} ${symbol}`)),
  );
  return false;
}

/** Whether a reading of the parameter may be written in the unit. */
export function measures(parameter: Parameter, unit: Unit): boolean {
  return accepts([parameter.dimension], unit, parameter);
}

function accepts(wanted: readonly Dimension[], unit: Unit, parameter: Parameter | undefined): boolean {
  if (!wanted.includes(unit.dimension)) return false;
  if (parameter === undefined || unit.basis === undefined || unit.dimension !== "concentration") return true;
  // Nitrate may be counted as nitrogen, and not as phosphorus.
  return parameter.basis !== undefined && rebase(1, unit.basis, parameter.basis) !== undefined;
}

function offersFor(
  wanted: readonly Dimension[],
  unit: Unit | undefined,
  parameter: Parameter | undefined,
): string[] {
  const offers: string[] = [];
  if (parameter !== undefined) offers.push(parameter.unit.symbol);
  if (wanted.includes("hardness") && unit?.dimension === "concentration") offers.unshift("mg/L CaCO3");
  for (const dimension of wanted) {
    const symbol = exampleUnit[dimension];
    if (symbol !== undefined && (parameter === undefined || offers.length === 0)) offers.push(symbol);
  }
  return [...new Set(offers)];
}

/** A unit of each dimension to offer where none was given. */
const exampleUnit: Partial<Record<Dimension, string>> = {
  temperature: "C",
  volume: "L",
  length: "cm",
  mass: "mg",
  concentration: "mg/L",
  "volume-concentration": "uL/L",
  hardness: "dGH",
  conductivity: "uS/cm",
  fraction: "%",
  duration: "d",
  flow: "L/h",
  illuminance: "lx",
  "light-flux": "umol/m2/s",
  power: "W",
  redox: "mV",
  portion: "drops",
};

/**
 * A word right behind a number without a unit may be a unit in another spelling: then it is joined to the number.
 * @param end the piece behind the last that belongs together
 */
export function joinUnit(pieces: Pieces, at: number, end: number, report: Report): void {
  const next = at + 1;
  if (
    pieces.unit[at] !== noUnit ||
    next >= end ||
    pieces.kind[next] !== Piece.word ||
    pieces.kind[at] === Piece.sexed
  )
    return;
  const word = pieces.word[next]!;
  if (word.length < 2 || !/[A-Za-z\u00b5\u00b0]/.test(word)) return;
  const loose = looseUnit(word);
  // pH is the name of what is measured next, as in `nitrate 18 ph 7.2`.
  if (loose === undefined || loose.symbol === "" || loose.dimension === "pH") return;
  report(
    "unit/spelling",
    pieces.start[at]!,
    pieces.end[next]!,
    `“${word}” is read as ${loose.symbol}`,
    [replaceBy(`${numberForm(pieces, at)} ${loose.symbol}`)],
    true,
  );
  pieces.unit[at] = loose.id;
  pieces.end[at] = pieces.end[next]!;
}

/** Whether the word behind a number was joined to it as its unit. */
export function isJoined(pieces: Pieces, at: number, end: number): boolean {
  return (
    pieces.kind[at] === Piece.quantity &&
    pieces.unit[at] !== noUnit &&
    at + 1 < end &&
    pieces.kind[at + 1] === Piece.word &&
    pieces.end[at] === pieces.end[at + 1]
  );
}

/**
 * Whether behind the number at `at` stands another that was meant to be the upper end of a range: `6-7`. Reports it then.
 * @param end the piece behind the last that belongs together
 */
export function isHyphenRange(pieces: Pieces, at: number, end: number, report: Report): boolean {
  const next = at + 1;
  if (
    next >= end ||
    pieces.kind[at] !== Piece.quantity ||
    pieces.kind[next] !== Piece.quantity ||
    pieces.end[at] !== pieces.start[next] ||
    !(pieces.value[next]! <= 0) ||
    pieces.mark[next] !== Mark.exact
  )
    return false;
  const high = sourceForm(pieces, next).replace("-", "");
  report("value/range", pieces.start[at]!, pieces.end[next]!, "a range is written with two points", [
    replaceBy(`${numberForm(pieces, at)}..${high}`),
  ]);
  return true;
}

/** Whether at `at` stands a comma inside of a number: `7,2`. @param begin the first piece that belongs together */
export function isDecimalComma(pieces: Pieces, at: number, begin: number, end: number): boolean {
  return (
    at > begin &&
    at + 1 < end &&
    pieces.kind[at] === Piece.comma &&
    pieces.kind[at - 1] === Piece.quantity &&
    pieces.kind[at + 1] === Piece.quantity &&
    pieces.unit[at - 1] === noUnit &&
    pieces.end[at - 1] === pieces.start[at] &&
    pieces.end[at] === pieces.start[at + 1]
  );
}

/** Reports the comma at `at`. */
export function reportDecimalComma(pieces: Pieces, at: number, report: Report): void {
  report("value/decimal-comma", pieces.start[at - 1]!, pieces.end[at + 1]!, "the decimal mark is a point", [
    { title: "Write a point", text: ".", start: pieces.start[at]!, end: pieces.end[at]! },
  ]);
}

const replaceBy = (text: string): Mend => ({ title: `Write “${text}”`, text });
