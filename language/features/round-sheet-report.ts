import { spokenDay } from "../book/dates.ts";
import { type Cell, list, type Report, sectionsOfRooms, table, text } from "./document.ts";
import type { RoundSheet } from "./round-sheet.ts";

/** Round sheets for a terminal and for Markdown: what is due, then what to test, with the last values. */
export function roundReport(sheets: readonly RoundSheet[]): Report {
  const [only] = sheets;
  return {
    title: "Round sheet",
    about: sheets.length !== 1 ? "" : [only!.title, spokenDay(only!.day)].filter(Boolean).join(", "),
    sections: sectionsOfRooms(
      sheets.map((sheet) => ({ title: sheet.title, card: sheet })),
      (sheet) => [doSection(sheet), testSection(sheet), { title: "Deaths and notes", parts: [list(blanks)] }],
    ),
  };
}

const blanks = ["Deaths: ____________________", "Notes: ____________________", "____________________"];
const empty = "___";

function doSection({ rows }: RoundSheet): Report["sections"][number] {
  if (rows.length === 0) return { title: "The round", parts: [text("No tank is defined yet.")] };
  return {
    title: "The round",
    note: "in the order of hands",
    parts: [
      list(
        rows.flatMap(({ at, before, flags, acts }) => [
          ...(before === "" ? [] : [{ text: before, tone: "warning" as const }]),
          {
            text: `${at}: ${acts.length === 0 ? "nothing due" : acts.map((act) => `[ ] ${act}`).join("  ")}`,
            ...(flags.length === 0 ? {} : { note: flags.join("; ") }),
          },
        ]),
      ),
    ],
  };
}

function testSection({ heads, rows, left }: RoundSheet): Report["sections"][number] | undefined {
  const tested = rows.filter(({ boxes }) => boxes.some((box) => box !== undefined));
  if (tested.length === 0) return undefined;
  const more = left.length === 0 ? [] : [text(`Also tested, without a column: ${left.join(", ")}.`, "faint")];
  return {
    title: "Tests",
    note: "last value, then a place for the new one",
    parts: [
      table(
        [
          "Tank",
          ...heads.map(({ parameter, unit }) => (unit === "" ? parameter.name : `${parameter.name} ${unit}`)),
        ],
        tested.map(({ at, boxes }): Cell[] => [
          at,
          ...boxes.map((box) => (box === undefined ? "" : `${box} ${empty}`.trim())),
        ]),
      ),
      ...more,
    ],
  };
}
