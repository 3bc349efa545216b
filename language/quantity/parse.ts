/**
 * Numbers as a keeper writes them: digits, a point, a sign. `1_000` and `1,000` are not numbers (a comma
 * separates the items of an entry), nor are `1e3` or `0x10`: what reads differently to two people is not
 * read.
 */

/** The number written, or NaN. Accepts `12`, `12.5`, `.5`, `12.`, with `+`, `-` or the minus sign U+2212. */
export function parseNumber(text: string): number {
  let at = 0;
  let sign = 1;
  const first = text.charCodeAt(0);
  if (first === PLUS) at = 1;
  else if (first === HYPHEN || first === MINUS) {
    at = 1;
    sign = -1;
  }
  let digits = 0;
  let whole = 0;
  let point = -1;
  for (let i = at; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === POINT && point < 0) point = i;
    else if (code >= 48 && code <= 57) {
      digits++;
      whole = whole * 10 + (code - 48);
    } else return Number.NaN;
  }
  if (digits === 0) return Number.NaN;
  // Up to 15 digits over a power of ten up to 1e22 are exact, and their quotient correctly rounded
  // (Clinger 1990, How to read floating point numbers accurately); longer numbers take the slow way.
  if (digits > 15) return sign * Number(text.slice(at));
  const decimals = point < 0 ? 0 : text.length - 1 - point;
  return (sign * whole) / TENS[decimals]!;
}

const PLUS = 43;
const HYPHEN = 45;
const POINT = 46;
const MINUS = 0x2212;
const TENS = Array.from({ length: 16 }, (_, n) => 10 ** n);

/** Whether the text is a number written with a decimal comma (`7,2`): the caller says so and offers `7.2`. */
export function hasDecimalComma(text: string): boolean {
  return /^[+-]?\d+,\d+$/.test(text);
}

/**
 * How many digits stand after the point as written: the resolution of the reading is half a step of the last.
 */
export function decimalsWritten(text: string): number {
  const point = text.indexOf(".");
  return point < 0 ? 0 : text.length - 1 - point;
}
