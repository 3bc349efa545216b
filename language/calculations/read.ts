import type { Dimension } from "../quantity/dimension.ts";
import { formatNumber } from "../quantity/format.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { hasDecimalComma, parseNumber } from "../quantity/parse.ts";
import { convert } from "../quantity/quantity.ts";
import {
  AMBIGUOUS,
  type Declared,
  findUnit,
  looseUnit,
  nearestUnits,
  settle,
  type Unit,
  unitOf,
} from "../quantity/units.ts";
import type { Reading } from "../science/censored.ts";
import type { ChoiceInput, Input, QuantityInput, SeriesInput } from "./calculation.ts";

/** Reading what is given for an input: text as a keeper types it, to numbers in the unit of the input. */

/** A figure by what is known of it: `0.5`, `0.25..0.5`, `0.5±0.25`, `<0.25`, `>8`. In the unit of the input. */
export interface Known {
  readonly is: "quantity";
  readonly low: number;
  readonly high: number;
  /** What was read, where one figure was. */
  readonly best: number | undefined;
  /** A count. */
  readonly isWhole?: boolean;
}

export type Read =
  | Known
  | { readonly is: "series"; readonly values: readonly number[] }
  | { readonly is: "readings"; readonly values: readonly Reading[] }
  | { readonly is: "word"; readonly word: string };

/** What is wrong with a text, as a clause a keeper can read. */
export interface Refused {
  readonly problem: string;
}

/** What the room declares of ambiguous units and of numbers without one; nothing where there is no room. */
export type RoomDeclares = Declared;

/** @param name what the input is called, for messages */
export function readInput(name: string, input: Input, text: string, declared: RoomDeclares): Read | Refused {
  const trimmed = text.trim();
  if (trimmed === "") return { problem: `${name} has no value: ${wanted(name, input)}` };
  switch (input.is) {
    case "quantity":
      return readQuantity(name, input, trimmed, declared);
    case "series":
      return readSeries(name, input, trimmed, declared);
    case "choice":
      return readChoice(name, input, trimmed);
    default:
      return { is: "word", word: trimmed };
  }
}

/** How a value of an input is written. */
export function wanted(name: string, input: Input): string {
  switch (input.is) {
    case "quantity":
      return `${name}=${example(input)}${shown(input.unit)}`;
    case "series":
      return `${name}=1, 2, 3${shown(input.unit)}`;
    case "choice":
      return `${name}=${input.choices.join("|")}`;
    default:
      return `${name}=${input.form}`;
  }
}

const example = ({ low, high, otherwise }: QuantityInput): string =>
  otherwise === undefined ? formatNumber(low > 0 ? low : Math.min(1, high)) : otherwise.split(" ")[0]!;

const shown = (unit: string): string => (unit === "" || unit === "pH" ? "" : ` ${unit}`);

const number = String.raw`[+\-−]?(?:\d+(?:[.,]\d+)?|\.\d+)`;
const written = new RegExp(
  String.raw`^(?<mark>~|<=|>=|<|>|≤|≥)?\s*(?<first>${number})(?:\s*(?<sign>\.\.|±|\+-|\+/-)\s*(?<second>${number}))?\s*(?<unit>[^\d\s].*)?$`,
);

function readQuantity(
  name: string,
  input: QuantityInput,
  text: string,
  declared: RoomDeclares,
): Known | Refused {
  const bare = input.unit === "pH" ? text.replace(/^pH\s*/, "") : text;
  const { mark, first, sign, second, unit: spelling } = written.exec(bare)?.groups ?? {};
  if (first === undefined) return { problem: `${name}: “${text}” is no figure; ${wanted(name, input)}` };
  for (const part of [first, second])
    if (part !== undefined && hasDecimalComma(part))
      return { problem: `${name}: “${part}” has a decimal comma; write ${part.replace(",", ".")}` };
  const unit = unitFor(name, input, spelling, declared);
  if ("problem" in unit) return unit;
  const value = unit.to(parseNumber(first));
  const other = second === undefined ? Number.NaN : parseNumber(second);
  const known = spanned(mark, value, sign, sign === ".." ? unit.to(other) : unit.step(other), input);
  return outOfBounds(name, input, known) ?? notAsAsked(name, input, known) ?? known;
}

