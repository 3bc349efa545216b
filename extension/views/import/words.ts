import type { Counts } from "./messages.ts";

const number = (count: number): string => count.toLocaleString("en");

/** `120 rows read = 100 imported + 18 skipped (18 in the log already) + 2 rejected`, as the terminal says it. */
export function countsWords(rows: Counts): string {
  const of = [
    [rows.known, "in the log already"],
    [rows.thinned, "thinned"],
    [rows.empty, "without an entry"],
    [rows.leftOut, "left out by the mapping"],
    [rows.twice, "twice in the table"],
  ] as const;
  const skipped = of.filter(([count]) => count > 0).map(([count, what]) => `${number(count)} ${what}`);
  return `${rows.read === 1 ? "1 row" : `${number(rows.read)} rows`} read = ${number(rows.imported)} imported + ${number(rows.skipped)} skipped${skipped.length > 0 ? ` (${skipped.join(", ")})` : ""} + ${number(rows.rejected)} rejected`;
}

/** Words of an import's own answers, for people. */
export function choiceWords(id: string, value: string): string {
  const kind = id.split(":")[0]!;
  if (value === "ignore") return kind === "parameter" ? "left out" : "leave out";
  if (kind === "date-order")
    return { ymd: "year, month, day", dmy: "day, month, year", mdy: "month, day, year" }[value] ?? value;
  if (kind === "tank" && value === "table") return "that of the table";
  if (kind === "tank" && value === "column") return "as its column says";
  if (kind === "zone" && value === "as-written") return "as they are written";
  if (kind === "thin")
    return value === "none" ? "all readings" : `first of each ${value.replace(/\s*h?$/, " h")}`;
  if (kind === "date" && value === "above") return "the line above the rows";
  if (kind === "date" && value === "none") return "no line: the table has none";
  if (kind === "fill") return { down: "as the cell above", none: "say nothing" }[value] ?? value;
  if (kind === "flag")
    return (
      {
        take: "take it",
        below: "below the figure",
        above: "above the figure",
        "leave-out": "leave the reading out",
      }[value] ?? value
    );
  return value;
}

/** What a decision is called beside its control. */
export function label(id: string): string {
  const [kind = "", ...rest] = id.split(":");
  const of = rest.join(":");
  const plain: Readonly<Record<string, string>> = {
    date: "Day from",
    year: "Year",
    "date-order": "Order of dates",
    zone: "Clock",
    from: "Clock of the table",
    decimal: "Numbers",
    tank: "Tank",
    thin: "Dense series",
    columns: "Columns",
    parameter: "Is",
    unit: "Unit",
    basis: "Counted as",
    food: "Food",
    species: "Species",
    flag: `Mark ${of}`,
    rows: `Rows by ${of}`,
    column: `Column for ${of}`,
    fill: `Empty cells of ${of}`,
  };
  return kind === "tank" && of !== "" && !of.startsWith("#") ? `Tank of ${of}` : (plain[kind] ?? id);
}
