import type { Head } from "./heads.ts";
import type { KnownNames } from "./known-log.ts";
import { isMissing, readNumber } from "./number.ts";
import { amountColumn, type ColumnRole, foodColumn, speciesColumn } from "./propose-role.ts";
import type { Survey } from "./survey.ts";

/** What is said of columns that are no entries of their own. */

/** Above the heads, `TEMPERATURE` and on the next line `UNIT: C`. */
export function unitAbove(preamble: readonly string[], head: string): string {
  const at = head === "" ? -1 : preamble.findIndex((line) => line.toLowerCase() === head.toLowerCase());
  return at < 0 ? "" : (/^units?\s*[:=]\s*(.*)$/i.exec(preamble[at + 1] ?? "")?.[1] ?? "");
}

/** Columns that say to others of which species or food they are. */
export function helpingColumns(
  survey: Survey,
  roles: ReadonlyMap<number, ColumnRole>,
  known: KnownNames,
): ReadonlyMap<number, string> {
  const has = (...kinds: readonly ColumnRole["is"][]): boolean =>
    [...roles.values()].some(({ is }) => kinds.includes(is));
  const found = new Map<number, string>();
  if (has("count", "lose")) found.set(speciesColumn(survey, known), "species");
  if (has("feed") && amountColumn(survey) >= 0) found.set(foodColumn(survey, known), "food");
  return found;
}

export function whyNot(survey: Survey, head: Head, index: number): string {
  const { filled, distinct } = survey.columns[index]!;
  if (head.not !== "") return head.not;
  if (filled === 0) return "nothing stands in it";
  if (
    head.parameter !== undefined &&
    [...distinct.keys()].some((cell) => !isMissing(cell) && readNumber(cell, ".") !== undefined)
  )
    return "another column is taken";
  return "a log has no word for it";
}

export function noReadings(survey: Survey, heads: readonly Head[]): string {
  const nots = [...new Set(heads.map(({ not }) => not).filter((not) => not !== ""))];
  const named = survey.layout.heads.filter((head) => head !== "").slice(0, 8);
  return `no column is a reading that a log has a word for (${named.map((head) => `“${head.slice(0, 30)}”`).join(", ")}${survey.layout.heads.length > 8 ? " ..." : ""})${nots.length > 0 ? `; ${nots.join("; ")}` : ""}`;
}