/** A part of a count, or a range of what has to be one figure. */
function notAsAsked(name: string, { isWhole, isSingle }: QuantityInput, known: Known): Refused | undefined {
  if (isWhole === true && known.high === Number.POSITIVE_INFINITY)
    return { problem: `${name} needs an upper end too: ${name}=5..10` };
  const part = isWhole === true ? [known.low, known.high].find((end) => end !== Math.round(end)) : undefined;
  if (part !== undefined) return { problem: `${name}: ${formatNumber(part, 6)} is no whole number` };
  if (isSingle !== true || known.low === known.high) return undefined;
  return { problem: `${name} has to be one figure, not a range: the results go both ways with it` };
}

function spanned(
  mark: string | undefined,
  value: number,
  sign: string | undefined,
  second: number,
  { low, isWhole }: QuantityInput,
): Known {
  const whole = isWhole === true ? { isWhole } : {};
  const known = (least: number, most: number, best?: number): Known => ({
    is: "quantity",
    low: least,
    high: most,
    best,
    ...whole,
  });
  if (sign === "..") return known(Math.min(value, second), Math.max(value, second));
  if (sign !== undefined) return known(Math.max(low, value - second), value + second, value);
  if (mark === "<" || mark === "<=" || mark === "≤") return known(Math.min(low, value), value);
  if (mark === ">" || mark === ">=" || mark === "≥") return known(value, Number.POSITIVE_INFINITY);
  return known(value, value, value);
}

function outOfBounds(name: string, input: QuantityInput, known: Known): Refused | undefined {
  const { low, high, isAbove = false, unit } = input;
  const isIn = (value: number): boolean => (isAbove ? value > low : value >= low) && value <= high;
  const ends = known.high === Number.POSITIVE_INFINITY ? [known.low] : [known.low, known.high];
  const off = ends.find((end) => !isIn(end));
  if (off === undefined) return undefined;
  const said = shown(unit);
  const bounds =
    high === Number.POSITIVE_INFINITY
      ? `${isAbove ? "above" : "at least"} ${formatNumber(low)}${said}`
      : `${isAbove ? "above " : "within "}${formatNumber(low)} to ${formatNumber(high)}${said}`;
  return { problem: `${name}: ${formatNumber(off, 6)}${said} is not ${bounds}` };
}

function readSeries(name: string, input: SeriesInput, text: string, declared: RoomDeclares): Read | Refused {
  // A unit stands once, behind the last number, or behind each.
  const parts = text
    .replace(/([<>≤≥~]=?)\s+/g, "$1")
    .replace(/\s*(\.\.|±|\+-|\+\/-)\s*/g, "$1")
    .split(/\s*[,;|]\s*|\s+(?=[<>≤≥~+\-−.\d])/)
    .filter((part) => part !== "");
  const unit = unitIn(parts.at(-1) ?? "") ?? "";
  const one: QuantityInput = { ...input, is: "quantity" };
  const values: number[] = [];
  const readings: Reading[] = [];
  for (const part of parts) {
    const read = readQuantity(
      name,
      one,
      unitIn(part) === undefined ? `${part} ${unit}`.trim() : part,
      declared,
    );
    if ("problem" in read) return read;
    if (input.isCensored !== true && read.best === undefined)
      return { problem: `${name}: “${part}” is no single figure` };
    const reading = readingOf(part, read);
    if (reading.is === "below" && reading.high <= reading.low)
      return { problem: `${name}: nothing is ${part}` };
    readings.push(reading);
    values.push(read.best ?? Number.NaN);
  }
  if (readings.length < input.least)
    return {
      problem: `${name} needs ${input.least} figures at least, parted by commas; there are ${readings.length}`,
    };
  return input.isCensored === true ? { is: "readings", values: readings } : { is: "series", values };
}

