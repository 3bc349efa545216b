import { AMBIGUOUS } from "./ambiguous.ts";
import { UNITS } from "./unit-table.ts";

/**
 * Units as small whole numbers, for facts kept in columns: a unit's id, `noUnit`, or a code below `noUnit` for a spelling that
 * may mean several units and waits for what the room declares.
 */
export const noUnit = -1;

const ambiguousSpellings = [...AMBIGUOUS.keys()];
const codes = new Map<string, number>();
ambiguousSpellings.forEach((spelling, index) => {
  codes.set(spelling, -2 - index);
});
for (const unit of UNITS) for (const spelling of unit.spellings) codes.set(spelling, unit.id);

/** The code of a unit's exact spelling; undefined if the text is no unit. */
export function unitCodeOf(text: string): number | undefined {
  return codes.get(text);
}

/** The ambiguous spelling that a code stands for; undefined for a plain unit and for `noUnit`. */
export function ambiguousSpelling(code: number): string | undefined {
  return code < noUnit ? ambiguousSpellings[-2 - code] : undefined;
}
