/**
 * What is wanted of a column, in plain operators: `> 20`, `<= 5`, `20..30`, `r1..r4`, `2026-03-01..2026-03-31`, `= dam`, `!= dam`, `=`
 * (empty), `!=` (not empty), words that are in the cell in any case. Of several parted by `|` one must hold.
 */
export interface Filter {
  readonly isMet: (text: string) => boolean;
  /** What could not be read; empty where all could. */
  readonly problem: string;
  /** In small letters: a line that says what is wanted holds one of them as it stands. Empty where nothing is known. */
  readonly needles: readonly string[];
}

export function filterOf(wanted: string): Filter {
  const words = wanted.split("|");
  const parts = words.map(oneOf);
  const needles = words.map(needleOf);
  const problem = parts.find((part) => typeof part === "string");
  const tests = parts.filter((part) => typeof part !== "string");
  return {
    isMet: (text) => problem !== undefined || tests.some((test) => test(text)),
    problem: (problem as string | undefined) ?? "",
    needles: problem === undefined && needles.every((needle) => needle !== "") ? needles : [],
  };
}

type Test = (text: string) => boolean;

function oneOf(wanted: string): Test | string {
  const [, operator, rest] = operatorIn(wanted);
  const operand = rest!.replace(/^"(.*)"$/s, "$1");
  if (operator === "=" || operator === "!=") {
    const isEqual = (cell: string): boolean => cell.trim().toLowerCase() === operand.trim().toLowerCase();
    return operator === "=" ? isEqual : (cell) => !isEqual(cell);
  }
  if (operator !== undefined) return compared(operator as Comparison, operand);
  return rangeOf(operand) ?? holding(operand);
}