const unitIn = (part: string): string | undefined => written.exec(part)?.groups?.unit;

/** Of `<5` and `>5` the end itself is left out; of `<=5` and `15..25` it is not. */
function readingOf(part: string, { low, high }: Known): Reading {
  if (/^<(?!=)/.test(part)) return { low, high, is: "below" };
  if (/^>(?!=)/.test(part)) return { low, high, is: "above" };
  return { low, high, is: low === high ? "figure" : "between" };
}

function readChoice(name: string, { choices }: ChoiceInput, text: string): Read | Refused {
  const found = choices.find((each) => each === text) ?? choices.find((each) => same(each, text));
  if (found !== undefined) return { is: "word", word: found };
  const near = didYouMean(nearest(text, choices));
  return { problem: `${name} is one of ${choices.join(", ")}, not “${text}”${near}` };
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** How figures in a unit become figures in the unit of the input. */
interface Conversion {
  to(value: number): number;
  /** A difference: a step of a test, a band on either side. */
  step(value: number): number;
}

function unitFor(
  name: string,
  { unit: symbol, alike }: QuantityInput,
  spelling: string | undefined,
  declared: RoomDeclares,
): Conversion | Refused {
  const own = unitOrNumber(symbol);
  if (spelling === undefined || own === undefined) {
    if (spelling !== undefined) return { problem: `${name} is a plain number; “${spelling}” is too much` };
    return { to: (value) => value, step: (value) => value };
  }
  const unit = alike === spelling ? own : (findUnit(spelling) ?? settle(spelling, own.dimension, declared));
  if (unit === undefined) return { problem: unknownUnit(name, spelling, own) };
  const to = (value: number): number | undefined => converted(value, unit, own);
  const nought = to(0);
  if (nought === undefined) return { problem: wrongKind(name, spelling, unit, own) };
  return { to: (value) => to(value)!, step: (value) => to(value)! - nought };
}

/** A plain number has no unit; a count is one. */
function unitOrNumber(symbol: string): Unit | undefined {
  return symbol === "" ? undefined : unitOf(symbol);
}

/** A concentration without a basis counts as what is asked for, as in a log. */
function converted(value: number, from: Unit, to: Unit): number | undefined {
  if (from.dimension === "concentration" && to.dimension === "concentration" && from.basis === undefined)
    return (value * from.factor) / to.factor;
  return convert(value, from, to);
}

function unknownUnit(name: string, spelling: string, own: Unit): string {
  const candidates = AMBIGUOUS.get(spelling)?.filter(({ dimension }) => dimension === own.dimension);
  if (candidates !== undefined && candidates.length > 0) {
    const choices = candidates.map(({ symbol }) => symbol).join(" or ");
    return `${name}: “${spelling}” may mean ${choices}; write which`;
  }
  const loose = looseUnit(spelling);
  const near = loose === undefined ? nearestUnits(spelling, own.dimension) : [loose];
  return `${name}: there is no unit “${spelling}”${didYouMean(near.map(({ symbol }) => symbol))}`;
}

const kinds: Readonly<Partial<Record<Dimension, string>>> = {
  concentration: "a concentration",
  "volume-concentration": "a volume in a volume",
  hardness: "a hardness or alkalinity",
  conductivity: "a conductivity",
  temperature: "a temperature",
  volume: "a volume",
  length: "a length",
  mass: "a mass",
  fraction: "a fraction",
  duration: "a time",
  flow: "a flow",
  count: "a number",
  rate: "a concentration a day",
};

function wrongKind(name: string, spelling: string, unit: Unit, own: Unit): string {
  const is = kinds[unit.dimension] ?? unit.dimension;
  const fits = `${name} is measured in ${own.symbol}`;
  if (unit.dimension !== own.dimension) return `${name}: ${spelling} is ${is}; ${fits}`;
  return `${name}: what is counted ${spelling} cannot be said in ${own.symbol}; ${fits}`;
}
