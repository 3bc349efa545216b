import { AMBIGUOUS } from "../../language/quantity/ambiguous.ts";
import { UNITS } from "../../language/quantity/unit-table.ts";

/** The pattern of all spellings of units, longest first: what the TextMate grammar has to hold. */
export function unitPattern(): string {
  const spellings = new Set([
    ...UNITS.flatMap(({ symbol, spellings: some }) => [symbol, ...some]),
    ...AMBIGUOUS.keys(),
  ]);
  spellings.delete("");
  const longestFirst = [...spellings].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return `(?:${longestFirst.map((spelling) => spelling.replace(/[().*+?^$|]/g, "\\$&")).join("|")})(?![\\p{L}\\p{N}_])`;
}
