import type { Asking } from "./asking.ts";
import { Filling } from "./filling.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import { aboutOf } from "./propose-role.ts";
import type { Survey } from "./survey.ts";

/** Cells that are empty because they would say what the one above them does: a date over the tanks of its day, a tank over its parameters. */

/** Fewer empty cells are more likely forgotten. */
const fewest = 0.2;

/**
 * Which of the columns are written once and left empty below. Undefined while that is open.
 * @param columns that a row needs, from 0
 */
export function proposeFill(
  survey: Survey,
  columns: readonly number[],
  time: Mapping["time"] | undefined,
  asking: Asking,
): readonly ColumnAt[] | undefined {
  const fill: ColumnAt[] = [];
  let isOpen = false;
  if (survey.layout.delimiter === "fixed") return fill;
  for (const at of columns) {
    const { share, isFew, isTold } = emptyIn(survey, at, columns, time);
    if (share === 0) continue;
    const about = aboutOf(survey, at);
    const known = isFew ? "none" : isTold ? "down" : undefined;
    const answer = asking.decide(
      {
        id: `fill:${about}`,
        asks: `of “${survey.layout.heads[at]}” ${Math.max(1, Math.round(share * 100))} % of the cells are empty; do they say what the one above them does?`,
        choices: ["down", "none"],
        hint: "down: as the one above, up to an empty row; none: rows without it are rejected",
      },
      known,
    );
    if (answer === "down" && known === "down")
      asking.because(
        survey.layout.heads[at]!,
        "empty cells say what the one above them does: below each there is one of a kind only, and none is written twice",
        "likely",
      );
    if (answer === undefined) isOpen = true;
    if (answer === "down") fill.push({ at: at + 1, head: survey.layout.heads[at]! });
  }
  return isOpen ? undefined : fill;
}

/** How many of its cells are empty, and whether the others tell that they are written once for several rows. */
function emptyIn(
  { samples, rows }: Survey,
  at: number,
  columns: readonly number[],
  time: Mapping["time"] | undefined,
): { readonly share: number; readonly isFew: boolean; readonly isTold: boolean } {
  let empty = 0;
  let all = 0;
  let line = -1;
  let last = "";
  let isTwice = false;
  const parting = columns.filter((each) => each !== at);
  const seen = new Set<string>();
  let isOneOfAKind = parting.length > 0;
  for (const { cells, line: own } of samples) {
    if (own === line) continue;
    line = own;
    const cell = cells[at] ?? "";
    if (cells.every((each, place) => place === at || each === "")) {
      if (cell !== "") [last] = [cell, seen.clear()];
      continue;
    }
    if (isTotal(cells, time)) continue;
    all++;
    const key = parting.map((each) => cells[each] ?? "").join("\u0000");
    if (cell === "") {
      empty++;
      // Nothing stands above the first row.
      if (last === "" || key.replace(/\0/g, "") === "" || seen.has(key)) isOneOfAKind = false;
    } else {
      if (cell === last) isTwice = true;
      last = cell;
      seen.clear();
    }
    seen.add(key);
  }
  const share = rows === 0 || all === 0 ? 0 : empty / all;
  return {
    share,
    isFew: share < fewest || (empty === 1 && all > 3),
    isTold: isOneOfAKind && !isTwice && empty > 1,
  };
}

/** `Mean` where a date would stand. */
function isTotal(cells: readonly string[], time: Mapping["time"] | undefined): boolean {
  if (time === undefined || time.date === "line" || "month" in time.date) return false;
  const cell = cells[time.date.at - 1] ?? "";
  return cell !== "" && !/\d/.test(cell);
}

/** The survey with its samples filled. */
export function filledSurvey(survey: Survey, fill: readonly ColumnAt[]): Survey {
  if (fill.length === 0) return survey;
  const filling = new Filling(fill);
  const samples = survey.samples.map((sample) => {
    const cells = [...sample.cells];
    filling.fill(cells);
    return { ...sample, cells };
  });
  return { ...survey, samples };
}
