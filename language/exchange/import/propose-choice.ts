import type { Asking } from "./asking.ts";
import type { Head } from "./heads.ts";
import type { ColumnRole } from "./propose-role.ts";
import { type KnownPlace, placeInHead } from "./propose-tanks.ts";
import type { Survey } from "./survey.ts";

/** Which columns of a table are readings. */

/** The answer that takes all of them, each of a tank of its own. */
const severalTanks = "several tanks";

/**
 * The columns that are readings, one of a parameter and tank; which of several is asked.
 * @param roles of the columns that may be taken
 * @param undecided takes columns of which it is open whether they are the tank's: nothing else is asked of them before
 * @param apart takes columns that are each of a tank of their own
 */
export function chosen(
  survey: Survey,
  heads: readonly Head[],
  roles: ReadonlyMap<number, ColumnRole>,
  asking: Asking,
  undecided: Set<number>,
  apart: Set<number>,
  places: readonly KnownPlace[],
): Map<number, Head> {
  const found = new Map<number, Head>();
  for (const [at, role] of roles)
    if (role.is === "test")
      found.set(at, { ...heads[at]!, text: survey.layout.heads[at]!, parameter: role.parameter });
  const { above } = survey.layout;
  const groups = new Map<string, number[]>();
  for (const [index, { parameter, number, text }] of found) {
    const key = `${parameter!.name} ${number} ${placeInHead(`${above[index] ?? ""} ${text}`, places) ?? above[index] ?? ""}`;
    groups.set(key, [...(groups.get(key) ?? []), index]);
  }
  const set = setAsked(
    survey,
    [...groups.values()].filter((all) => all.length > 1 && !all.every((index) => apart.has(index))),
    asking,
  );
  for (const [key, all] of groups) {
    if (all.length < 2 || all.every((index) => apart.has(index))) continue;
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
          choices: [...ids, severalTanks, "ignore"],
          hint: "in brackets, how many rows have a figure",
        },
        "",
      );
      if (answer === severalTanks) {
        for (const index of all) apart.add(index);
        continue;
      }
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
