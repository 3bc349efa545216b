import type { Asking } from "./asking.ts";
import type { Head } from "./heads.ts";
import { type Decimal, readNumber } from "./number.ts";
import { parameterFor } from "./propose-columns.ts";
import { type KnownPlace, placeInHead } from "./propose-tanks.ts";
import type { Survey } from "./survey.ts";

/** Which columns of a table are readings. */

/**
 * The columns that are readings, one of a parameter and tank; which of several is asked.
 * @param undecided takes columns of which it is open whether they are the tank's: nothing else is asked of them before
 */
export function chosen(
  survey: Survey,
  heads: readonly Head[],
  taken: ReadonlySet<number>,
  decimal: Decimal,
  asking: Asking,
  undecided: Set<number>,
  places: readonly KnownPlace[],
): Map<number, Head> {
  const found = new Map<number, Head>();
  heads.forEach((head, index) => {
    if (taken.has(index)) return;
    const named = { ...head, text: survey.layout.heads[index]! };
    const parameter = parameterFor(named, index, asking);
    const { filled, distinct } = survey.columns[index]!;
    if (parameter === undefined || parameter === "ignore" || filled === 0) return;
    const cells = [...distinct.keys()];
    if (cells.filter((cell) => readNumber(cell, decimal) !== undefined).length < cells.length * 0.5) return;
    found.set(index, { ...named, parameter });
  });
  const groups = new Map<string, number[]>();
  for (const [index, { parameter, number, text }] of found) {
    const key = `${parameter!.name} ${number} ${placeInHead(text, places) ?? ""}`;
    groups.set(key, [...(groups.get(key) ?? []), index]);
  }
  const set = setAsked(
    survey,
    [...groups.values()].filter((all) => all.length > 1),
    asking,
  );
  for (const [key, all] of groups) {
    if (all.length < 2) continue;
    // A table that has both says with “specific” which is that at 25 C.
    const specific = all.filter((index) => /^sp|^sc$|specific/i.test(heads[index]!.name));
    const parameter = key.split(" ")[0]!;
    let keep = specific.length === 1 && parameter === "conductivity" ? specific[0] : undefined;
    if (keep === undefined && set !== undefined) {
      if (set === "") undecided.add(all[0]!);
      keep = set === "" ? all[0] : all.find((index) => endOf(survey.layout.heads[index]!) === set);
      for (const index of all) if (index !== keep) found.delete(index);
      continue;
    }
    if (keep === undefined) {
      const ids = all.map((index) => `#${index + 1}`);
      const answer = asking.ask(
        {
          id: `column:${parameter}`,
          asks: `${all.length} columns are ${parameter}: ${all.map((index) => `#${index + 1} “${survey.layout.heads[index]}” (${survey.columns[index]!.filled})`).join(", ")}; which is the tank's?`,
          choices: [...ids, "ignore"],
          hint: "in brackets, how many rows have a figure",
        },
        "",
      );
      keep = answer === undefined || answer === "ignore" ? undefined : Number(answer.slice(1)) - 1;
      if (answer === undefined) {
        keep = all[0]!;
        undecided.add(keep);
      }
    }
    for (const index of all) if (index !== keep) found.delete(index);
  }
  return found;
}

/** What stands in the last brackets of a head: `(0.0 m)`. */
const endOf = (head: string): string => /[([][^()[\]]*[)\]]\s*$/.exec(head)?.[0].trim() ?? "";

/**
 * Where several parameters have the same sets of columns, as at several depths, it is asked once which set is the tank's. Undefined where there are no such
 * sets or columns are chosen one by one; empty while it is open.
 */
function setAsked(
  survey: Survey,
  groups: readonly (readonly number[])[],
  asking: Asking,
): string | undefined {
  const { heads } = survey.layout;
  const often = new Map<string, number>();
  for (const all of groups) {
    const ends = new Set(all.map((index) => endOf(heads[index]!)));
    if (ends.size !== all.length || ends.has("")) return undefined;
    for (const end of ends) often.set(end, (often.get(end) ?? 0) + 1);
  }
  if (groups.length < 2 || often.size < 2) return undefined;
  return (
    asking.ask({
      id: "columns",
      asks: `${groups.length} parameters have several columns each, which differ in what stands in brackets; which are the tank's?`,
      choices: [...often].sort((a, b) => b[1] - a[1]).map(([end]) => end),
      hint: "",
    }) ?? ""
  );
}
