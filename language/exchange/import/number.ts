/** Numbers as tables write them: what was written is kept, digit for digit, with a point. */

export type Decimal = "." | ",";

export interface Written {
  /** With a point and without thousands marks, its digits as they were. */
  readonly text: string;
  readonly value: number;
  readonly censor: "" | "<" | ">";
  /** What stands behind the number: `&`, `J`; empty where nothing does. */
  readonly mark: string;
}

const shape =
  /^([<>]=?|[≤≥]|(?:less than|below|under|unter|kleiner(?: als)?|weniger als|more than|above|over|über|größer(?: als)?|mehr als)(?=\s))?\s*([+\-−]?)((?:\d[\d.,'’ \u00a0\u202f]*)?\d[.,]?|[.,]\d+)(?:[eE]([+-]?\d{1,2}))?\s*(\D.*)?$/isu;

const grouped: Readonly<Record<Decimal, RegExp>> = {
  ".": /^\d{1,3}(?:([,'’ \u00a0\u202f])\d{3}(?:\1\d{3})*)?(?:\.\d*)?$|^\d*(?:\.\d*)?$/u,
  ",": /^\d{1,3}(?:([.'’ \u00a0\u202f])\d{3}(?:\1\d{3})*)?(?:,\d*)?$|^\d*(?:,\d*)?$/u,
};

/** As most are written: nothing of them changes. */
const plain: Readonly<Record<Decimal, RegExp>> = {
  ".": /^(?:0|[1-9]\d{0,14})(?:\.\d{1,15})?$/,
  ",": /^(?:0|[1-9]\d{0,14})$/,
};

/** The number in a cell; undefined if there is none, or it is written with the other decimal mark. */
export function readNumber(cell: string, decimal: Decimal): Written | undefined {
  if (plain[decimal].test(cell)) return { text: cell, value: Number(cell), censor: "", mark: "" };
  const found = shape.exec(cell);
  if (found === null) return undefined;
  const [, sign = "", minus = "", digits = "", power, mark = ""] = found;
  if (!grouped[decimal].test(digits) || !/^(?:[^\d\p{Cc}]|(?<=[A-Za-z])\d){0,24}$/u.test(mark))
    return undefined;
  // `6½` is more than 6, and `120-` less than nothing to those who write so: neither is a figure with a mark.
  if (/^\s*(?:[¼-¾⅐-⅞]|[-−–]\s*$)/u.test(mark)) return undefined;
  const point = digits.indexOf(decimal);
  const whole = (point < 0 ? digits : digits.slice(0, point)).replace(/\D/g, "").replace(/^0+(?=\d)/, "");
  const part = point < 0 ? "" : digits.slice(point + 1);
  const written = `${whole === "" ? "0" : whole}${part === "" ? "" : `.${part}`}`;
  const shifted = power === undefined ? written : shiftPoint(written, Number(power));
  const text = `${minus === "-" || minus === "−" ? "-" : ""}${shifted}`;
  const censor = sign === "" ? "" : /^(?:[<≤]|less|below|under|unter|klein|wenig)/i.test(sign) ? "<" : ">";
  return { text, value: Number(text), censor, mark: mark.trim() };
}

/** A number ten times larger or smaller, so many times, no digit lost or made: 97 by -3 is 0.097. */
export function shiftPoint(text: string, places: number): string {
  if (places === 0) return text;
  const minus = text.startsWith("-") ? "-" : "";
  const [whole = "", part = ""] = text.slice(minus.length).split(".");
  const digits = whole + part;
  const point = whole.length + places;
  if (point <= 0) return `${minus}0.${"0".repeat(-point)}${digits}`;
  const padded = digits.padEnd(point, "0");
  const left = padded.slice(0, point).replace(/^0+(?=\d)/, "");
  const right = padded.slice(point);
  return `${minus}${left}${right === "" ? "" : `.${right}`}`;
}

/** How a cell could be read: `both` where `1,234` may be a thousand or one and a bit. */
export function decimalOf(cell: string): Decimal | "both" | undefined {
  // With its unit, too: `0,05 mg/l`.
  const figure = /^(?:[<>≤≥~]\s*)?([+\-−]?\d[\d.,'’]*)(?!\d)(?:\s*[^\d.,'’].*)?$/su.exec(cell)?.[1];
  if (figure === undefined || !/[.,]/.test(figure)) return undefined;
  const [point, comma] = [readNumber(figure, "."), readNumber(figure, ",")];
  if (point === undefined) return comma === undefined ? undefined : ",";
  if (comma === undefined) return ".";
  // A point with three digits behind it is a point, as long as nothing else says otherwise.
  return cell.includes(",") ? "both" : undefined;
}

/** What tables write where nothing was measured. */
export const missingMarks: readonly string[] = [
  "na",
  "n/a",
  "#n/a",
  "nan",
  "null",
  "none",
  "nil",
  "-",
  "--",
  "---",
  "–",
  "−",
  "—",
  ".",
  "..",
  "*",
  "?",
  "x",
  "missing",
  "nd",
  "n.d.",
  "n.n.",
  "bdl",
  "<lod",
  "<bg",
  "not detected",
  "trace",
  "traces",
  "spuren",
  "no data",
  "k.a.",
  "#div/0!",
  "#value!",
  "#ref!",
  "#name?",
  "-9999",
  "-999.9",
  "-99999",
];

/** Whether a cell says that nothing was measured: empty, a mark, or hashes where digits should be. */
export const isMissing = (cell: string): boolean =>
  cell === "" || missing.has(cell.toLowerCase()) || /^[#*]+(?:[.,][#*]+)?$/.test(cell);

const missing = new Set(missingMarks);
