import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellEdit, cellEdits } from "../../../language/features/grid/cell-edit.ts";
import type { Face } from "../../../language/features/grid/grid-model.ts";
import { gridRows } from "../../../language/features/grid/query.ts";
import { definitions } from "../../support/arbitrary-log.ts";
import { edited, viewOf } from "../../support/cursor.ts";
import { anyCellText, make, rowsOf, textsIn, textsOf, viewOfFiles } from "./support.ts";

/** Definitions as cells. */

const log = `room "Cellar"
tank dam "Rainbowfish dam"  # by the wall
  # bought second-hand
  inside   150 x 55 x 50 cm; filled 46 cm
  volume   310 L  # measured
  limits   nitrate <= 25 mg/L
  limits   pH 6.8..7.8
  place    "left wall"
  colour   blue
tank q1
  volume 48 L
group rack = dam, q1
2026-03-01
  dam  change 30 %
`;
const tanks: Face = { is: "definitions", of: "tank" };
const columns = [
  "name",
  "title",
  "property volume",
  "property inside",
  "property filled",
  "property role",
  "property place",
  "property limits",
  "comment",
];

describe("definitions", () => {
  it("are rows, their properties columns, with what is no property below them", () => {
    const { rows } = gridRows(viewOf(log), tanks, { from: 0, count: 10, columns });
    expect(rows.map(textsIn)).toEqual([
      "definition | dam | Rainbowfish dam | 310 L | 150 x 55 x 50 cm | 46 cm |  | left wall | nitrate <= 25 mg/L; pH 6.8..7.8 | by the wall",
      "comment | # bought second-hand",
      "text | colour   blue",
      "definition | q1 |  | 48 L |  |  |  |  |  | ",
    ]);
    expect(rows[2]!.cells[0]!.marks.map(({ code }) => code)).toEqual(["definition/property"]);
  });

  function changed(row: number, column: string, typed: string): string {
    const view = viewOf(log);
    const { id } = rowsOf(view, tanks)[row]!;
    const made = cellEdit(view, { row: id, column }, typed);
    if (made.is === "refused") return made.message;
    const old = log.split("\n");
    const fresh = edited(log, made.edits).split("\n");
    return [
      ...old.filter((line) => !fresh.includes(line)).map((line) => `-${line}`),
      ...fresh.filter((line) => !old.includes(line)).map((line) => `+${line}`),
    ].join("\n");
  }

  it.each([
    [0, "property volume", "300 L", "-  volume   310 L  # measured\n+  volume   300 L  # measured"],
    [0, "property volume", "", "-  volume   310 L  # measured\n+  # measured"],
    [0, "property volume", "lots", "-  volume   310 L  # measured\n+  volume   lots  # measured"],
    [0, "property filled", "", "-  inside   150 x 55 x 50 cm; filled 46 cm\n+  inside   150 x 55 x 50 cm"],
    [0, "property inside", "", "-  inside   150 x 55 x 50 cm; filled 46 cm\n+  filled 46 cm"],
    [0, "property place", 'a "b"', '-  place    "left wall"\n+  place    "a \\"b\\""'],
    [0, "property place", "", '-  place    "left wall"'],
    [3, "property role", "quarantine", "+  role   quarantine"],
    [3, "title", "Quarantine", '-tank q1\n+tank q1 "Quarantine"'],
    [0, "title", "", '-tank dam "Rainbowfish dam"  # by the wall\n+tank dam  # by the wall'],
    [
      0,
      "property limits",
      "pH 7",
      "several are parted by ; and what is left out goes; each is written like: temperature 23..27 C, nitrate <= 25 mg/L, pH 6.8..7.8",
    ],
    [3, "property volume", "48 L; role show", "this is written like: 310 L"],
    [3, "property volume", "48 L # x", "this is written like: 310 L"],
    [2, "text", 'note "blue"', '-  colour   blue\n+  note "blue"'],
    [3, "name", "q2", "-tank q1\n-group rack = dam, q1\n+tank q2\n+group rack = dam, q2"],
    [3, "name", "dam", "“dam” is the name of a tank already"],
  ])("row %i, %s: %j", (row, column, typed, expected) => {
    expect(changed(row, column, typed)).toBe(expected);
  });

  it("take several cells at once, each its own line", () => {
    const view = viewOf(log);
    const [dam] = rowsOf(view, tanks);
    const made = cellEdits(view, [
      { row: dam!.id, column: "property volume", text: "300 L" },
      { row: dam!.id, column: "title", text: "The dam" },
    ]);
    if (made.is === "refused") throw new Error(made.message);
    expect(edited(log, made.edits)).toBe(log.replace("310 L", "300 L").replace("Rainbowfish dam", "The dam"));
    expect(made.edits.length).toBe(2);
  });

  it("any cell says what was typed, and the others what they said", () => {
    const words = ["tank", "species", "remedy", "water", "system", "group", "room", "food", "gear"] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...words),
        fc.nat(30),
        fc.nat(10),
        fc.oneof(
          anyCellText,
          fc.constantFrom("30 L", "7 d change 30 %", "fish", "scaleless, fry", "r1 .. r2"),
        ),
        (of, at, which, text) => {
          const view = viewOfFiles(new Map([["log.tank", `${definitions}# the end\n`]]));
          const face: Face = { is: "definitions", of };
          const before = gridRows(view, face, { from: 0, count: 100, isUnmarked: true });
          const row = before.rows[which % before.rows.length]!;
          const place = at % before.columns.length;
          const column = before.columns[place]!.id;
          if (column === "name") return;
          const files = textsOf(view);
          const made = cellEdit(view, { row: row.id, column }, text);
          if (made.is === "refused") return;
          make(view, made);
          const after = gridRows(view, face, { from: 0, count: 100, isUnmarked: true });
          const own = after.rows.find(({ id }) => id === row.id)!;
          expect(own.cells[place]!.text).toBe(text.replace(/\r\n|[\r\n]/g, " ").trim());
          const rest = (all: typeof before) =>
            all.rows.map((each) =>
              each.cells.flatMap((cell, index) => (each.id === row.id && index === place ? [] : cell.text)),
            );
          expect(rest(after)).toEqual(rest(before));
          const lines = (texts: Map<string, string>): string[] => [...texts.values()].join("\n").split("\n");
          const had = new Set(lines(files));
          expect(lines(textsOf(view)).filter((line) => !had.has(line)).length).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 150 },
    );
  });
});