/** What a line must hold that meets one of the alternatives; empty where it cannot be told. */
function needleOf(wanted: string): string {
  const [, operator, rest] = operatorIn(wanted);
  const operand = rest!.replace(/^"(.*)"$/s, "$1");
  if (operator !== undefined && operator !== "=") return "";
  const ends = operator === "=" ? null : rangeIn(operand);
  if (ends !== null) {
    const [first, last] = [numbered(ends[1]!), numbered(ends[2]!)];
    return first !== undefined && first.name === last?.name ? first.name.toLowerCase() : "";
  }
  // In a text quotes and backslashes stand otherwise than they are shown, and lists may be parted otherwise.
  return /["\\,\s]/.test(operand) ? "" : operand.trim().toLowerCase();
}

const operatorIn = (wanted: string): RegExpExecArray => /^(<=|>=|!=|<|>|=)?\s*(.*)$/s.exec(wanted.trim())!;
const rangeIn = (operand: string): RegExpExecArray | null => /^(.+?)\s*(?:\.\.|…)\s*(.+)$/.exec(operand);

function holding(operand: string): Test {
  const wanted = operand.toLowerCase();
  return (cell) => cell.toLowerCase().includes(wanted);
}

type Comparison = "<" | "<=" | ">" | ">=";

/** A reading is more than a figure where it surely is: `<5` is less than 5, and not more than 3. */
function compared(operator: Comparison, operand: string): Test | string {
  const wanted = spanIn(operand);
  if (wanted === undefined) return `after ${operator} comes a number, a date or a time`;
  const figure = wanted.low;
  return (cell) => {
    const span = spanIn(cell, wanted.is);
    if (span === undefined) return false;
    const { low, high, isOpenLow, isOpenHigh } = span;
    if (operator === ">") return low > figure || (low === figure && isOpenLow);
    if (operator === "<") return high < figure || (high === figure && isOpenHigh);
    return operator === ">=" ? low >= figure : high <= figure;
  };
}

/** `20..30`, `r1..r4`, `2026-03-01..2026-03-31`; undefined for what is none. */
function rangeOf(operand: string): Test | undefined {
  const ends = rangeIn(operand);
  if (ends === null) return undefined;
  const names = [numbered(ends[1]!), numbered(ends[2]!)] as const;
  if (names[0] !== undefined && names[1] !== undefined && names[0].name === names[1].name) {
    const [from, to] = [names[0], names[1]];
    return (cell) => {
      const own = numbered(cell.trim());
      return own?.name === from.name && own.number >= from.number && own.number <= to.number;
    };
  }
  const [low, high] = [spanIn(ends[1]!), spanIn(ends[2]!)];
  if (low === undefined || high === undefined || low.is !== high.is) return undefined;
  return (cell) => {
    const span = spanIn(cell, low.is);
    return span !== undefined && span.low >= low.low && span.high <= high.high;
  };
}

/** A name that ends in a number. */
function numbered(text: string): { readonly name: string; readonly number: number } | undefined {
  const found = /^([\p{L}_][\p{L}\p{N}_-]*?)(\d+)$/u.exec(text);
  return found === null ? undefined : { name: found[1]!, number: Number(found[2]) };
}

export interface CellSpan {
  readonly is: "figure" | "date" | "time";
  readonly low: number;
  readonly high: number;
  /** `>5` is more than 5, `<5` less. */
  readonly isOpenLow: boolean;
  readonly isOpenHigh: boolean;
}

const dates = /(\d{4})-(\d{2})-(\d{2})(?!\d)/;
const times = /(?<!\d)(\d{1,2}):(\d{2})(?![\d:])/;
const figures =
  /(?<![\p{L}\d_.-])(<=?|>=?|[≤≥~])?\s*(-?(?:\d+(?:\.\d+)?|\.\d+))(?:\s*(?:\.\.|…)\s*(-?\d+(?:\.\d+)?))?/u;

/** What the first date, time or number in a text lies between; undefined where there is none. */
export function spanIn(text: string, is?: CellSpan["is"]): CellSpan | undefined {
  const exact = (kind: CellSpan["is"], value: number): CellSpan => ({
    is: kind,
    low: value,
    high: value,
    isOpenLow: false,
    isOpenHigh: false,
  });
  if (is === undefined || is === "date") {
    const date = dates.exec(text);
    if (date !== null) return exact("date", Number(`${date[1]}${date[2]}${date[3]}`));
  }
  if (is === undefined || is === "time") {
    const time = times.exec(text);
    if (time !== null) return exact("time", Number(time[1]) * 60 + Number(time[2]));
  }
  if (is !== undefined && is !== "figure") return undefined;
  const found = figures.exec(text);
  if (found === null) return undefined;
  const [, mark = "", number, second] = found;
  const value = Number(number);
  if (second !== undefined) return { ...exact("figure", value), high: Number(second) };
  if (mark.startsWith("<") || mark === "≤")
    return { ...exact("figure", value), low: Number.NEGATIVE_INFINITY, isOpenHigh: mark === "<" };
  if (mark.startsWith(">") || mark === "≥")
    return { ...exact("figure", value), high: Number.POSITIVE_INFINITY, isOpenLow: mark === ">" };
  return exact("figure", value);
}

/** By what a cell is sorted: numbers by size, names with their numbers by those (r2 before r10), what is empty last. */
export function sortKey(text: string): number | string {
  if (/^(?:<=?|>=?|[≤≥~])?\s*-?[\d.]/.test(text)) {
    const span = spanIn(text);
    // `<5` before 5, `>5` behind it.
    if (span !== undefined) {
      if (span.low === span.high) return span.low;
      if (span.low === Number.NEGATIVE_INFINITY) return span.high - 1e-9 * Math.max(1, Math.abs(span.high));
      if (span.high === Number.POSITIVE_INFINITY) return span.low + 1e-9 * Math.max(1, Math.abs(span.low));
      return (span.low + span.high) / 2;
    }
  }
  return text.toLowerCase().replace(/\d+/g, (digits) => digits.padStart(12, "0"));
}

/** Numbers before words, what is empty last whichever way it is turned. */
export function compareKeys(a: number | string, b: number | string, isDown: boolean): number {
  if (a === b) return 0;
  if (a === "") return 1;
  if (b === "") return -1;
  const isNumber = typeof a === "number";
  const order = isNumber === (typeof b === "number") ? (a < b ? -1 : 1) : isNumber ? -1 : 1;
  return isDown ? -order : order;
}
