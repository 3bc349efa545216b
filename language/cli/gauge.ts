/** A value between its limits, on one line: `────────●──┃╌╌╌`. */

export interface Gauged {
  /** The ends of what is measured; null for no upper end. */
  readonly low: number;
  readonly high: number | null;
  /** Null where there is no bound. */
  readonly limits: { readonly low: number | null; readonly high: number | null };
}

const signs = { inside: "─", outside: "╌", limit: "┃", value: "●" };
const ascii: typeof signs = { inside: "-", outside: ".", limit: "|", value: "o" };

/** Beyond a limit the scale goes on for this share of what lies within. */
const beyond = 0.3;

/** @param columns at least 8 */
export function gauge({ low, high, limits }: Gauged, columns: number, hasSigns: boolean): string {
  const { inside, outside, limit, value } = hasSigns ? signs : ascii;
  // What has one bound is shown from nothing, or to twice the bound.
  const from = limits.low ?? Math.min(0, low, limits.high ?? 0);
  const to = limits.high ?? Math.max(2 * from, high ?? low);
  const wide = to - from || Math.abs(to) || 1;
  const begin = limits.low === null ? from : from - beyond * wide;
  const end = limits.high === null ? to : to + beyond * wide;
  const at = (figure: number): number =>
    Math.max(0, Math.min(columns - 1, Math.round(((figure - begin) / (end - begin)) * (columns - 1))));
  const line = Array.from({ length: columns }, (_, column) => {
    const isBelow = limits.low !== null && column < at(limits.low);
    const isAbove = limits.high !== null && column > at(limits.high);
    return isBelow || isAbove ? outside : inside;
  });
  for (const bound of [limits.low, limits.high]) if (bound !== null) line[at(bound)] = limit;
  // A censored reading or a range is as long as it may be.
  for (let column = at(low); column <= at(high ?? end); column++) line[column] = value;
  return line.join("");
}
